// SPDX-License-Identifier: MIT
#pragma once
// Documents: the proof as a PDF an inspector reads, and the parts list as CSV.

#include <string>

#include "design/design.h"

namespace bw::paper {

/// The report, whole PDF bytes: cover, what was assumed, demand, capacity, the plant, every check with its working,
/// parts, cautions. Bookmarks, page numbers, embedded fonts; deterministic bytes. Works also when nothing fits.
[[nodiscard]] bw::Result<std::string> report(const design::Result& result, const catalogue::Catalogue& catalogue,
                                             units::System system);

/// RFC 4180, UTF-8, one line an item, header row first.
[[nodiscard]] std::string parts_csv(const make::Estimate& estimate, units::System system);

}  // namespace bw::paper
