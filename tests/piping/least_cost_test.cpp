// SPDX-License-Identifier: MIT
// The least cost found against every choice there is, on small random plants.
#include "piping/size/least_cost.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <random>

namespace bw::piping {
namespace {

struct Small {
    std::vector<Stretch> stretches;
    double most = 0;
};

/// Some changes there is no room for.
double change(std::size_t stretch, int from, int to) {
    return stretch % 3 == 2 && from - to > 1 ? std::numeric_limits<double>::infinity() : 1.5 * (from - to);
}

/// A main, banks of headers in lengths behind it, and branches: sizes cost more and lose less as they rise.
Small small_plant(std::mt19937& random) {
    const auto between = [&](int low, int high) { return std::uniform_int_distribution<int>(low, high)(random); };
    const auto real = [&](double low, double high) {
        return std::uniform_real_distribution<double>(low, high)(random);
    };
    const int sizes = between(2, 4), count = between(2, 7);
    Small plant;
    double first_losses = 0;
    for (int i = 0; i < count; ++i) {
        Stretch stretch;
        stretch.before = i == 0 ? -1 : between(0, i - 1);
        stretch.behind = static_cast<Stretch::Behind>(between(0, 2));
        double cost = real(1, 10), loss = real(5, 20);
        first_losses += loss;
        for (int size = 0; size < sizes; ++size) {
            stretch.offers.push_back(Offer{cost, loss});
            if (between(0, 9) == 0) stretch.offers.back().reset();
            cost *= real(1.05, 1.6);
            loss *= real(0.2, 0.9);
        }
        plant.stretches.push_back(std::move(stretch));
    }
    plant.most = first_losses * real(0.1, 0.9);
    return plant;
}

/// Cost of one choice of sizes, or nothing where it may not be.
std::optional<double> cost_of(const Small& plant, const std::vector<int>& size) {
    double cost = 0;
    std::vector<double> lost(size.size());
    for (std::size_t i = 0; i < size.size(); ++i) {
        const auto& stretch = plant.stretches[i];
        const auto& offer = stretch.offers[static_cast<std::size_t>(size[i])];
        if (!offer) return std::nullopt;
        cost += offer->cost;
        lost[i] = offer->loss;
        if (stretch.before < 0) continue;
        const auto before = static_cast<std::size_t>(stretch.before);
        lost[i] += lost[before];
        if (stretch.behind == Stretch::Behind::same && size[i] != size[before]) return std::nullopt;
        if (stretch.behind != Stretch::Behind::no_larger) continue;
        if (size[i] > size[before]) return std::nullopt;
        cost += size[i] == size[before] ? 0 : change(i, size[before], size[i]);
    }
    if (!std::isfinite(cost)) return std::nullopt;
    for (const double loss : lost)
        if (loss > plant.most) return std::nullopt;
    return cost;
}

std::optional<double> exhaustive(const Small& plant) {
    std::optional<double> best;
    std::vector<int> size(plant.stretches.size());
    for (;;) {
        if (const auto cost = cost_of(plant, size); cost && (!best || *cost < *best)) best = cost;
        std::size_t i = 0;
        while (i < size.size() && ++size[i] == static_cast<int>(plant.stretches[i].offers.size())) size[i++] = 0;
        if (i == size.size()) return best;
    }
}

TEST(LeastCost, IsWhatExhaustiveSearchFindsOnSmallPlants) {
    int possible = 0, impossible = 0;
    for (unsigned seed = 1; seed <= 600; ++seed) {
        std::mt19937 random(seed);
        const auto plant = small_plant(random);
        const auto expected = exhaustive(plant);
        const auto found = least_cost(plant.stretches, plant.most, change);
        ASSERT_EQ(found.has_value(), expected.has_value()) << "seed " << seed;
        (expected ? possible : impossible) += 1;
        if (!found) continue;
        EXPECT_NEAR(found->cost, *expected, 1e-9) << "seed " << seed;
        const auto again = cost_of(plant, found->size);
        ASSERT_TRUE(again) << "seed " << seed;
        EXPECT_NEAR(*again, found->cost, 1e-9) << "seed " << seed;
        EXPECT_LE(found->loss, plant.most);
    }
    EXPECT_GE(possible, 200);
    EXPECT_GE(impossible, 50);
}

TEST(LeastCost, ChangesOfSizeArePaidFor) {
    // thinner behind is cheaper by 1, and the change costs 1.5
    std::vector<Stretch> two(2);
    two[0].offers = {std::nullopt, Offer{10, 1}};
    two[1].before = 0;
    two[1].offers = {Offer{4, 1}, Offer{5, 1}};
    const auto found = least_cost(two, 10, change);
    ASSERT_TRUE(found);
    EXPECT_EQ(found->size, (std::vector<int>{1, 1}));
    EXPECT_DOUBLE_EQ(found->cost, 15);
}

TEST(Cheapest, IsWhatExhaustiveSearchFinds) {
    for (unsigned seed = 1; seed <= 200; ++seed) {
        std::mt19937 random(seed);
        const auto real = [&](double low, double high) {
            return std::uniform_real_distribution<double>(low, high)(random);
        };
        std::vector<std::vector<double>> costs(3);
        for (auto& list : costs) {
            double cost = real(1, 5);
            for (int i = 0; i < 5; ++i) list.push_back(cost += real(0, 3));
        }
        std::vector<bool> good(125);
        for (std::size_t i = 0; i < good.size(); ++i) good[i] = real(0, 1) < 0.03;
        const auto passes = [&](const std::vector<int>& o) {
            return bool(good[static_cast<std::size_t>(o[0] * 25 + o[1] * 5 + o[2])]);
        };
        double best = std::numeric_limits<double>::infinity();
        for (int a = 0; a < 5; ++a)
            for (int b = 0; b < 5; ++b)
                for (int c = 0; c < 5; ++c)
                    if (passes({a, b, c}))
                        best = std::min(best, costs[0][static_cast<std::size_t>(a)] +
                                                  costs[1][static_cast<std::size_t>(b)] +
                                                  costs[2][static_cast<std::size_t>(c)]);
        const auto found = cheapest(costs, 125, passes);
        ASSERT_EQ(found.option.has_value(), best < 1e9) << "seed " << seed;
        if (found.option)
            EXPECT_NEAR(found.bound, best, 1e-9) << "seed " << seed;
        else
            EXPECT_EQ(found.tried, 125);
    }
}

TEST(Cheapest, StopsWhereTooManyFailAndGivesABound) {
    int asked = 0;
    const auto found = cheapest({{1, 2, 3}, {10, 20, 30}}, 2, [&](const auto&) { return ++asked, false; });
    EXPECT_FALSE(found.option);
    EXPECT_EQ(asked, 2);
    EXPECT_DOUBLE_EQ(found.bound, 12);
}

}  // namespace
}  // namespace bw::piping
