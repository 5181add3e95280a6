// SPDX-License-Identifier: MIT
// Every building with every fixture: an answer, or a refusal that says what to do.
#include <gtest/gtest.h>

#include "demand/methods.h"

namespace bw::demand {
namespace {

using text::Building;
using text::Fixture;

survey::Survey job(Building building) {
    survey::Survey s;
    s.use.building.value = building;
    s.supply.coldest.value = fahrenheit(45);
    s.temperatures.distribution.value = fahrenheit(125);
    s.temperatures.use.value = fahrenheit(105);
    return s;
}

void hold(const Demand& demand) {
    EXPECT_GT(demand.peak.value(), 0);
    EXPECT_FALSE(demand.governing.empty());
    EXPECT_TRUE(std::isfinite(demand.day.total.value()));
    int governing = 0;
    for (const auto& answer : demand.answers) {
        governing += answer.governs ? 1 : 0;
        EXPECT_FALSE(answer.says.empty()) << answer.id;
        EXPECT_FALSE(answer.derivation.empty()) << answer.id;
        EXPECT_FALSE(answer.sources.empty()) << answer.id;
    }
    EXPECT_EQ(governing, 1);
    ASSERT_TRUE(demand.levels);
    for (const auto& level : *demand.levels) {
        EXPECT_LT(level.spread.dropped(), 1e-15);
        EXPECT_LE(level.spread.idle(), 1);
    }
    for (const auto& load : demand.loads) {
        EXPECT_GE(load.busy, 0);
        EXPECT_LE(load.busy, 1);
        EXPECT_LE(load.hot, load.drawn * (1 + 1e-12));
    }
}

TEST(EveryBuilding, WithEveryFixtureAloneAndWithAll) {
    for (std::size_t b = 0; b < text::names<Building>().size(); ++b) {
        auto all = job(static_cast<Building>(b));
        for (std::size_t f = 0; f < text::names<Fixture>().size(); ++f) {
            const auto fixture = static_cast<Fixture>(f);
            auto one = job(static_cast<Building>(b));
            one.use.fixtures = {{fixture, 3}};
            all.use.fixtures[fixture] = 7;
            const auto demand = peak_demand(one);
            const bool dry = fixture == Fixture::urinal || fixture == Fixture::water_closet;
            ASSERT_EQ(demand.has_value(), !dry) << text::names<Building>()[b] << " " << text::names<Fixture>()[f];
            if (demand)
                hold(*demand);
            else
                EXPECT_FALSE(demand.error().expected.empty());
        }
        const auto demand = peak_demand(all);
        ASSERT_TRUE(demand) << text::names<Building>()[b];
        hold(*demand);
    }
}

TEST(EveryBuilding, MoreOfAFixtureIsNeverLess) {
    for (const auto fixture : {Fixture::shower_public, Fixture::basin_public, Fixture::clothes_washer_public}) {
        VolumeFlow before{};
        for (const int count : {1, 2, 5, 12, 40, 200, 1500}) {
            auto survey = job(Building::hotel);
            survey.use.fixtures = {{fixture, count}};
            const auto demand = peak_demand(survey);
            ASSERT_TRUE(demand) << count;
            EXPECT_GE(demand->fixtures, before) << count;
            if (demand->governing == "fixture-units") before = demand->fixtures;
        }
    }
}

}  // namespace
}  // namespace bw::demand
