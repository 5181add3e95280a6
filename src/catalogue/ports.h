// SPDX-License-Identifier: MIT
#pragma once
// A heater's ports: their names, what runs through them, and which way they must look for the plant to be piped.

#include <vector>

#include "catalogue/catalogue.h"
#include "text/toml.h"

namespace bw::catalogue {

/// The `ports` of a heater's table, every one with its unit direction. Reader keeps the first error.
[[nodiscard]] std::vector<HeaterPort> take_ports(text::TableReader& reader);
/// Every port is there once, sized where something flows, within the casing, and looks the way headers and vents need.
[[nodiscard]] Result<void> judge_ports(const Heater& heater);

}  // namespace bw::catalogue
