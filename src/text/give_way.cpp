// SPDX-License-Identifier: MIT
#include "text/give_way.h"

#include <algorithm>
#include <array>

#include "text/row.h"

namespace bw::text {
namespace {

enum class Why { moved_aside_on_site, fills_the_hole_round_its_pipe, clamped_round_its_pipe, driven_in, has_no_body };

struct GivesWay {
    Column<Part> part;
    Column<Why> why;
};

constexpr std::array all{
    GivesWay{Part::cable, Why::moved_aside_on_site},
    GivesWay{Part::link_cable, Why::moved_aside_on_site},
    GivesWay{Part::firestop, Why::fills_the_hole_round_its_pipe},
    GivesWay{Part::bond, Why::clamped_round_its_pipe},
    GivesWay{Part::anchor, Why::driven_in},
    GivesWay{Part::connection, Why::has_no_body},
};

const GivesWay* row_of(Part part) {
    const auto* row = std::ranges::find_if(all, [part](const GivesWay& each) { return each.part == part; });
    return row == all.end() ? nullptr : row;
}

}  // namespace

bool gives_way(Part part) { return row_of(part) != nullptr; }

bool moved_aside(Part part) {
    const auto* row = row_of(part);
    return row && row->why == Why::moved_aside_on_site;
}

}  // namespace bw::text
