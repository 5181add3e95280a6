// SPDX-License-Identifier: MIT
#pragma once
// What a piece's surface looks like: its service's ink as on the sheets, heaters apart.

#include <string_view>

#include "draw/palette.h"
#include "plant/plant.h"

namespace bw::model {

/// A service, or the body of a heater, which has no service's colour.
struct Look {
    text::Service service{};
    bool heater = false;
    bool operator==(const Look&) const = default;
};

inline constexpr int services = static_cast<int>(text::Service::structure) + 1, looks = services + 1;

[[nodiscard]] inline Look look_of(const plant::Piece& piece) {
    return {piece.service, piece.part == text::Part::heater};
}
[[nodiscard]] inline int index_of(Look look) { return look.heater ? services : static_cast<int>(look.service); }
[[nodiscard]] inline Look look_at(int index) {
    return index == services ? Look{{}, true} : Look{static_cast<text::Service>(index), false};
}
[[nodiscard]] inline std::string_view name(Look look) { return look.heater ? "heater" : text::name(look.service); }
/// sRGB.
[[nodiscard]] inline draw::Colour colour(Look look) {
    return look.heater ? draw::Colour{0.88, 0.88, 0.86} : draw::ink(look.service);
}

}  // namespace bw::model
