// SPDX-License-Identifier: MIT
#pragma once
// What the things set into a main want of its way and make of its size. Lengths are metres of straight pipe and begin
// at the size of `line`.

#include <vector>

#include "piping/main/inline_items.h"

namespace bw::piping {

/// Up to the first thing that is no change of size or outlet: it must stand close to the open end.
[[nodiscard]] double length_to_first_item(const Builder& b, const Line& line, const std::vector<InlineItem>& things);

/// Of the changes of size that stand first: without them nothing else can be laid.
[[nodiscard]] double length_of_first_changes(const Builder& b, const Line& line, const std::vector<InlineItem>& things);
/// Of the changes of size that stand last.
[[nodiscard]] double length_of_last_changes(const Builder& b, const Line& line, const std::vector<InlineItem>& things);
/// Of all changes of size.
[[nodiscard]] double length_of_changes(const Builder& b, const Line& line, const std::vector<InlineItem>& things);

/// Of all things and a tee behind them with an outlet of that size.
[[nodiscard]] double length_with_tee(const Builder& b, const Line& line, std::vector<InlineItem> things,
                                     Nominal outlet);

/// The size a line has behind a list of things.
[[nodiscard]] Nominal size_after(const Line& line, const std::vector<InlineItem>& things);
[[nodiscard]] Line resized(Line line, Nominal size);

}  // namespace bw::piping
