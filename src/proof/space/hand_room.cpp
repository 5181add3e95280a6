// SPDX-License-Identifier: MIT
// Whether a hand comes at what is turned, opened or cleaned.
#include <array>

#include "plant/stations.h"
#include "proof/space/clearances.h"
#include "text/give_way.h"

namespace bw::proof {
namespace {

using units::amount;
using units::metre;

using plant::stations::inch;

constexpr double hand = 3 * inch, finger = 1 * inch;  ///< common practice, no source
constexpr double sought = 2 * hand;
constexpr double across = 1 * inch;  ///< least half width of the way a hand comes

bool handled(Part part) {
    return is_valve(part) || part == Part::union_joint || part == Part::strainer || part == Part::regulator ||
           part == Part::relief_valve || part == Part::condensate_trap || part == Part::neutraliser ||
           part == Part::pump || part == Part::condensate_pump || part == Part::test_port;
}

/// The slab in front of a box in a direction, as deep as a reach.
shape::Box before(const shape::Box& box, shape::Vec way, double reach) {
    shape::Box slab = box;
    const auto along = [&](double component, double& low, double& high) {
        if (component > 0.5)
            low = high, high += reach;
        else if (component < -0.5)
            high = low, low -= reach;
        else if (high - low < 2 * across) {
            const double middle = (low + high) / 2;
            low = middle - across, high = middle + across;
        }
    };
    along(way.x, slab.min.x, slab.max.x);
    along(way.y, slab.min.y, slab.max.y);
    along(way.z, slab.min.z, slab.max.z);
    return slab;
}

double ahead(const shape::Box& box, shape::Vec way, const shape::Box& other) {
    if (way.x > 0.5) return other.min.x - box.max.x;
    if (way.x < -0.5) return box.min.x - other.max.x;
    if (way.y > 0.5) return other.min.y - box.max.y;
    if (way.y < -0.5) return box.min.y - other.max.y;
    return way.z > 0.5 ? other.min.z - box.max.z : box.min.z - other.max.z;
}

/// Clear way from a side of a box to the first thing, at most `sought`; the room's walls, floor and ceiling count.
double clear_way(const View& view, int piece, const shape::Box& box, shape::Vec way) {
    double clear = sought;
    const shape::Box slab = before(box, way, sought);
    view.bodies().near(slab, [&](const Body& body) {
        if (body.piece == piece || (body.piece >= 0 && text::gives_way(view.piece(body.piece).part))) return;
        clear = std::min(clear, std::max(0.0, ahead(box, way, body.box)));
    });
    const auto& room = view.survey.room;
    const auto ceiling = room.overhead();
    while (clear > 0) {
        const shape::Box free = before(box, way, clear);
        if (free.min.z >= -1e-6 && free.max.z <= ceiling.lowest(free) + 1e-6 && shape::contains(room.plan, free, 1e-6))
            break;
        clear = std::max(0.0, clear - inch / 2);
    }
    return clear;
}

/// The best of the sides square to the line a piece stands in.
double best_side(const View& view, int index) {
    const auto& piece = view.piece(index);
    const auto box = shape::bounds(piece.solids);
    const shape::Vec line = piece.ports.empty() ? shape::up : piece.ports.front().facing;
    double best = 0;
    for (const shape::Vec way : {shape::Vec{1, 0, 0}, {-1, 0, 0}, {0, 1, 0}, {0, -1, 0}, shape::up, shape::down})
        if (std::fabs(shape::dot(way, line)) < 0.5 && best < sought)
            best = std::max(best, clear_way(view, index, box, way));
    return best;
}

}  // namespace

void check_hand_room(const View& view, Checks& checks) {
    std::vector<std::pair<double, int>> reach;
    for (int i = 0; i < static_cast<int>(view.plant.pieces.size()); ++i)
        if (handled(view.piece(i).part) && !view.piece(i).solids.empty()) reach.emplace_back(best_side(view, i), i);
    if (reach.empty()) return;
    std::sort(reach.begin(), reach.end());
    const auto [least, worst] = reach.front();
    auto check = new_check("plant.clearance.hand", {practice()});
    step(check, "From its freest side, over its own width, to the first body or wall.", {},
         {{"n", "pieces to be turned, opened or cleaned", units::count(static_cast<double>(reach.size()))}},
         Term{"d", fmt::format("least, at {}", view.name(worst)), amount(least * metre)});
    about(check, view, {worst});
    if (least >= hand || least < finger) {
        check.says = least < finger ? fmt::format("Nobody can turn {}.", view.name(worst))
                                    : "A hand and a wrench reach each from one side at least.";
        checks.push_back(at_least(std::move(check), amount(least * metre), amount(hand * metre)));
        return;
    }
    std::size_t count = 0;
    for (const auto& [clear, piece] : reach) {
        if (clear >= hand || ++count > 20) continue;
        step(check, fmt::format("{}: {}.", view.name(piece), us(amount(clear * metre))));
        about(check, view, {piece});
    }
    check = compared(std::move(check), amount(least * metre), Sense::at_least, amount(hand * metre));
    checks.push_back(reason::referred(
        std::move(check),
        fmt::format("{} {} with less than a hand's room, {} least: the fitter says whether a tool reaches.", count,
                    count == 1 ? "piece stands" : "pieces stand", view.name(worst))));
}

}  // namespace bw::proof
