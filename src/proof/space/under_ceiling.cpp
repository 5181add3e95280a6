// SPDX-License-Identifier: MIT
// What stands under a ceiling that slopes, piece by piece.
#include "plant/stations.h"
#include "proof/checks.h"
#include "text/give_way.h"
#include "units/constants.h"

namespace bw::proof {
namespace {

using plant::stations::inch;
using units::amount;
using units::metre;

constexpr double fit = units::grid;

}  // namespace

void check_under_ceiling(const View& view, Checks& checks) {
    const auto& room = view.survey.room;
    if (!room.slope) return;
    double least = 1e9;
    int worst = -1;
    for (const Body& body : view.bodies().all()) {
        if (body.piece < 0) continue;
        const auto& piece = view.piece(body.piece);
        if (text::gives_way(piece.part) || passes_ceiling(room, piece)) continue;
        const double clear = -into_ceiling(room, body.solid);
        if (clear < least) least = clear, worst = body.piece;
    }
    if (worst < 0) return;
    auto check = new_check("room.slope", {by_pieces()});
    step(check,
         "Each solid's highest point against the ceiling's plane, plumb. What goes through the ceiling, anchors and "
         "cables are left out.",
         {},
         {{"high", "ceiling, greatest", amount(*room.ceiling)}, {"low", "at its low wall", amount(room.slope->low)}},
         Term{"d", "least below it", amount(least * metre)});
    about(check, view, {worst});
    check.value = amount(least * metre);
    checks.push_back(holds(
        std::move(check), least > -fit,
        fmt::format("The nearest is {}, {} below it.", view.name(worst), us(amount(std::max(0.0, least) * metre))),
        fmt::format("{} stands {} in it.", view.name(worst), us(amount(-least * metre)))));
}

}  // namespace bw::proof
