// SPDX-License-Identifier: MIT
// Room in front of each heater to work, and its own clearances.
#include "code/clearances.h"
#include "plant/stations.h"
#include "proof/checks.h"
#include "proof/space/heater_stands.h"
#include "units/constants.h"

namespace bw::proof {
namespace {

using units::amount;
using units::Length;
using units::metre;

constexpr double tolerance = units::grid;
constexpr double far = 100;

double low_along(const shape::Box& box, shape::Vec way) {
    return std::min(shape::dot(box.min, way), shape::dot(box.max, way));
}
double high_along(const shape::Box& box, shape::Vec way) {
    return std::max(shape::dot(box.min, way), shape::dot(box.max, way));
}

/// Clear distance from a face at `from` looking `way`, over a strip `low` to `high` across, to the room's walls.
double to_walls(const View& view, shape::Vec way, double from, shape::Vec across, double low, double high) {
    double nearest = far;
    const auto& plan = view.survey.room.plan;
    for (std::size_t i = 0; i < plan.size(); ++i) {
        const shape::Vec a{plan[i].x, plan[i].y, 0}, b{plan[(i + 1) % plan.size()].x, plan[(i + 1) % plan.size()].y, 0};
        const double sa = shape::dot(a, across), sb = shape::dot(b, across);
        if (std::max(sa, sb) <= low + tolerance || std::min(sa, sb) >= high - tolerance) continue;
        for (const double at : {std::clamp(low, std::min(sa, sb), std::max(sa, sb)),
                                std::clamp(high, std::min(sa, sb), std::max(sa, sb))}) {
            const double t = sa == sb ? 0 : (at - sa) / (sb - sa);
            const double ahead = shape::dot(a + t * (b - a), way) - from;
            if (ahead > -tolerance) nearest = std::min(nearest, ahead);
        }
    }
    return nearest;
}

/// How far ahead of a face at `from` the ceiling stays at least `head` high over a strip `low` to `high` across.
double under_ceiling(const View& view, shape::Vec way, double from, shape::Vec across, double low, double high,
                     double head) {
    const auto ceiling = view.survey.room.overhead();
    const auto over = [&](double ahead) {
        const shape::Vec a = ahead * way + low * across, b = ahead * way + high * across;
        return std::min(ceiling.at(a), ceiling.at(b));
    };
    const double here = over(from) - head, fall = over(from) - over(from + 1);
    if (here < -tolerance) return 0;
    return fall > 1e-9 ? std::max(0.0, here) / fall : far;
}

struct Reach {
    double clear = far;
    std::string what = "nothing";
};

/// Clear depth in front of a heater from floor to head height, over a stretch `low` to `high` across.
Reach in_front(const View& view, const HeaterStand& at, double low, double high) {
    const auto across = shape::cross(shape::up, at.front);
    const double from = high_along(at.box, at.front), head = plant::stations::work_height;
    Reach reach{to_walls(view, at.front, from, across, low, high), "a wall"};
    if (const double upright = under_ceiling(view, at.front, from, across, low, high, head); upright < reach.clear)
        reach = {upright, "the sloping ceiling"};
    const auto meet = [&](const shape::Box& box, const std::string& what) {
        if (box.min.z > head - tolerance || box.max.z < tolerance || high_along(box, across) < low + tolerance ||
            low_along(box, across) > high - tolerance)
            return;
        const double ahead = std::max(0.0, low_along(box, at.front) - from);
        if (high_along(box, at.front) < from + tolerance || ahead >= reach.clear) return;
        reach = {ahead, what};
    };
    for (const auto& obstacle : view.survey.room.obstacles) meet(obstacle.box, obstacle.name);
    for (const auto& piece : view.plant.pieces) {
        if (piece.part == Part::connection || piece.part == Part::cable || piece.part == Part::link_cable) continue;
        for (const auto& solid : piece.solids) meet(shape::bounds(solid), piece.id);
    }
    if (view.plant.find(reach.what) >= 0) reach.what = plant::in_words(reach.what);
    return reach;
}

/// The deepest space of the code's width, wherever along the heater's face it covers that.
Reach in_front(const View& view, const HeaterStand& at, double width) {
    constexpr double step = 0.0254 / 2;
    const auto across = shape::cross(shape::up, at.front);
    const double face_low = low_along(at.box, across), face_high = high_along(at.box, across);
    const double spare = std::max(0.0, width - (face_high - face_low));
    Reach best = in_front(view, at, face_low - spare / 2, face_high + spare / 2);
    for (double aside = 0; aside <= spare + 1e-9; aside += step) {
        if (best.clear >= far) break;
        const double low = face_low - spare + aside;
        if (auto reach = in_front(view, at, low, low + std::max(width, face_high - face_low)); reach.clear > best.clear)
            best = std::move(reach);
    }
    return best;
}

void working_space(const View& view, const HeaterStand& at, Checks& checks) {
    const auto rule = code::appliance_working_space();
    const int n = view.piece(at.piece).heater;
    auto check = new_check("room.working-space.heater-<n>", {rule.source}, {{"n", n}});
    check.sources.insert(check.sources.end(), view.heater.sources.begin(), view.heater.sources.end());
    about(check, view, {at.piece});
    const auto reach = in_front(view, at, rule.value.width.value());
    const Length need = std::max(rule.value.depth, view.heater.gap_front);
    step(check, fmt::format("Clear to {}, over the code's width.", reach.what), {},
         {{"w", "width", amount(rule.value.width)}}, Term{"d", "depth", amount(reach.clear * metre)});
    check.says = "The greater of the code's space and the heater's own front clearance.";
    checks.push_back(at_least(std::move(check), amount(reach.clear * metre), amount(need)));
}

void keep(std::optional<Reach>& nearest, double clear, const std::string& what) {
    if (!nearest || clear < nearest->clear) nearest = Reach{clear, what};
}

/// Nearest heater, wall or obstacle beside a heater.
Reach beside(const View& view, const std::vector<HeaterStand>& all, const HeaterStand& at) {
    std::optional<Reach> nearest;
    const auto across = shape::cross(shape::up, at.front);
    for (const auto& way : {across, -across}) {
        const double from = high_along(at.box, way);
        keep(nearest, to_walls(view, way, from, at.front, low_along(at.box, at.front), high_along(at.box, at.front)),
             "a wall");
        const auto meet = [&](const shape::Box& box, const std::string& what) {
            const bool level = box.min.z < at.box.max.z - tolerance && box.max.z > at.box.min.z + tolerance;
            const bool abreast = low_along(box, at.front) < high_along(at.box, at.front) - tolerance &&
                                 high_along(box, at.front) > low_along(at.box, at.front) + tolerance;
            if (level && abreast && low_along(box, way) > from - tolerance)
                keep(nearest, low_along(box, way) - from, what);
        };
        for (const auto& other : all)
            if (other.piece != at.piece) meet(other.box, view.name(other.piece));
        for (const auto& obstacle : view.survey.room.obstacles) meet(obstacle.box, obstacle.name);
    }
    return nearest.value_or(Reach{});
}

void sides(const View& view, const std::vector<HeaterStand>& all, Checks& checks) {
    for (const auto& at : all) {
        const int n = view.piece(at.piece).heater;
        auto side = new_check("room.side.heater-<n>", view.heater.sources, {{"n", n}});
        about(side, view, {at.piece});
        const auto reach = beside(view, all, at);
        step(side, fmt::format("Nearest beside it: {}.", reach.what), {}, {},
             Term{"d", "gap", amount(reach.clear * metre)});
        side.says = "Room to take its cover off.";
        checks.push_back(at_least(std::move(side), amount(reach.clear * metre), amount(view.heater.gap_side)));
    }
}

void above_and_below(const View& view, const std::vector<HeaterStand>& all, Checks& checks) {
    if (all.empty()) return;
    const auto ceiling = view.survey.room.overhead();
    double lowest = far, above = far;
    for (const auto& at : all) {
        lowest = std::min(lowest, at.box.min.z);
        above = std::min(above, ceiling.lowest(at.box) - at.box.max.z);
    }
    auto top = new_check("room.above", view.heater.sources);
    depends_on_fields(top, view.survey, {"room.ceiling"});
    top.says = ceiling.level() ? "The highest heater against the ceiling."
                               : "The heater nearest to the sloping ceiling, by the ceiling's lowest place over it.";
    checks.push_back(at_least(std::move(top), amount(above * metre), amount(view.heater.gap_top)));
    auto bottom = new_check("room.below", view.heater.sources);
    bottom.says = "The lowest heater against the floor.";
    checks.push_back(at_least(std::move(bottom), amount(lowest * metre), amount(view.heater.gap_bottom)));
}

double to_segment(shape::Point p, shape::Point a, shape::Point b) {
    const double dx = b.x - a.x, dy = b.y - a.y;
    const double t = std::clamp(((p.x - a.x) * dx + (p.y - a.y) * dy) / (dx * dx + dy * dy), 0.0, 1.0);
    return std::hypot(p.x - a.x - t * dx, p.y - a.y - t * dy);
}

/// Distance of a box from a wall's face in plan, whichever way the wall runs; the box stands inside the room.
double off_wall(const View& view, const shape::Box& box, std::size_t wall) {
    const auto& plan = view.survey.room.plan;
    const auto a = plan[wall], b = plan[(wall + 1) % plan.size()];
    double nearest = far;
    for (const double x : {box.min.x, box.max.x})
        for (const double y : {box.min.y, box.max.y}) nearest = std::min(nearest, to_segment({x, y}, a, b));
    for (const auto& end : {a, b})
        nearest = std::min(nearest, std::hypot(std::max({box.min.x - end.x, end.x - box.max.x, 0.0}),
                                               std::max({box.min.y - end.y, end.y - box.max.y, 0.0})));
    return nearest;
}

void combustible(const View& view, const std::vector<HeaterStand>& all, Checks& checks) {
    const auto rule = code::combustible_clearance_by_listing();
    for (std::size_t w = 0; w < view.survey.room.walls.size(); ++w) {
        const auto& wall = view.survey.room.walls[w];
        double nearest = far;
        int piece = -1;
        bool hung = false;
        for (const auto& at : all) {
            hung = hung || at.wall == static_cast<int>(w);
            if (const double d = off_wall(view, at.box, w); d < nearest) nearest = d, piece = at.piece;
        }
        if (nearest > 0.9) continue;
        auto check = new_check("room.combustible.wall-<w>", {rule.source}, {{"w", wall.number}});
        check.sources.insert(check.sources.end(), view.heater.sources.begin(), view.heater.sources.end());
        about(check, view, {piece});
        depends_on_fields(
            check, view.survey,
            {fmt::format("room.wall.{}.build", wall.number), fmt::format("room.wall.{}.combustible", wall.number)});
        if (!*wall.combustible) {
            checks.push_back(holds(std::move(check), true,
                                   fmt::format("Wall {} ({}) does not burn.", wall.number, survey::name(*wall.build)),
                                   {}));
            continue;
        }
        const bool clear = nearest >= view.heater.combustible.value() - tolerance;
        if (hung && !clear) {
            checks.push_back(reason::referred(
                compared(std::move(check), amount(nearest * metre), Sense::at_least, amount(view.heater.combustible)),
                fmt::format(
                    "CAUTION: fire. The heaters hang on wall {}, which can burn. The heater's mounting instructions "
                    "say what must stand behind it; the mechanical inspector confirms the board and the {} clearance.",
                    wall.number, us(amount(view.heater.combustible)))));
            continue;
        }
        check.says = fmt::format("The nearest heater against wall {} ({}).", wall.number, survey::name(*wall.build));
        checks.push_back(at_least(std::move(check), amount(nearest * metre), amount(view.heater.combustible)));
    }
}

}  // namespace

void check_room(const View& view, Checks& checks) {
    const auto all = heater_stands(view);
    for (const auto& at : all) working_space(view, at, checks);
    sides(view, all, checks);
    above_and_below(view, all, checks);
    check_lift_off(view, checks);
    check_under_ceiling(view, checks);
    combustible(view, all, checks);
}

}  // namespace bw::proof
