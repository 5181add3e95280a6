// SPDX-License-Identifier: MIT
#include "survey/points.h"

#include <array>

namespace bw::survey {

std::span<const PointRow> points() {
    using text::Service;
    static constexpr std::array rows{
        PointRow{"gas", "gas", "site.gas", 'G', Service::gas, &Room::gas},
        PointRow{"cold", "cold water", "site.cold", 'C', Service::cold, &Room::cold},
        PointRow{"hot", "hot water", "site.hot", 'H', Service::hot, &Room::hot},
        PointRow{"recirculation", "recirculation return", "site.recirculation", 'R', Service::recirculation,
                 &Room::recirculation},
        PointRow{"drain", "drain", "site.drain", 'D', Service::condensate, &Room::drain},
        PointRow{"exhaust", "exhaust", "site.exhaust", 'E', Service::exhaust, &Room::exhaust},
        PointRow{"intake", "combustion air", "site.intake", 'A', Service::intake, &Room::intake},
        PointRow{"panel", "panel", "site.panel", 'P', Service::power, &Room::panel},
    };
    return rows;
}

}  // namespace bw::survey
