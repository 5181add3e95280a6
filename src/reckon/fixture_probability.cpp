// SPDX-License-Identifier: MIT
#include "code/fixture_probability.h"

#include <fmt/format.h>

#include <cmath>

#include "demand/spread.h"
#include "reckon/topic.h"

namespace bw::reckon {

namespace {

using demand::Spread;
using units::gallon_per_minute;
using units::VolumeFlow;

struct Asked {
    std::vector<demand::FixtureGroup> kinds;
    reason::Step step{"Fixtures that may run", "n p"};
    reason::Sources sources;
};

Asked asked(const Inputs& in) {
    Asked out;
    for (const auto word : text::names<code::LikelyFixture>()) {
        if (!in.has(word) || in.number(word) <= 0) continue;
        const auto row = code::likely(text::named<code::LikelyFixture>(word).value());
        const double count = in.number(word);
        out.kinds.push_back(
            {std::lround(count), row.busy, static_cast<int>(std::lround(row.flow / demand::lattice_step))});
        out.step.says += fmt::format("{} {:g} {} (p = {:g}, q = {:g} gpm)", out.kinds.size() == 1 ? ":" : ";", count,
                                     word, row.busy, double(row.flow / gallon_per_minute));
        add(out.sources, {row.source});
    }
    return out;
}

VolumeFlow flow_by(const Spread& spread, const std::string& method, double share) {
    if (method == "normal") return spread.normal_percentile(share);
    return method == "exact" ? spread.percentile(share) : spread.percentile_if_running(share);
}

reason::Step working(const Spread& spread, const std::string& method, double share, VolumeFlow flow) {
    const reason::Term result{"Q", "flow", units::amount(flow)};
    if (method == "normal")
        return {fmt::format("Normal approximation; within its limit from a mean of {:g} fixtures running{}",
                            demand::normal_from, spread.running() < demand::normal_from ? ", which these are not" : ""),
                "Q = sum n p q + z sqrt(sum n p (1 - p) q^2)",
                {{"z", "standard deviations", units::number(demand::normal_quantile(share))},
                 {"m", "mean flow", units::amount(spread.mean())},
                 {"s", "standard deviation", units::amount(spread.deviation())}},
                result};
    const bool exact = method == "exact";
    return {fmt::format("Least flow on a lattice of 0.01 gpm not exceeded with that chance{}; chances left out at the "
                        "ends: {:.1g}",
                        exact ? "" : ", among the moments when at least one runs", spread.dropped()),
            exact ? "P(V <= Q) >= share" : "(P(V <= Q) - P(0)) / (1 - P(0)) >= share",
            {{"share", "percentile", units::percent(share)}},
            result};
}

Result<Findings> run(const Inputs& in, const catalogue::Catalogue&) {
    const double percentile = in.number("percentile");
    if (!(percentile > 50 && percentile < 100))
        return fail(fmt::format("percentile: {:g} is out of range", percentile), "between 50 and 100, such as 99");
    auto given = asked(in);
    if (given.kinds.empty())
        return fail("no fixture", "at least one: " + text::one_of(text::names<code::LikelyFixture>()));
    const auto spread = Spread::of(given.kinds);
    if (!spread) return tl::unexpected(spread.error());
    const auto method = in.word("method");
    const double share = percentile / 100;
    const auto flow = flow_by(*spread, method, share);
    given.step.result = reason::Term{"H", "mean number running", units::number(spread->running())};
    Findings out{{{"flow", units::amount(flow), "at the percentile, as drawn"},
                  {"busy", units::number(spread->running()), "mean number running"},
                  {"idle", units::number(spread->idle()), "chance that none runs"}},
                 {given.step, working(*spread, method, share, flow)},
                 given.sources};
    if (method == "normal")
        out.result.push_back({"within-limit", spread->running() >= demand::normal_from, "of the approximation"});
    else
        out.result.push_back({"dropped", units::number(spread->dropped()), "chance left out at the ends"});
    return out;
}

}  // namespace

Entry fixture_probability() {
    Topic topic{"fixture-probability",
                "Flow of dwellings' fixtures running at once, by chance",
                {{.name = "percentile",
                  .says = "of the busiest hour's moments, between 50 and 100",
                  .kind = units::Kind::number,
                  .required = false,
                  .fallback = "99"},
                 {.name = "method",
                  .says = "exact sum, its normal approximation, or given that one runs",
                  .form = Form::word,
                  .required = false,
                  .fallback = "exact",
                  .choices = {"exact", "normal", "conditioned"}}}};
    for (const auto word : text::names<code::LikelyFixture>())
        topic.names.push_back({.name = word, .says = "how many", .form = Form::count, .required = false});
    return {std::move(topic), run};
}

}  // namespace bw::reckon
