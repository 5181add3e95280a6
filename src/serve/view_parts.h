// SPDX-License-Identifier: MIT
#pragma once
// A view in parts, so that a page that has one is sent only what is other in the next.

#include "serve/shown.h"
#include "serve/writer.h"

namespace bw::serve {

/// A part's key, or a check's id, and its JSON.
struct ViewPart {
    std::string key, text;
};

/// The view of one result in one unit system.
struct View {
    int revision = 0;
    bool settled = false;
    std::vector<ViewPart> parts;   ///< in the order they are written
    std::vector<ViewPart> checks;  ///< in the result's order
};
using ViewPtr = std::shared_ptr<const View>;

[[nodiscard]] View parts_of(const Shown& shown, const catalogue::Catalogue& catalogue, units::System system);

/// `view` of docs/api.md, on one line.
[[nodiscard]] std::string full(const View& view);
/// `change` of docs/api.md: what makes the one into the other, on one line.
[[nodiscard]] std::string change(const View& was, const View& now);

[[nodiscard]] std::vector<ViewPart> checks_parts(const design::Result& result, units::System system);
[[nodiscard]] std::string pieces_text(const Shown& shown, const catalogue::Catalogue& catalogue, units::System system);
/// How each piece's size came about.
[[nodiscard]] std::string whys_text(const design::Result& result);
/// What flows in each piece, and the pressures at both ends, as on paper.
[[nodiscard]] std::string states_text(const Shown& shown, units::System system);
[[nodiscard]] std::string geometry_text(const design::Result& result);
[[nodiscard]] std::string room_text(const survey::Room& room);

}  // namespace bw::serve
