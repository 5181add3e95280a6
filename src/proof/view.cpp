// SPDX-License-Identifier: MIT
#include "proof/view.h"

namespace bw::proof {

View::View(const Case& c) : PlantIndex(c), vents_(hang_vents(*this)) {
    for (int n = 1; n <= heaters(); ++n) gas_runs_.push_back(trace_gas(*this, n));
}

const Result<GasRun>& View::gas_run(int heater_number) const {
    return gas_runs_.at(static_cast<std::size_t>(heater_number) - 1);
}

}  // namespace bw::proof
