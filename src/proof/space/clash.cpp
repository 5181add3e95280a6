// SPDX-License-Identifier: MIT
// Hard clashes: solids of pieces that are not joined must not share room, nor any piece with an obstacle.
#include "proof/checks.h"
#include "proof/space/clearances.h"

namespace bw::proof {
namespace {

constexpr std::size_t shown = 40;

std::string name_of(const View& view, int piece) {
    if (piece >= 0) return view.name(piece);
    return view.survey.room.obstacles[static_cast<std::size_t>(-1 - piece)].name;
}

std::string line(const View& view, const Clash& clash) {
    return fmt::format("{} and {}, {} deep", name_of(view, clash.a), name_of(view, clash.b),
                       us(units::amount(clash.depth * units::metre)));
}

void hard(const View& view, Checks& checks) {
    auto check = new_check("plant.clash", {by_pieces()});
    const auto found = clashes(view.plant, view.bodies());
    step(check, "Each solid's exact distance to every other near it; touching by 1/16 in is a fit.", {},
         {{"n", "solids", units::count(static_cast<double>(view.bodies().all().size()))}});
    for (std::size_t i = 0; i < std::min(found.size(), shown); ++i) {
        step(check, line(view, found[i]) + ".");
        about(check, view, {found[i].a});
        if (found[i].b >= 0) about(check, view, {found[i].b});
    }
    check.value = units::count(static_cast<double>(found.size()));
    check.limit = units::count(0);
    check.sense = Sense::at_most;
    check.status = found.empty() ? Status::pass : Status::fail;
    check.says = found.empty()
                     ? "Solids measured against one another and against the room's obstacles; cables give "
                       "way on site and are left out."
                     : fmt::format("{} {} room, the first: {}.", found.size(),
                                   found.size() == 1 ? "pair shares" : "pairs share", line(view, found.front()));
    checks.push_back(std::move(check));
}

}  // namespace

void check_clash(const View& view, Checks& checks) {
    hard(view, checks);
    check_insulation_room(view, checks);
    check_cables_off_heat(view, checks);
    check_hand_room(view, checks);
    check_combustible(view, checks);
}

}  // namespace bw::proof
