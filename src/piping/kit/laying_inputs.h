// SPDX-License-Identifier: MIT
#pragma once
// What a plant is laid on. Laying is shown nothing of the job but this and the sizes, so that jobs that are alike in
// both are laid alike, whatever else differs in them.

#include "catalogue/catalogue.h"
#include "demand/demand.h"
#include "plant/layout.h"
#include "survey/survey.h"

namespace bw::piping {

/// The job as sizing sees it.
struct SizingInputs {
    const survey::Survey& survey;
    const demand::Demand& demand;
    const demand::Capacity& capacity;
    units::Length loop_head{};  ///< the loop's pump gives no less, where that is known
};

/// Rows are the catalogue's own and live as long as it.
struct LayingInputs {
    const catalogue::Catalogue* catalogue = nullptr;
    const catalogue::Heater* heater = nullptr;
    plant::Layout layout;
    int heaters = 0;
    survey::Room room;
    text::Material gas_pipe{}, water_pipe{}, vent_pipe{};
    survey::VentPreference vent{};
    bool room_air = false, chemistry_in_air = false;
    int header_serves = 0;                          ///< heaters, at least one
    bool recirculates = false;                      ///< the building's loop comes back
    bool reduces = false;                           ///< the supply's pressure is above the code's greatest
    bool closed = false;                            ///< the supply takes no water back
    bool emergency_stop = false, co_alarm = false;  ///< required
    bool vents_first = false;                       ///< before the mains, which then find their way past them
    bool mains_cross_the_floor = false;             ///< where people walk, as if it were nothing
    const catalogue::Item* regulator = nullptr;     ///< of the gas; none: delivery suits the heater
    bool regulator_each_bank = false;               ///< not one in the main: no row passes what all banks burn
    const catalogue::Item* pump = nullptr;          ///< that moves the loop's flow; none: no row does

    /// Of gas or water pipe.
    [[nodiscard]] text::Material pipe(text::Service service) const {
        return service == text::Service::gas ? gas_pipe : water_pipe;
    }
    bool operator==(const LayingInputs&) const = default;
};

/// Fails where the gas wants a line regulator the catalogue has not.
[[nodiscard]] Result<LayingInputs> laying_inputs(const SizingInputs& brief, const catalogue::Catalogue& catalogue,
                                                 const catalogue::Heater& heater, const plant::Layout& layout);

/// Gas that so many heaters burn together at the local heating value.
[[nodiscard]] units::VolumeFlow gas_load(const SizingInputs& brief, const catalogue::Heater& heater, int heaters);

}  // namespace bw::piping
