// SPDX-License-Identifier: MIT
#include "matter/fuel.h"

#include <array>
#include <cassert>

#include "reason/document.h"

namespace bw::matter {
namespace {

using reason::Standing;

Fuel natural() {
    return {.gas = Gas::natural,
            .burns = "Natural gas burns as methane",
            .formula = "CH4 + 2 O2 = CO2 + 2 H2O",
            .carbon = 1,
            .hydrogen = 4,
            .higher = 1000.0 * btu_per_cubic_foot,
            .nameplate = 1000.0 * btu_per_cubic_foot,
            .specific_gravity = 0.60,
            .cr = 0.6094,
            .y = 0.9992,
            .viscosity = 1.2e-5,
            .tabled_by_heat = false,
            .usual_heating_value =
                Usual{"1000 Btu/ft3", "low end of pipeline gas, so that flows are not too small; ask the utility"},
            .usual_gravity = Usual{"0.60", "the gravity of the code's natural-gas tables"},
            .usual_delivery = Usual{"7 inH2O", "usual low-pressure delivery; ask the utility"},
            .heating_values = Range{800, 1300},
            .gravities = Range{0.5, 0.8},
            .sources = {reason::ifgc("Table 402.4(2), heading (specific gravity)", Standing::published),
                        {"", "", "1,000 Btu/ft3; natural gas burns as methane", Standing::common_practice}}};
}

Fuel propane() {
    return {.gas = Gas::propane,
            .burns = "Propane burns",
            .formula = "C3H8 + 5 O2 = 3 CO2 + 4 H2O",
            .carbon = 3,
            .hydrogen = 8,
            .higher = 2516.0 * btu_per_cubic_foot,
            .nameplate = 2500.0 * btu_per_cubic_foot,
            .specific_gravity = 1.50,
            .cr = 1.2462,
            .y = 0.9910,
            .viscosity = 0.8e-5,
            .tabled_by_heat = true,
            .usual_heating_value = Usual{"2500 Btu/ft3",
                                         "rounded down from pure propane, so that flows are not too small; ask the "
                                         "supplier"},
            .usual_gravity = Usual{"1.50", "the gravity of the code's propane tables"},
            .usual_delivery = Usual{"11 inH2O", "usual after the second-stage regulator; ask the supplier"},
            .heating_values = Range{2200, 2700},
            .gravities = Range{1.4, 1.65},
            .sources = {{"NFPA 58", "", "properties of propane (heating value)", Standing::memory},
                        reason::ifgc("propane tables, heading (specific gravity)", Standing::published)}};
}

}  // namespace

const Fuel& fuel(Gas gas) {
    static const std::array fuels{natural(), propane()};
    static_assert(std::tuple_size_v<decltype(fuels)> == static_cast<std::size_t>(Gas::propane) + 1);
    assert(text::one_row_each(fuels, &Fuel::gas, Gas::propane) && "one row for each gas, in their order");
    return fuels[static_cast<std::size_t>(gas)];
}

}  // namespace bw::matter
