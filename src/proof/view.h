// SPDX-License-Identifier: MIT
#pragma once
// What every check is shown: the plant's index, and what several checks follow through it, followed once.

#include "proof/base/plant_index.h"
#include "proof/gas/gas_run.h"
#include "proof/support/hung_vents.h"

namespace bw::proof {

class View : public PlantIndex {
public:
    explicit View(const Case& c);

    /// The gas's way to a heater, 1-based, by `trace_gas`.
    [[nodiscard]] const Result<GasRun>& gas_run(int heater_number) const;
    /// The vents hung with their fall.
    [[nodiscard]] const HungVents& vents() const { return vents_; }

private:
    std::vector<Result<GasRun>> gas_runs_;
    HungVents vents_;
};

}  // namespace bw::proof
