// SPDX-License-Identifier: MIT
#pragma once
// For every row of the register of checks one spoiled plant or survey that makes its check fail, or refer where it can
// only refer.

#include <functional>
#include <span>
#include <string_view>

#include "job.h"

namespace bw::tests {

using Checks = std::vector<reason::Check>;

struct Spoiler {
    std::string_view row;  ///< as in the register: "gas.trap.heater-<n>"
    std::function<Checks()> spoiled;
};

[[nodiscard]] std::span<const Spoiler> demand_spoilers();
[[nodiscard]] std::span<const Spoiler> water_spoilers();
[[nodiscard]] std::span<const Spoiler> gas_spoilers();
[[nodiscard]] std::span<const Spoiler> vent_spoilers();
[[nodiscard]] std::span<const Spoiler> plant_spoilers();

using Spoil = std::function<void(Job&)>;
/// A job built before, spoiled and proved.
[[nodiscard]] std::function<Checks()> proved(const Job& (*base)(), Spoil spoil);
/// The same, as it stands: what only refers does so on any plant.
[[nodiscard]] std::function<Checks()> as_built(const Job& (*base)());
/// What laying the plant anew found, the first of the places in which it can be laid at all.
[[nodiscard]] std::function<Checks()> laid(const Job& (*base)(), Spoil spoil);
/// What the demand's own checks say of a job.
[[nodiscard]] std::function<Checks()> advised(const Job& (*base)(), Spoil spoil);

catalogue::Heater& heater(Job& job);
/// Changes every catalogue row of a part.
void each_item(Job& job, text::Part part, const std::function<void(catalogue::Item&)>& change);
/// Every piece of a part becomes another part.
void become(Job& job, text::Part part, text::Part other);
/// Takes every piece out of which this is true.
void take_out(Job& job, const std::function<bool(const plant::Piece&)>& which);

}  // namespace bw::tests
