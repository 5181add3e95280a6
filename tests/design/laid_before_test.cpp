// SPDX-License-Identifier: MIT
// A plant of which a part was laid before is the plant that is laid anew.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "../support/examples.h"
#include "../support/random_survey.h"

namespace bw::test {
namespace {

using survey::Survey;

struct Edit {
    const char* what;
    void (*make)(Survey&);
    bool lays_anew = false;  ///< the pieces of the mains, for every example
};

const std::vector<Edit> edits{
    {"labour rate", [](Survey& s) { s.preferences.labour_rate.value = 140; }},
    {"pressure", [](Survey& s) { s.supply.pressure.value = 75.0 * units::psi; }},
    {"pressure above the code's greatest", [](Survey& s) { s.supply.pressure.value = 95.0 * units::psi; }},
    {"pressure as it was", [](Survey& s) { s.supply.pressure.value = 65.0 * units::psi; }},
    {"coldest water", [](Survey& s) { s.supply.coldest.value = units::fahrenheit(52); }},
    {"colder", [](Survey& s) { s.supply.coldest.value = units::fahrenheit(36); }},
    {"hardness", [](Survey& s) { s.supply.hardness.value = 300; }},
    {"gravity", [](Survey& s) { s.gas.specific_gravity.value = 0.66; }},
    {"gas pressure", [](Survey& s) { s.gas.delivery_pressure.value = 2.0 * units::psi; }},
    {"gas drop", [](Survey& s) { s.gas.allowed_drop.value = 0.3 * units::inch_water; }},
    {"water pipe", [](Survey& s) { s.preferences.water_pipe.value = text::Material::copper_k; }, true},
    {"no loop", [](Survey& s) { s.recirculation.present.value = false; }},
    {"closed", [](Survey& s) { s.supply.closed.value = true; }},
    {"engineered gas", [](Survey& s) { s.preferences.engineered_gas.value = true; }},
    {"no alarm", [](Survey& s) { s.co_alarm_required.value = !s.co_alarm_required.value; }},
    {"single vents", [](Survey& s) { s.preferences.vent.value = survey::VentPreference::single; }},
    {"room air", [](Survey& s) { s.preferences.room_air.value = true; }},
    {"ceiling", [](Survey& s) { s.room.ceiling.value = s.room.ceiling.value + 6.0 * units::inch; }, true},
    {"an obstacle",
     [](Survey& s) {
         s.room.obstacles.push_back({"a column", shape::box_of({0, 0, 0}, {0.1, 0.1, 2})});
     },
     true},
    {"walls of wood",
     [](Survey& s) {
         for (auto& wall : s.room.walls) wall.build.value = survey::WallBuild::wood_stud;
     },
     true},
};

std::string told(const Result<design::Result>& result) {
    return result ? design::to_json(*result, units::System::us) : units::describe(result.error());
}

class PlantCache : public testing::TestWithParam<const char*> {};
INSTANTIATE_TEST_SUITE_P(All, PlantCache, testing::ValuesIn(example_names));

TEST_P(PlantCache, EveryEditGivesThePlantThatIsLaidAnew) {
    const auto& first = designed(GetParam());
    const auto heater = first.capacity.heater, layout = first.chosen->layout.id;
    std::size_t built = 0;
    for (const auto& edit : edits) {
        piping::PlantCache before;
        Survey survey = example(GetParam());
        const auto design = [&](piping::PlantCache* with) {
            return design::run_layout(survey, demo_catalogue(), heater, layout, 1, with);
        };
        EXPECT_TRUE(design(&before));
        const int own = before.taken();
        edit.make(survey);
        const auto with = design(&before);
        EXPECT_TRUE(told(with) == told(design(nullptr))) << edit.what;
        if (!with) continue;  // more heaters than the place holds, say
        ++built;
        if (edit.lays_anew) {
            // a round of one design may come back to the sizes of another of its own
            piping::PlantCache alone;
            EXPECT_TRUE(design(&alone));
            EXPECT_EQ(before.taken() - own, alone.taken()) << edit.what;
        }
        const int laid = before.laid();
        survey = example(GetParam());
        EXPECT_TRUE(design(&before));
        EXPECT_EQ(before.laid(), laid) << edit.what << ", taken back";
    }
    EXPECT_GE(built, edits.size() / 2);
}

TEST_P(PlantCache, AnEditThatPipeDoesNotFeelLaysNothing) {
    const auto& first = designed(GetParam());
    piping::PlantCache before;
    Survey survey = example(GetParam());
    const auto design = [&] {
        return design::run_layout(survey, demo_catalogue(), first.capacity.heater, first.chosen->layout.id, 1, &before);
    };
    ASSERT_TRUE(design());
    const int rounds = before.laid();
    EXPECT_GE(rounds, 1);
    EXPECT_EQ(before.taken(), 0);
    survey.supply.hardness.value += 1;
    ASSERT_TRUE(design());
    EXPECT_EQ(before.laid(), rounds);
    EXPECT_EQ(before.taken(), rounds);
}

/// The vessel follows the water's warmth, which is no part of what is compared.
TEST(LaidBeforeAndTheVessel, IsChosenAnewAndAFailureIsNotKept) {
    auto catalogue = demo_catalogue();
    const auto& first = designed("hostel");
    Survey survey = example("hostel");
    piping::PlantCache before;
    const auto vessel_at = [&](double fahrenheit) -> std::string {
        survey.temperatures.distribution.value = units::fahrenheit(fahrenheit);
        const auto design = [&](piping::PlantCache* with) {
            return design::run_layout(survey, catalogue, first.capacity.heater, first.chosen->layout.id, 1, with);
        };
        const auto with = design(&before);
        EXPECT_TRUE(told(with) == told(design(nullptr))) << fahrenheit;
        if (!with) return with.error().what;
        const auto& plant = with->chosen->built.plant;
        const int vessel = plant.find("main.cold.expansion.vessel");
        return vessel < 0 ? "none" : plant.pieces[static_cast<std::size_t>(vessel)].item;
    };
    // the rows stand for the water: what they take decides, and is no part of the ground either
    const auto acceptance = [&](double share) {
        for (auto& item : catalogue.items)
            if (item.part == text::Part::expansion_vessel) item.data["acceptance"] *= share;
    };
    const auto cool = vessel_at(125), warm = vessel_at(130);
    EXPECT_NE(cool, "none");
    EXPECT_NE(warm, "none");
    EXPECT_EQ(vessel_at(125), cool);
    EXPECT_EQ(vessel_at(130), warm);
    acceptance(0.01);
    // refused for it, or where a way without room for the vessel's tee was found, laid without one
    EXPECT_THAT(vessel_at(130), testing::AnyOf("none", testing::HasSubstr("expansion vessel: none")));
    acceptance(100);
    EXPECT_EQ(vessel_at(130), warm);
}

TEST(LaidBeforeOfManyJobs, NoneTakesAnothersPlant) {
    piping::PlantCache before;
    int built = 0;
    for (std::uint64_t seed = 0; seed < 15; ++seed) {
        auto survey = survey::parse(random_survey(seed), "random.toml");
        if (!survey) continue;
        const auto first = design::run(*survey, demo_catalogue());
        if (!first || !first->chosen) continue;
        ++built;
        Dice dice(seed);
        for (int turn = 0; turn < 4; ++turn) {
            if (turn > 0)
                edits[static_cast<std::size_t>(dice.whole(0, static_cast<int>(edits.size()) - 1))].make(*survey);
            const auto design = [&](piping::PlantCache* with) {
                return design::run_layout(*survey, demo_catalogue(), first->capacity.heater, first->chosen->layout.id,
                                          1, with);
            };
            EXPECT_TRUE(told(design(&before)) == told(design(nullptr))) << "seed " << seed << ", turn " << turn;
        }
    }
    EXPECT_GE(built, 5);
    EXPECT_GE(before.taken(), built);
}

}  // namespace
}  // namespace bw::test
