// SPDX-License-Identifier: MIT
#include "matter/fuel.h"
#include "reason/document.h"

namespace bw::matter {

const Fuel& fuel(Gas gas) {
    using reason::Standing;
    static const Fuel natural{Gas::natural,
                              1000.0 * btu_per_cubic_foot,
                              0.60,
                              1,
                              4,
                              {reason::ifgc("Table 402.4(2), heading (specific gravity)", Standing::published),
                               {"", "", "1,000 Btu/ft3; natural gas burns as methane", Standing::common_practice}}};
    static const Fuel propane{Gas::propane,
                              2516.0 * btu_per_cubic_foot,
                              1.50,
                              3,
                              8,
                              {{"NFPA 58", "", "properties of propane (heating value)", Standing::memory},
                               reason::ifgc("propane tables, heading (specific gravity)", Standing::published)}};
    return gas == Gas::natural ? natural : propane;
}

}  // namespace bw::matter
