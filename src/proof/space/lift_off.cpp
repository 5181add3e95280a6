// SPDX-License-Identifier: MIT
// Whether each heater comes off its bracket: up by the bracket's lift, then out into the room.
#include "proof/checks.h"
#include "proof/space/heater_stands.h"
#include "text/give_way.h"

namespace bw::proof {
namespace {

using units::amount;
using units::metre;

/// What a heater meets on its way, and how far the two share room.
struct Meets {
    std::string what;
    int piece = -1;  ///< below zero where it is no piece
    bool raised = false;
    double by = 0;
};

std::vector<HeaterStand> by_number(const View& view) {
    auto all = heater_stands(view);
    std::ranges::sort(all, {}, &HeaterStand::number);
    return all;
}

/// The piece a heater hangs on; below zero where it has none.
int bracket_of(const View& view, const HeaterStand& stand) {
    return view.plant.mate(view.heater_port(stand.number, "mount")).piece;
}

/// The heater's own pieces that are taken off first: each branch up to its union or valve, its vent up to what it
/// shares with others.
std::vector<char> taken_off(const View& view, const HeaterStand& stand) {
    std::vector<char> off(view.plant.pieces.size(), 0);
    off[static_cast<std::size_t>(stand.piece)] = 1;
    if (const int bracket = bracket_of(view, stand); bracket >= 0) off[static_cast<std::size_t>(bracket)] = 1;
    const auto stays = [&](int piece) {
        const auto& p = view.piece(piece);
        return p.heater != stand.number || is_valve(p.part) || p.part == Part::union_joint;
    };
    for (int port = 0; port < static_cast<int>(view.piece(stand.piece).ports.size()); ++port) {
        const PortRef from{stand.piece, port};
        if (view.plant.at(from).service == Service::structure) continue;
        for (const Step& step : view.outward(from, [&](int piece, int) { return !stays(piece); }))
            if (!stays(step.piece)) off[static_cast<std::size_t>(step.piece)] = 1;
    }
    return off;
}

/// How far two bounds that share room would have to part.
double shared(const shape::Box& a, const shape::Box& b) {
    return std::min({a.max.x - b.min.x, b.max.x - a.min.x, a.max.y - b.min.y, b.max.y - a.min.y, a.max.z - b.min.z,
                     b.max.z - a.min.z});
}

shape::Box moved(const shape::Box& box, shape::Vec by) { return {box.min + by, box.max + by}; }

/// The deepest of what stands in a heater's way, first as it is raised, then as it is drawn out by its own depth.
std::optional<Meets> in_the_way(const View& view, const HeaterStand& stand, double lift) {
    const auto off = taken_off(view, stand);
    const shape::Box up = moved(stand.box, lift * shape::up);
    const double depth = std::fabs(shape::dot(stand.box.max - stand.box.min, stand.front));
    const auto& room = view.survey.room;
    std::optional<Meets> worst;
    const auto meet = [&](Meets found) {
        if (!worst || found.by > worst->by) worst = std::move(found);
    };
    for (const bool raised : {true, false}) {
        const shape::Box swept =
            raised ? shape::joined(stand.box, up) : shape::joined(up, moved(up, depth * stand.front));
        view.bodies().near(swept, [&](const Body& body) {
            if (body.piece >= 0 &&
                (off[static_cast<std::size_t>(body.piece)] || text::gives_way(view.piece(body.piece).part)))
                return;
            // what shares the room it hangs in is for the check of clashes
            if (clash(stand.box, body.solid) || !clash(swept, body.solid)) return;
            meet({body.piece >= 0 ? view.name(body.piece)
                                  : room.obstacles[static_cast<std::size_t>(-1 - body.piece)].name,
                  body.piece, raised, shared(swept, body.box)});
        });
        if (const double above = swept.max.z - room.overhead().lowest(swept); above > 1e-6)
            meet({"the ceiling", -1, raised, above});
        if (worst) return worst;
    }
    if (const shape::Box out = moved(up, depth * stand.front); !shape::contains(room.plan, out, 1e-6))
        return Meets{"a wall", -1, false, depth};
    return std::nullopt;
}

Check about_lift(const View& view, std::string_view row, const std::vector<HeaterStand>& stands) {
    auto check = new_check(row, {practice()}, {{"n", stands.front().number}});
    std::vector<int> pieces;
    for (const HeaterStand& stand : stands) pieces.push_back(stand.piece);
    about(check, view, pieces);
    return check;
}

void sweep(Check& check, double lift) {
    step(check,
         "The heater's body raised by its bracket's lift, then drawn out to the front by its own depth, against every "
         "body. Its own branches up to their unions or valves and its own vent are taken off first; cables give way. "
         "CAUTION: gas and power are off and the heater is drained before; it is more than one person's lift.",
         {}, {{"l", "the bracket's lift", amount(lift * metre)}});
}

}  // namespace

void check_lift_off(const View& view, Checks& checks) {
    std::vector<HeaterStand> free, unknown;
    double most = 0;
    for (const HeaterStand& stand : by_number(view)) {
        const int bracket = bracket_of(view, stand);
        const auto lift = bracket >= 0 ? view.number(bracket, "lift") : std::nullopt;
        if (!lift) {
            unknown.push_back(stand);
            continue;
        }
        const auto meets = in_the_way(view, stand, *lift);
        if (!meets) {
            free.push_back(stand);
            most = std::max(most, *lift);
            continue;
        }
        auto check = about_lift(view, "room.lift.heater-<n>", {stand});
        sweep(check, *lift);
        if (meets->piece >= 0) about(check, view, {meets->piece});
        checks.push_back(holds(std::move(check), false, {},
                               fmt::format("{} it meets {}, by {}.", meets->raised ? "Raised," : "Drawn out,",
                                           meets->what, us(amount(meets->by * metre)))));
    }
    if (!free.empty()) {
        auto check = about_lift(view, "room.lift", free);
        sweep(check, most);
        checks.push_back(holds(std::move(check), true,
                               fmt::format("{} {} be raised and drawn out without touching anything that stays.",
                                           free.size(), free.size() == 1 ? "heater can" : "heaters can"),
                               {}));
    }
    if (unknown.empty()) return;
    checks.push_back(reason::referred(
        about_lift(view, "room.lift.unknown", unknown),
        "The catalogue does not say how far the bracket lets a heater be raised: its maker's instructions do, and the "
        "fitter sees whether so much is free."));
}

}  // namespace bw::proof
