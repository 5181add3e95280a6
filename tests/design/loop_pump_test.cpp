// SPDX-License-Identifier: MIT
// The loop's pump is chosen by flow and by the head its designer gives, its return by velocity and the building's own.
#include <gtest/gtest.h>

#include "../support/examples.h"
#include "network/loop_pump.h"

namespace bw::test {
namespace {

using namespace units;  // NOLINT

survey::Survey with_head(double feet) {
    auto survey = example("hostel");
    survey.recirculation.branches.clear();
    survey.recirculation.head = feet * foot;
    return survey;
}

const catalogue::Item& pump_of(const design::Result& result) {
    for (const auto& piece : result.chosen->built.plant.pieces)
        if (piece.part == text::Part::pump) return *demo_catalogue().item(piece.item);
    throw std::runtime_error("no pump");
}

TEST(LoopPump, AHigherHeadTakesAStrongerPumpAndTheDutyPasses) {
    double before = 0;
    for (const double feet : {2.0, 6.0, 10.0, 16.0}) {
        const auto result = design::run(with_head(feet), demo_catalogue());
        ASSERT_TRUE(result && result->chosen) << feet;
        const auto* duty = check_of(*result, "water.recirculation-duty");
        ASSERT_TRUE(duty) << feet;
        EXPECT_NE(duty->status, reason::Status::fail) << feet << " ft: " << duty->says;
        const auto curve = network::pump_curve(pump_of(*result));
        const double gives = curve.at(result->demand.recirculation_flow).value();
        EXPECT_GE(gives, before) << feet;
        EXPECT_GT(gives, feet * 0.3048) << "more than the building's, for the plant takes some itself";
        before = gives;
    }
}

TEST(LoopPump, TheCheapestThatDoes) {
    const auto flow = 4.0 * gallon_per_minute;
    const auto* small = network::pump_for(demo_catalogue(), flow, 5.0 * foot);
    const auto* strong = network::pump_for(demo_catalogue(), flow, 20.0 * foot);
    ASSERT_TRUE(small && strong);
    EXPECT_LT(small->price, strong->price);
    EXPECT_GE(network::pump_curve(*strong).at(flow), 20.0 * foot);
    for (const auto* row : demo_catalogue().of(text::Part::pump))
        if (network::pump_curve(*row).at(flow) >= 20.0 * foot && *row->number("flow-3") >= flow.value()) {
            EXPECT_LE(strong->price, row->price);
        }
    EXPECT_EQ(network::pump_for(demo_catalogue(), flow, 500.0 * foot), nullptr);
}

TEST(LoopReturn, NoSmallerThanTheBuildingsAndWithinItsVelocity) {
    auto survey = with_head(4);
    survey.room.recirculation.size = Nominal{12};  // 1-1/2 in
    const auto result = design::run(survey, demo_catalogue());
    ASSERT_TRUE(result && result->chosen);
    EXPECT_GE(result->chosen->built.sizes.size(), 1u);
    for (const auto& sizing : result->chosen->built.sizes)
        if (sizing.service == text::Service::recirculation) {
            EXPECT_GE(sizing.size, Nominal{12});
        }
    // at 3 ft/s 3/4 in type L carries about 4.5 gpm: more flow takes a larger return
    survey.room.recirculation.size.reset();
    survey.recirculation.flow.value = 7.0 * gallon_per_minute;
    const auto fast = design::run(survey, demo_catalogue());
    ASSERT_TRUE(fast && fast->chosen);
    const auto* velocity = check_of(*fast, "water.recirculation-velocity");
    ASSERT_TRUE(velocity);
    EXPECT_NE(velocity->status, reason::Status::fail) << velocity->says;
}

}  // namespace
}  // namespace bw::test
