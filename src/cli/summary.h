// SPDX-License-Identifier: MIT
#pragma once
// What a command says on the terminal.

#include <string>

#include "cli/output.h"
#include "design/design.h"

namespace bw::cli {

[[nodiscard]] std::string summary(const design::Result& result, units::System system);
[[nodiscard]] std::string package_summary(const std::string& folder, const Files& files);
/// A table of candidates, best first, and what is short where nothing fits.
[[nodiscard]] std::string comparison(const design::Result& result, units::System system);

}  // namespace bw::cli
