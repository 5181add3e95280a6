// SPDX-License-Identifier: MIT
// Vents and drains are drawn level and hung with a fall: the heights the fitter sets out, and the room they take.
#include "network/run/fall.h"
#include "plant/stations.h"
#include "proof/checks.h"
#include "text/give_way.h"

namespace bw::proof {
namespace {

using units::amount;
using units::metre;

using plant::stations::inch;

using network::Falling;
using network::falling;
using network::Hanging;
using network::Hung;
using network::least_fall;
using network::usual_fall;

std::size_t at(int i) { return static_cast<std::size_t>(i); }
std::string length(double metres) { return us(amount(metres * metre)); }

/// What stops a line from being hung so; empty when nothing does.
struct Hindrance {
    std::string says;
    bool any() const { return !says.empty(); }
};

class Line {
public:
    Line(const PlantIndex& view, Falling falling, const std::vector<double>& fixed_ends)
        : held_at(fixed_ends),
          view_(view),
          bodies_(view.bodies()),
          line_(std::move(falling)),
          link_of_(view.plant.pieces.size(), -1) {
        for (int i = 0; i < static_cast<int>(line_.links.size()); ++i) link_of_[at(line_.links[at(i)].piece)] = i;
    }

    const std::vector<double>& held_at;  ///< shift of fixed ends, by piece

    [[nodiscard]] const Falling& line() const { return line_; }

    [[nodiscard]] Hindrance hindrance(const Hung& hung) const {
        if (!hung.stuck.empty())
            return {fmt::format("{} has no vertical pipe before the shared line to take the fall up",
                                view_.name(hung.stuck.front()))};
        if (const auto take = network::too_short(view_.plant, hung))
            return {fmt::format("{} would be {} long, shorter than {}", view_.piece(take->piece).id,
                                length(network::length_after(view_.plant, *take)), length(network::shortest_take_up))};
        // what was in the way of the last try is likely so again
        if (auto what = hindrance(hung, hindered_); what.any()) return what;
        for (std::size_t i = 0; i < line_.links.size(); ++i)
            if (auto what = hindrance(hung, i); what.any()) {
                hindered_ = i;
                return what;
            }
        return {};
    }

    /// Height of a port after the fall.
    [[nodiscard]] double height(const Hung& hung, std::size_t link, std::size_t port) const {
        return view_.piece(line_.links[link].piece).ports[port].at.z + hung.shift[line_.at(link, port)];
    }

private:
    [[nodiscard]] double shift_near(const Hung& hung, std::size_t link, shape::Vec point) const {
        const auto& ports = view_.piece(line_.links[link].piece).ports;
        std::size_t best = 0;
        for (std::size_t p = 1; p < ports.size(); ++p)
            if (shape::distance(ports[p].at, point) < shape::distance(ports[best].at, point)) best = p;
        return hung.shift[line_.at(link, best)];
    }

    [[nodiscard]] shape::Solid moved(const Hung& hung, std::size_t link, const shape::Solid& solid) const {
        if (const auto* bar = std::get_if<shape::Cylinder>(&solid))
            return shape::Cylinder{bar->a + shape::Vec{0, 0, shift_near(hung, link, bar->a)},
                                   bar->b + shape::Vec{0, 0, shift_near(hung, link, bar->b)}, bar->radius};
        const auto& box = std::get<shape::Box>(solid);
        const shape::Vec by{0, 0, shift_near(hung, link, 0.5 * (box.min + box.max))};
        return shape::Box{box.min + by, box.max + by};
    }

    /// What holds the line, and what holds that, goes with it.
    [[nodiscard]] bool goes_along(int piece, int other) const {
        return view_.piece(other).service == Service::structure && kin(view_.plant, piece, other, 3);
    }

    [[nodiscard]] Hindrance hindrance(const Hung& hung, std::size_t link) const {
        const int index = line_.links[link].piece;
        const auto& piece = view_.piece(index);
        if (line_.links[link].fixed || text::gives_way(piece.part)) return {};
        for (const auto& solid : piece.solids) {
            const auto here = moved(hung, link, solid);
            const auto box = shape::bounds(here);
            if (const double above = into_ceiling(view_.survey.room, here);
                above > 1e-6 && !passes_ceiling(view_.survey.room, piece))
                return {fmt::format("{} would stand {} into the ceiling", plant::in_words(piece.id), length(above))};
            if (box.min.z < -1e-6 && piece.part != Part::air_gap)
                return {fmt::format("{} would stand {} into the floor", plant::in_words(piece.id), length(-box.min.z))};
            Hindrance found;
            bodies_.near(box, [&](const Body& body) {
                if (found.any() || body.piece == index) return;
                if (body.piece >= 0 &&
                    (link_of_[at(body.piece)] >= 0 || text::gives_way(view_.piece(body.piece).part) ||
                     joined(view_.plant, index, body.piece)))
                    return;
                if (!clash(here, body.solid) || (body.piece >= 0 && goes_along(index, body.piece))) return;
                found.says = fmt::format(
                    "{} would meet {}", plant::in_words(piece.id),
                    body.piece >= 0 ? view_.name(body.piece) : view_.survey.room.obstacles[at(-1 - body.piece)].name);
            });
            if (found.any()) return found;
        }
        return {};
    }

    const PlantIndex& view_;
    const CollisionGrid& bodies_;
    Falling line_;
    std::vector<int> link_of_;
    mutable std::size_t hindered_ = 0;
};

/// How the line is hung, else what first stops it.
tl::expected<Hanging, std::string> choose(const PlantIndex& view, const Line& line, const std::vector<double>& slopes) {
    std::string first;
    auto found = network::hang(view.plant, line.line(), slopes, line.held_at, [&](const Hung& hung) {
        const auto what = line.hindrance(hung);
        if (first.empty()) first = what.says;
        return !what.any();
    });
    if (!found) return tl::unexpected(first);
    return std::move(*found);
}

/// Heights of the level pipes' ends and of the supports along them.
void set_out(Check& check, const PlantIndex& view, const Line& line, const Hanging& choice) {
    const auto& links = line.line().links;
    for (std::size_t i = 0; i < links.size(); ++i) {
        const auto& piece = view.piece(links[i].piece);
        const bool pipe = piece.part == Part::pipe || piece.part == Part::vent_pipe;
        if (!pipe && piece.part != Part::vent_terminal) continue;
        if (std::fabs(piece.ports[0].at.z - piece.ports[1].at.z) > 1e-3) continue;
        std::string at_supports;
        for (int p = 0; p < static_cast<int>(piece.ports.size()); ++p) {
            const int holder = view.plant.mate({links[i].piece, p}).piece;
            if (piece.ports[at(p)].service != Service::structure || holder < 0) continue;
            at_supports += fmt::format("{} {} at {}", at_supports.empty() ? "; supports:" : ",", view.name(holder),
                                       length(piece.ports[0].at.z + choice.hung.shift[line.line().at(i, at(p))]));
        }
        step(check,
             fmt::format("{}: centre line from {} to {} above the floor{}.", plant::in_words(piece.id),
                         length(line.height(choice.hung, i, 0)), length(line.height(choice.hung, i, 1)), at_supports));
    }
    for (const auto& take : choice.hung.take_ups)
        if (std::fabs(take.change) > inch / 32)
            step(check, fmt::format("{}: cut {} {} than listed.", view.name(take.piece), length(std::fabs(take.change)),
                                    take.change > 0 ? "longer" : "shorter"));
}

/// Notes in `held_at` how the line's own pieces come to stand, for lines that end at them.
void hang_line(const PlantIndex& view, Falling falling, const std::vector<double>& slopes, Check check,
               std::vector<double>& held_at, Checks& checks) {
    const auto held_before = held_at;
    const Line line(view, std::move(falling), held_before);
    const int low = line.line().links.front().piece;
    about(check, view, {low});
    const auto choice = choose(view, line, slopes);
    if (!choice) {
        checks.push_back(holds(std::move(check), false, {},
                               fmt::format("Hung with a fall towards {}, the line has no room: {}. Move what is in the "
                                           "way, or the low point nearer.",
                                           view.name(low), choice.error())));
        return;
    }
    step(
        check,
        fmt::format("Drawn level, hung with {} in 12 in of fall towards {}{}.",
                    choice->slope == usual_fall ? "1/4" : "1/8", view.name(low),
                    choice->drop > 0 ? fmt::format(", that end {} below where it is drawn", length(choice->drop)) : ""),
        "h = i L - d",
        {{"i", "slope", units::percent(choice->slope)},
         {"L", "longest level way", amount(choice->hung.level * metre)},
         {"d", "low end set below the drawing by", amount(choice->drop * metre)}},
        Term{"h", "highest above the drawing", amount(choice->hung.most * metre)});
    set_out(check, view, line, *choice);
    for (std::size_t i = 0; i < line.line().links.size(); ++i)
        if (const auto& link = line.line().links[i]; !link.fixed)
            held_at[at(link.piece)] = choice->hung.shift[line.line().at(i, 0)];
    check.value = amount(choice->slope * choice->hung.level * metre);
    check.status = Status::pass;
    check.says = fmt::format(
        "It clears everything and the ceiling so hung; heights of centre lines and changed cuts "
        "are in the working{}.",
        choice->slope == usual_fall ? "" : ". Room is for the code's least fall only, not the usual 1/4 in");
    checks.push_back(std::move(check));
}

/// Where a vent's water leaves it: the piece with a drain, else the heater.
std::vector<int> low_points(const PlantIndex& view) {
    std::vector<int> points;
    std::vector<char> covered(view.plant.pieces.size(), 0);
    const auto cover = [&](int from) {
        points.push_back(from);
        for (const auto& link : falling(view.plant, Service::exhaust, from).links) covered[at(link.piece)] = 1;
    };
    for (int i = 0; i < static_cast<int>(view.plant.pieces.size()); ++i) {
        const auto& piece = view.piece(i);
        if (piece.service != Service::exhaust || covered[at(i)]) continue;
        for (const auto& port : piece.ports)
            if (port.service == Service::condensate) {
                cover(i);
                break;
            }
    }
    for (int n = 1; n <= view.heaters(); ++n)
        if (const int i = view.heater_piece(n); i >= 0 && !covered[at(i)]) cover(i);
    return points;
}

std::string name_of_vent(const PlantIndex& view, int low) {
    const auto& piece = view.piece(low);
    return piece.part == Part::heater ? piece.id : piece.id.substr(0, piece.id.find('.'));
}

}  // namespace

HungVents hang_vents(const PlantIndex& view) {
    HungVents vents;
    vents.higher.assign(view.plant.pieces.size(), 0.0);
    for (const int low : low_points(view)) {
        auto line = falling(view.plant, Service::exhaust, low);
        if (line.links.size() < 2) continue;
        const auto name = name_of_vent(view, low);
        hang_line(view, std::move(line), {usual_fall},
                  new_check("vent.fall.<vent>", {practice(), ifgc("503.6")}, {{"vent", name, plant::in_words(name)}}),
                  vents.higher, vents.checks);
    }
    return vents;
}

void check_fall(const View& view, Checks& checks) {
    const auto& vents = view.vents();
    checks.insert(checks.end(), vents.checks.begin(), vents.checks.end());
    auto held_at = vents.higher;
    const int drain = view.plant.find("site.drain");
    if (drain < 0) return;
    const auto hang_drain = [&](int low, std::string_view row) {
        auto line = falling(view.plant, Service::condensate, low);
        if (line.links.size() < 2) return;
        hang_line(view, std::move(line), {usual_fall, least_fall}, new_check(row, {practice(), imc("307.2.1")}),
                  held_at, checks);
    };
    const auto& pumps = view.of(Part::condensate_pump);
    if (!pumps.empty()) hang_drain(pumps.front(), "condensate.fall");
    hang_drain(drain, pumps.empty() ? "condensate.fall" : "condensate.fall.discharge");
}

}  // namespace bw::proof
