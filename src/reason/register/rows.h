// SPDX-License-Identifier: MIT
#pragma once
// The rows of the register, one file a subject. A new check takes a row here, `new_check` with the row's id, and a
// spoiler in tests/proof/spoilers_*.cpp; then `bankwright checks > docs/checks.md`. Tests name whichever is missing.

#include "reason/register/register.h"

namespace bw::reason {

[[nodiscard]] std::span<const CheckRow> demand_rows();
[[nodiscard]] std::span<const CheckRow> water_rows();
[[nodiscard]] std::span<const CheckRow> gas_rows();
[[nodiscard]] std::span<const CheckRow> vent_rows();
[[nodiscard]] std::span<const CheckRow> air_rows();
[[nodiscard]] std::span<const CheckRow> condensate_rows();
[[nodiscard]] std::span<const CheckRow> electric_rows();
[[nodiscard]] std::span<const CheckRow> structure_rows();
[[nodiscard]] std::span<const CheckRow> room_rows();
[[nodiscard]] std::span<const CheckRow> safety_rows();
[[nodiscard]] std::span<const CheckRow> parts_rows();

}  // namespace bw::reason
