// SPDX-License-Identifier: MIT
#pragma once
// A place asked for by name: a family of layouts, or one of them.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace bw::layout {

/// "wall-2": any place on wall 2. "wall-1-3-at-12-24.5-fed-2": the banks' low ends 12 in and 24-1/2 in along walls 1
/// and 3 from where each wall starts, bank 2 fed from its end farther from the connections. For a rack the two numbers
/// are its corner along the room's axes, from the room's low corner.
struct Place {
    std::string family;
    std::vector<double> at;  ///< metres; empty: anywhere
    unsigned far_fed = 0;    ///< bit b: bank b; means nothing where `at` is empty

    [[nodiscard]] bool exact() const { return !at.empty(); }
};

/// nullopt where the numbers cannot be read.
[[nodiscard]] std::optional<Place> parse_place(std::string_view text);
[[nodiscard]] std::string print(const Place& place);
/// Whether a layout of this name is the place asked for or, where a family is asked for, one of it.
[[nodiscard]] bool covers(std::string_view asked, std::string_view layout);

}  // namespace bw::layout
