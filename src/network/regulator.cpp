// SPDX-License-Identifier: MIT
#include "network/regulator.h"

#include <algorithm>
#include <cmath>

namespace bw::network {

units::VolumeFlow regulator_passes(const catalogue::Item& regulator, units::Pressure inlet) {
    const auto capacity = regulator.number("capacity");
    const double outlet = regulator.number("outlet").value_or(0),
                 stated_at = regulator.number("capacity-inlet").value_or(0);
    if (!capacity || inlet.value() <= outlet) return {};
    const double share = stated_at <= outlet ? 1 : std::min(1.0, (inlet.value() - outlet) / (stated_at - outlet));
    return units::VolumeFlow::from_value(*capacity * std::sqrt(share));
}

}  // namespace bw::network
