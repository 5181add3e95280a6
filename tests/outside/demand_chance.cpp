// SPDX-License-Identifier: MIT
// Simultaneous flow by chance (against SciPy and 50-digit arithmetic), use by those served, mains water, scalds,
// mixing.
#include <boost/multiprecision/cpp_bin_float.hpp>
#include <sstream>

#include "code/fixture_probability.h"
#include "code/occupancy.h"
#include "code/scald.h"
#include "code_rows.h"
#include "demand/methods.h"
#include "matter/mains_water.h"

namespace bw::outside {

namespace {

using namespace bw::units;  // NOLINT
using demand::FixtureGroup;
using demand::Spread;
using Digits = boost::multiprecision::number<boost::multiprecision::cpp_bin_float<50>, boost::multiprecision::et_off>;

/// "50x0.055x5.5 20x0.25x2": number, chance, gpm.
std::vector<FixtureGroup> groups(const std::string& text) {
    std::vector<FixtureGroup> out;
    std::istringstream in(text);
    char x{};
    double gpm{};
    for (FixtureGroup group; in >> group.count >> x >> group.busy >> x >> gpm;) {
        group.steps = static_cast<int>(std::lround(100 * gpm));
        out.push_back(group);
    }
    EXPECT_FALSE(out.empty()) << text;
    return out;
}

Spread spread(const std::string& text) {
    auto found = Spread::of(groups(text));
    EXPECT_TRUE(found) << text;
    return found.value_or(Spread());
}

double share_of(const Row& row) { return number_in(row, "b") / 100; }
double gpm(VolumeFlow flow) { return flow / gallon_per_minute; }

std::pair<double, double> two(const std::string& text) {
    std::istringstream in(text);
    double a{}, b{};
    in >> a >> b;
    return {a, b};
}

std::map<std::string, Meaning> chances() {
    std::map<std::string, Meaning> out;
    const auto row = [](const Row& r) { return code::likely(text::named<code::LikelyFixture>(r.at("a")).value()); };
    out["busy"] = [row](const Row& r) { return row(r).busy; };
    out["flow"] = [row](const Row& r) { return gpm(row(r).flow); };
    out["running"] = [](const Row& r) { return spread(r.at("a")).running(); };
    out["idle"] = [](const Row& r) { return spread(r.at("a")).idle(); };
    out["conditioned"] = [](const Row& r) { return gpm(spread(r.at("a")).percentile_if_running(share_of(r))); };
    out["normal"] = [](const Row& r) { return gpm(spread(r.at("a")).normal_percentile(share_of(r))); };
    out["percentile"] = [](const Row& r) { return gpm(spread(r.at("a")).percentile(share_of(r))); };
    out["tail"] = [](const Row& r) { return spread(r.at("a")).above(number_in(r, "b") * gallon_per_minute); };
    return out;
}

/// Chances 0, 1, … of how many run, from the bottom, until what is left cannot matter.
std::vector<Digits> binomial_digits(long count, const Digits& busy) {
    std::vector<Digits> out;
    Digits term = pow(1 - busy, static_cast<unsigned>(count)), sum = 0;
    const Digits odds = busy / (1 - busy);
    for (long k = 0; k <= count; ++k) {
        out.push_back(term);
        sum += term;
        if (k > busy * count && term < Digits("1e-30")) break;
        term *= odds * (count - k) / (k + 1);
    }
    return out;
}

}  // namespace

TEST(FixtureProbability, PublishedValuesAndComputedChecks) {
    auto seen = hold_all("demand_probability.csv", chances());
    EXPECT_EQ(seen["busy"], 6);
    EXPECT_EQ(seen["conditioned"], 2);
}

TEST(FixtureProbability, BinomialTailsAndSumsBySciPy) {
    auto seen = hold_all("demand_scipy.csv", chances());
    EXPECT_EQ(seen["tail"], 17);
    EXPECT_EQ(seen["percentile"], 9);
}

TEST(FixtureProbability, TenThousandFixturesAgainstFiftyDigits) {
    const std::string text =
        "1000x0.055x5.5 1000x0.02x1.5 1000x0.02x2.2 1000x0.005x1.3 1000x0.055x3.5 1000x0.045x2 1000x0.01x5.5 "
        "1000x0.02x2 1000x0.01x3 1000x0.01x2";
    std::vector<Digits> exact{1};  // on a lattice of 0.1 gpm, which all these flows stand on
    for (const auto& group : groups(text)) {
        // the chance the program uses is the double, and that is what is held against here
        const auto one = binomial_digits(group.count, Digits(group.busy));
        const auto step = static_cast<std::size_t>(group.steps / 10);
        std::vector<Digits> next(exact.size() + step * (one.size() - 1), Digits(0));
        for (std::size_t j = 0; j < one.size(); ++j)
            for (std::size_t i = 0; i < exact.size(); ++i)
                if (exact[i] > 1e-30) next[i + j * step] += one[j] * exact[i];
        exact = std::move(next);
    }
    const auto ours = spread(text);
    EXPECT_LT(ours.dropped(), 1e-15);
    EXPECT_EQ(ours.stride() % 10, 0);
    Digits tail = 0;
    double worst_point = 0, worst_tail = 0;
    int compared = 0;
    for (std::size_t i = exact.size(); i-- > 0;) {
        const double flow = 0.1 * static_cast<double>(i);
        if (tail > 1e-6) {
            const double ratio = ours.above(flow * gallon_per_minute) / tail.convert_to<double>();
            worst_tail = std::max(worst_tail, std::abs(ratio - 1));
        }
        if (exact[i] > 1e-8) {
            const double ratio = ours.at(10 * static_cast<long>(i)) / exact[i].convert_to<double>();
            worst_point = std::max(worst_point, std::abs(ratio - 1));
            ++compared;
        }
        tail += exact[i];
    }
    EXPECT_GT(compared, 1000);
    EXPECT_LT(worst_point, 1e-9);
    EXPECT_LT(worst_tail, 1e-9);
}

TEST(FixtureProbability, AHandfulByEveryOutcome) {
    // 13 unlike fixtures: all 8,192 outcomes, one by one
    std::vector<FixtureGroup> kinds;
    for (int i = 0; i < 13; ++i) kinds.push_back({1, 0.03 + 0.07 * i, 40 + 37 * i});
    std::map<int, double> exact;
    for (int outcome = 0; outcome < 1 << 13; ++outcome) {
        double chance = 1;
        int steps = 0;
        for (std::size_t i = 0; i < kinds.size(); ++i) {
            const bool runs = (outcome >> i & 1) != 0;
            chance *= runs ? kinds[i].busy : 1 - kinds[i].busy;
            steps += runs ? kinds[i].steps : 0;
        }
        exact[steps] += chance;
    }
    const auto ours = Spread::of(kinds).value();
    double sum = ours.dropped();
    for (long s = ours.first(); s <= ours.last(); s += ours.stride()) sum += ours.at(s);
    EXPECT_NEAR(sum, 1, 1e-14);
    for (const auto& [steps, chance] : exact) {
        if (chance > 1e-9) {
            EXPECT_NEAR(ours.at(steps) / chance, 1, 1e-9) << steps;
        }
    }
}

TEST(Occupancy, RowsOfTheTable) {
    std::map<std::string, Meaning> meanings;
    const auto use = [](const Row& row) {
        auto found = code::occupancy_use(text::named<code::Occupancy>(row.at("a")).value(), number_in(row, "b"));
        EXPECT_TRUE(found);
        return found->value;
    };
    meanings["max-hour"] = [use](const Row& row) { return use(row).max_hour / gallon; };
    meanings["max-day"] = [use](const Row& row) { return use(row).max_day / gallon; };
    meanings["average-day"] = [use](const Row& row) { return use(row).average_day / gallon; };
    meanings["between"] = [](const Row& row) {
        auto found =
            code::occupancy_use_between(text::named<code::Occupancy>(row.at("a")).value(), number_in(row, "b"));
        EXPECT_TRUE(found);
        return found->value.max_hour / gallon;
    };
    // the handbook's examples of recovery and storage
    meanings["least-recovery"] = [use](const Row& row) {
        return demand::least_recovery(use(row).max_day) / gallon_per_hour;
    };
    meanings["tank"] = [](const Row& row) { return demand::tank_for(number_in(row, "a") * gallon) / gallon; };
    auto seen = hold_all("demand_occupancy.csv", meanings);
    EXPECT_EQ(seen["max-hour"], 4 + 1);
    EXPECT_EQ(seen["least-recovery"], 4);
}

TEST(Water, MainsScaldsAndMixing) {
    std::map<std::string, Meaning> meanings;
    meanings["mains"] = [](const Row& row) {
        const auto [mean, swing] = two(row.at("a"));
        auto found = matter::mains_temperature({fahrenheit(mean), swing * degF_difference}, number_in(row, "b"));
        EXPECT_TRUE(found);
        return found->value() * 1.8 - 459.67;
    };
    meanings["scald"] = [](const Row& row) {
        auto found = code::scald_time(fahrenheit(number_in(row, "a")));
        EXPECT_TRUE(found);
        return found->value.time / second;
    };
    meanings["mix"] = [](const Row& row) {
        const auto [cold, hot] = two(row.at("a"));
        auto found = demand::hot_share(fahrenheit(cold), fahrenheit(number_in(row, "b")), fahrenheit(hot));
        EXPECT_TRUE(found);
        return *found;
    };
    auto seen = hold_all("demand_mains.csv", meanings);
    EXPECT_EQ(seen["mains"], 3);
    EXPECT_EQ(seen["scald"], 6);
}

}  // namespace bw::outside
