// SPDX-License-Identifier: MIT
// Whole plants by their condensate: it falls to a drain on the floor, and is pumped to one that stands too high.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>

#include "../support/examples.h"
#include "proof/proof.h"

namespace bw::test {
namespace {

using reason::Status;
using ::testing::HasSubstr;
using text::Part;
using text::Service;

survey::Survey room(const std::string& name) {
    return survey::read(std::string(BANKWRIGHT_SOURCE) + "/tests/design/drains/" + name + ".toml").value();
}

class Falls : public testing::TestWithParam<const char*> {};
INSTANTIATE_TEST_SUITE_P(Rooms, Falls, testing::Values("beam", "two-walls", "panel"));

TEST_P(Falls, TheLineIsLaidSoThatItCanBeHungWithItsFall) {
    const auto result = designed(room(GetParam()));
    ASSERT_TRUE(result.chosen);
    const auto* fall = check_of(result, "condensate.fall");
    ASSERT_TRUE(fall);
    EXPECT_EQ(fall->status, Status::pass) << fall->says;
}

/// The wash-house with its drain in the long wall, far above the floor.
const survey::Survey& high_drain() {
    static const auto survey = [] {
        auto text = example("wash-house");
        text.room.drain.at = {20 * 0.3048, 8 * 0.3048, 60 * 0.0254};
        text.room.drain.facing = {-1, 0, 0};
        return text;
    }();
    return survey;
}

const design::Result& pumped() {
    static const auto result = designed(high_drain());
    return result;
}

int only(const plant::Plant& plant, Part part) {
    int found = -1;
    for (int i = 0; i < static_cast<int>(plant.pieces.size()); ++i)
        if (plant.pieces[static_cast<std::size_t>(i)].part == part) {
            EXPECT_EQ(found, -1) << "one only";
            found = i;
        }
    return found;
}

TEST(Pumped, ADrainTooHighIsReachedByAPumpAndNothingFails) {
    ASSERT_TRUE(pumped().chosen);
    for (const auto& check : pumped().checks) EXPECT_NE(check.status, Status::fail) << check.id << ": " << check.says;
    const auto& plant = pumped().chosen->built.plant;
    EXPECT_TRUE(plant::unlawful(plant).empty());
    ASSERT_GE(only(plant, Part::condensate_pump), 0);
    ASSERT_GE(only(plant, Part::overflow_switch), 0);
    for (const char* id : {"condensate.pump.flow", "condensate.pump.lift", "condensate.pump.check-valve",
                           "condensate.fall", "condensate.fall.discharge"}) {
        const auto* check = check_of(pumped(), id);
        ASSERT_TRUE(check) << id;
        EXPECT_TRUE(check->status == Status::pass || check->status == Status::tight) << id << ": " << check->says;
    }
    const auto* overflow = check_of(pumped(), "condensate.pump.overflow");
    ASSERT_TRUE(overflow);
    EXPECT_EQ(overflow->status, Status::refer) << "a licensed electrician wires it";
    EXPECT_THAT(overflow->says, HasSubstr("CAUTION"));
}

TEST(Pumped, ADrainOnTheFloorWantsNone) {
    for (const auto& piece : plant_of("wash-house").pieces) EXPECT_NE(piece.part, Part::condensate_pump);
}

TEST(Pumped, TheDischargeRisesOnceAndThenOnlyFalls) {
    const auto& plant = pumped().chosen->built.plant;
    plant::PortRef at{only(plant, Part::condensate_pump), 1};
    double level = plant.at(at).at.z;
    bool down = false;
    for (at = plant.mate(at); at.piece >= 0;) {
        const auto& piece = plant.pieces[static_cast<std::size_t>(at.piece)];
        if (piece.part == Part::connection) break;
        const plant::PortRef on{at.piece, at.port == 0 ? 1 : 0};
        const double next = plant.at(on).at.z;
        if (next < level - 1e-6) down = true;
        EXPECT_TRUE(!down || next <= level + 1e-6) << piece.id << " rises again";
        level = next;
        at = plant.mate(on);
    }
    EXPECT_TRUE(down);
}

TEST(Pumped, ItIsBoughtAndPriced) {
    const auto& lines = pumped().chosen->estimate.lines;
    for (const auto part : {Part::condensate_pump, Part::overflow_switch}) {
        const auto line = std::ranges::find_if(lines, [&](const auto& one) {
            const auto* item = demo_catalogue().item(one.item);
            return item && item->part == part;
        });
        ASSERT_NE(line, lines.end()) << text::name(part);
        EXPECT_GT(line->price, 0);
    }
}

/// Proves the pumped plant again after a change to its pieces and joints.
std::vector<reason::Check> proved_with(const std::function<void(plant::Plant&)>& change) {
    const auto& result = pumped();
    const auto& heater = *demo_catalogue().heater(result.chosen->capacity.heater);
    auto built = result.chosen->built;
    change(built.plant);
    const auto hydraulics =
        network::solve(built.plant, demo_catalogue(), {result.survey, heater, result.demand, result.chosen->capacity});
    return proof::prove({result.survey, demo_catalogue(), heater, result.demand, result.chosen->capacity,
                         result.chosen->layout, built, hydraulics});
}

Status status_of(const std::vector<reason::Check>& checks, const std::string& id) {
    const auto at = std::ranges::find(checks, id, &reason::Check::id);
    EXPECT_NE(at, checks.end()) << id;
    return at == checks.end() ? Status::pass : at->status;
}

TEST(Pumped, AnOverflowSwitchThatStopsNothingFails) {
    const auto checks = proved_with([](plant::Plant& plant) {
        std::erase_if(plant.joints, [&](const plant::Joint& joint) {
            return plant.at(joint.a).name == "alarm" || plant.at(joint.b).name == "alarm";
        });
        plant::Plant again;
        for (auto& piece : plant.pieces) again.add(piece);
        for (const auto& joint : plant.joints) again.join(joint.a, joint.b, joint.kind);
        plant = std::move(again);
    });
    EXPECT_EQ(status_of(checks, "condensate.pump.overflow"), Status::fail);
}

TEST(Pumped, WithoutItsCheckValveItFails) {
    const auto checks = proved_with([](plant::Plant& plant) {
        for (auto& piece : plant.pieces)
            if (piece.id == "main.condensate.discharge.check") piece.part = Part::coupling;
    });
    EXPECT_EQ(status_of(checks, "condensate.pump.check-valve"), Status::fail);
}

TEST(Pumped, APumpTooWeakForItsLiftFails) {
    const auto& result = pumped();
    auto weak = demo_catalogue();
    for (auto& item : weak.items)
        if (item.part == Part::condensate_pump)
            for (int i = 1; i <= 4; ++i) item.data[fmt::format("head-{}", i)] *= 0.3;
    const auto& heater = *weak.heater(result.chosen->capacity.heater);
    const auto hydraulics = network::solve(result.chosen->built.plant, weak,
                                           {result.survey, heater, result.demand, result.chosen->capacity});
    const auto checks = proof::prove({result.survey, weak, heater, result.demand, result.chosen->capacity,
                                      result.chosen->layout, result.chosen->built, hydraulics});
    EXPECT_EQ(status_of(checks, "condensate.pump.lift"), Status::fail);
    EXPECT_EQ(status_of(checks, "condensate.pump.flow"), Status::fail);
}

TEST(Pumped, TheLiftAndFrictionAgreeWithHazenWilliams) {
    // Hazen-Williams with C = 150 for plastic pipe (from memory), another law than the check's: within a third for the
    // friction, which is small beside the lift.
    const auto* check = check_of(pumped(), "condensate.pump.flow");
    ASSERT_TRUE(check && check->limit);
    const auto& plant = pumped().chosen->built.plant;
    double length = 0, highest = 0, level = 0;
    for (const auto& piece : plant.pieces) {
        if (!piece.id.starts_with("main.condensate.discharge") || piece.part != Part::pipe) continue;
        length += piece.cut;
        for (int p = 0; p < 2; ++p) highest = std::max(highest, piece.ports[static_cast<std::size_t>(p)].at.z);
        if (std::abs(piece.ports[0].at.z - piece.ports[1].at.z) < 1e-6) level += piece.cut;
    }
    const double flow = check->limit->si, bore = 0.622 * 0.0254;
    const double friction = 10.67 * length * std::pow(flow / 150, 1.852) / std::pow(bore, 4.8704);
    const auto& item =
        *demo_catalogue().item(plant.pieces[static_cast<std::size_t>(only(plant, Part::condensate_pump))].item);
    double head = 0;
    for (int i = 2; i <= 4 && head == 0; ++i) {
        const auto at = [&](const char* what, int n) { return *item.number(fmt::format("{}-{}", what, n)); };
        if (flow > at("flow", i)) continue;
        const double share = (flow - at("flow", i - 1)) / (at("flow", i) - at("flow", i - 1));
        head = at("head", i - 1) + share * (at("head", i) - at("head", i - 1));
    }
    EXPECT_NEAR(head, highest + level / 48 + friction, 0.15 * highest + 0.33 * friction);
}

}  // namespace
}  // namespace bw::test
