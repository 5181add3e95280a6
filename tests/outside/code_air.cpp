// SPDX-License-Identifier: MIT
// Combustion air, vent terminals, altitude (IFGC 2018 304 and 503.8, NFPA 54 2018) and pipe insulation (ASHRAE 90.1).
#include "code/altitude.h"
#include "code/combustion_air.h"
#include "code/vent_terminal.h"
#include "code/water.h"
#include "code_rows.h"

namespace bw::outside {

namespace {

using namespace bw::code;  // NOLINT

Power input_of(const Row& row) { return number_in(row, "a") * btu_per_hour; }

Meaning opening(Openings method) {
    return [method](const Row& row) { return double(air_opening(input_of(row), method).value.each / square_inch); };
}

Meaning infiltrated(Draft draft) {
    return [draft](const Row& row) {
        auto volume = indoor_air_volume(input_of(row), number_in(row, "b"), draft);
        EXPECT_TRUE(volume);
        return volume ? double(volume->value / cubic_foot) : 0;
    };
}

double distance(const std::vector<TerminalDistance>& all, const std::string& from) {
    for (const auto& each : all)
        if (each.from.find(from) != std::string::npos) return each.least.value / foot;
    ADD_FAILURE() << "no distance from " << from;
    return 0;
}

}  // namespace

TEST(CombustionAir, VolumesOpeningsTerminalsAndAltitude) {
    std::map<std::string, Meaning> meanings;
    meanings["volume-standard"] = [](const Row& row) {
        return double(indoor_air_volume(input_of(row)).value / cubic_foot);
    };
    meanings["volume-fan"] = infiltrated(Draft::fan_assisted);
    meanings["volume-draft"] = infiltrated(Draft::natural);
    meanings["opening-other-storey"] = opening(Openings::indoors_other_storey);
    meanings["opening-two-horizontal"] = opening(Openings::outdoors_two_horizontal);
    meanings["opening-two-direct"] = opening(Openings::outdoors_two_direct);
    meanings["opening-one"] = opening(Openings::outdoors_one);
    meanings["opening-least-side"] = [](const Row&) { return double(air_opening_least_side().value / inch); };
    meanings["louver-gross"] = [](const Row& row) {
        auto gross = louver_area(number_in(row, "a") * square_inch);
        EXPECT_TRUE(gross);
        return gross ? double(gross->value / square_inch) : 0;
    };
    meanings["mechanical"] = [](const Row& row) {
        return double(mechanical_air(input_of(row)).value / cubic_foot_per_minute);
    };
    meanings["terminal"] = [](const Row& row) { return distance(mechanical_draft_distances(), row.at("a")); };
    meanings["direct-vent-opening"] = [](const Row& row) {
        return 12 * distance(direct_vent_distances(input_of(row)), "air opening");
    };
    meanings["altitude"] = [](const Row& row) {
        auto factor = altitude_factor(number_in(row, "a") * foot);
        EXPECT_TRUE(factor);
        return factor ? factor->value : 0;
    };
    auto seen = hold_all("code_air.csv", meanings);
    EXPECT_GE(seen["volume-standard"], 4);
}

TEST(Insulation, ThicknessOfTheEnergyStandard) {
    std::map<std::string, Meaning> meanings;
    meanings["insulation"] = [](const Row& row) {
        auto size = parse_nominal(row.at("b"));
        EXPECT_TRUE(size);
        auto thick = insulation_thickness(fahrenheit(number_in(row, "a")), *size);
        EXPECT_TRUE(thick);
        return thick ? double(thick->value / inch) : 0;
    };
    hold_all("code_insulation.csv", meanings);
}

}  // namespace bw::outside
