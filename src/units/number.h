// SPDX-License-Identifier: MIT
#pragma once
// Numbers as the trade writes them, whatever the locale.

#include <optional>
#include <string>
#include <string_view>

namespace bw::units {

/// Without blanks at both ends.
[[nodiscard]] std::string_view trimmed(std::string_view text);

/// The first 60 bytes of what was typed, fit for a message.
[[nodiscard]] std::string shortened(std::string_view text);

/// Takes a number off the front of `text`: `42`, `-0.5`, `1e3`, `199,000`, `3/4`, `1-1/4`, `1 1/4`. Leaves the rest in
/// `text`. Nothing, and `text` untouched, where no finite number stands there.
[[nodiscard]] std::optional<double> take_number(std::string_view& text);

/// Fixed-point text with at least `decimals` places, and more where fewer than three digits would be left of a small
/// value. Never "-0".
[[nodiscard]] std::string print_number(double value, int decimals);

}  // namespace bw::units
