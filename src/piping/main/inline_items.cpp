// SPDX-License-Identifier: MIT
#include "piping/main/inline_items.h"

#include <algorithm>
#include <cmath>

namespace bw::piping {
namespace {

/// Straight length one thing takes with the nipple before it; `line.size` becomes what it leaves.
double length_of(const Builder& b, Line& line, const InlineItem& thing) {
    if (thing.item) return b.taken(line, thing.item);
    if (thing.to.eighths > 0) {
        double length = 0;
        while (line.size != thing.to) {
            const Item* row = b.reducer_towards(line, thing.to);
            if (!row) return 1e9;
            length += 2 * row->run.value() + shortest(line.material, line.size);
            line.size = line.size == *row->size ? *row->branch : *row->size;
        }
        return length;
    }
    const Item* tee = b.seek_tee(line, thing.outlet);
    return tee ? 2 * tee->run.value() + shortest(line.material, line.size) : 1e9;
}

double elbow_leg(const Builder& b, const Line& line) {
    const Item* bend = b.seek(Part::elbow, line);
    return bend ? bend->run.value() : 0;
}

/// Where what hangs on an outlet will stand, clear of the main itself.
shape::Box hanging_room(Vec at, Vec side, const InlineItem& thing) {
    const double half = std::max(thing.girth / 2, 2 * inch_m);
    const double reach = std::max(thing.reach, 8 * inch_m);
    Vec low = at + 3.5 * inch_m * side, high = at + reach * side;
    shape::Box box = shape::box_of(low, high);
    // thick across the outlet only
    if (std::abs(side.x) < 0.5) box.min.x -= half, box.max.x += half;
    if (std::abs(side.y) < 0.5) box.min.y -= half, box.max.y += half;
    if (std::abs(side.z) < 0.5) box.min.z -= half, box.max.z += half;
    return box;
}

bool reserved(const Builder& b, const std::vector<shape::Box>& others, const shape::Box& box) {
    const auto meets = [&](const shape::Box& other) { return shape::overlap(other, box); };
    if (std::ranges::any_of(others, meets)) return true;
    return std::ranges::any_of(b.reserved, [&](const KeepOff& off) { return shape::overlap(off.box, box); });
}

/// A side of a leg where something that reaches out finds room; no direction where there is none.
Vec free_side(const Builder& b, Vec at, Vec along, const InlineItem& thing, const std::vector<Vec>& used,
              const std::vector<shape::Box>& others) {
    const Vec sides[] = {shape::up, {1, 0, 0}, {-1, 0, 0}, {0, 1, 0}, {0, -1, 0}, shape::down};
    Vec fallback{};
    for (const Vec& side : sides) {
        if (std::abs(shape::dot(side, along)) > 0.5) continue;
        const shape::Box box = hanging_room(at, side, thing);
        if (!b.space.in_room(box) || b.space.taken(box) || reserved(b, others, box)) continue;
        if (std::ranges::find(used, side) == used.end()) return side;
        fallback = side;  // free, but another outlet looks that way
    }
    return fallback;
}

/// Boxes of all legs of a main but the one being laid and the ends of its neighbours.
std::vector<shape::Box> other_legs(const Builder& b, const Line& line, Vec start, const std::vector<Vec>& corners,
                                   std::size_t leg) {
    std::vector<shape::Box> boxes;
    const Item* bend = b.seek(Part::elbow, line);
    const double radius = bend ? bend->outside.value() / 2 : inch_m;
    Vec from = start;
    for (std::size_t i = 0; i < corners.size(); ++i) {
        if (i != leg) boxes.push_back(shape::grown(shape::box_of(from, corners[i]), radius));
        from = corners[i];
    }
    return boxes;
}

struct Legs {
    Builder& b;
    Line line;
    PortRef open;
    Dressed result;
    std::vector<shape::Box> others = {};  ///< the main's other legs, laid or still to be laid
    std::vector<Vec> sides = {};          ///< the outlets' so far: vessels and returns keep out of one another's way

    double spare = 0;  ///< straight length of the leg that nothing needs

    Vec side_for(const InlineItem& thing) const {
        InlineItem close = thing;  // a body of middling size, where the roomiest finds no place
        close.reach = std::min(thing.reach, 22 * inch_m);
        close.girth = std::min(thing.girth, 12.5 * inch_m);
        const Port& end = b.at(open);
        const Vec side = free_side(b, end.at, end.facing, thing, sides, others);
        return shape::length(side) > 0.5 ? side : free_side(b, end.at, end.facing, close, sides, others);
    }

    void set(const InlineItem& thing) {
        if (thing.item) {
            open = b.fit(line, open, thing.item, thing.name);
        } else if (thing.to.eighths > 0) {
            open = b.reduce(line, open, thing.to);
            line.size = thing.to;
        } else {
            if (!b.on_pipe(open)) open = b.nipple(line, open);
            if (!b.ok()) return;
            Vec side = side_for(thing);
            for (constexpr double step = 4 * inch_m; shape::length(side) < 0.5 && spare >= step && b.ok();
                 spare -= step) {
                open = b.pipe(line, open, step);
                side = side_for(thing);
            }
            if (!b.ok()) return;
            if (shape::length(side) < 0.5) {
                result.left_out.push_back(thing.name);
                return;
            }
            sides.push_back(side);
            const Vec tapped = b.at(open).at;
            const Fork fork = b.tee(line, open, side, thing.outlet, thing.name);
            open = fork.on;
            if (!b.ok()) return;
            result.outlets.push_back({thing.name, fork.branch});
            b.reserved.push_back(
                {hanging_room(0.5 * (tapped + b.at(open).at), side, thing), "room for the " + thing.name});
        }
    }
};

/// Whether no body of things set so far along a leg stands in something else, with so much free about it.
bool stands_clear(const Builder& b, Line line, const std::vector<InlineItem>& things, std::size_t next,
                  std::size_t count, Vec start, Vec along, double about) {
    double at = 0;
    for (std::size_t i = next; i < next + count; ++i) {
        const double nipple = shortest(line.material, line.size), length = length_of(b, line, things[i]);
        const double half = things[i].item ? things[i].item->outside.value() / 2 : 0;
        if (half > 0) {
            const Vec from = start + (at + nipple) * along, to = start + (at + length) * along;
            auto box = shape::grown(shape::box_of(from, to), half + about);
            // it may touch its own line before and after
            if (std::abs(along.x) > 0.5) box.min.x = std::min(from.x, to.x), box.max.x = std::max(from.x, to.x);
            if (std::abs(along.y) > 0.5) box.min.y = std::min(from.y, to.y), box.max.y = std::max(from.y, to.y);
            if (std::abs(along.z) > 0.5) box.min.z = std::min(from.z, to.z), box.max.z = std::max(from.z, to.z);
            if (!b.space.in_room(box) || b.space.taken(box)) return false;
        }
        at += length;
    }
    return true;
}

/// How far things are moved on along a leg, within `spare`, so that no body stands in something else: with room about
/// them, else touching. Nothing where neither is found.
std::optional<double> clear_start(const Builder& b, const Line& line, const std::vector<InlineItem>& things,
                                  std::size_t next, std::size_t count, Vec start, Vec along, double spare) {
    for (const double about : {inch_m / 2, -grid})
        for (double moved = 0; moved <= std::max(0.0, spare); moved += 2 * inch_m)
            if (stands_clear(b, line, things, next, count, start + moved * along, along, about)) return snap(moved);
    return std::nullopt;
}

}  // namespace

std::size_t things_that_fit(const Builder& b, Line& line, const std::vector<InlineItem>& things, std::size_t next,
                            double room) {
    double used = 0;
    std::size_t count = 0;
    for (std::size_t i = next; i < things.size(); ++i) {
        Line after = line;
        used += length_of(b, after, things[i]);
        if (used + shortest(after.material, after.size) > room + 1e-6) break;
        line = after;
        ++count;
    }
    return count;
}

OnLeg things_on_leg(const Builder& b, const Line& line, const std::vector<InlineItem>& things, std::size_t next,
                    const Leg& leg) {
    Line planned = line;
    for (std::size_t count = things_that_fit(b, planned, things, next, leg.length); count > 0; --count) {
        Line after = line;
        double used = 0;
        for (std::size_t k = next; k < next + count; ++k) used += length_of(b, after, things[k]);
        // the elbow is of the size the things leave
        used += shortest(after.material, after.size) + (leg.turns ? elbow_leg(b, after) : 0);
        const double spare = leg.length - used;
        if (spare < -1e-6) continue;
        if (const auto moved = clear_start(b, line, things, next, count, leg.from, leg.along, spare))
            return {count, *moved, spare - *moved};
    }
    return {};
}

double length_of(const Builder& b, const Line& line, const std::vector<InlineItem>& things) {
    Line now = line;
    double length = 0;
    for (const auto& thing : things) length += length_of(b, now, thing);
    return things.empty() ? 0 : length + shortest(now.material, now.size);
}

namespace {

/// Takes things that change no size off the end of a list, last first, until the rest fits; gives their names.
std::vector<std::string> leave_out(const Builder& b, const Line& line, std::vector<InlineItem>& things,
                                   std::size_t next, double room) {
    std::vector<std::string> names;
    const auto fits = [&] {
        Line now = line;
        return things_that_fit(b, now, things, next, room) == things.size() - next;
    };
    while (!fits()) {
        auto last = things.end();
        while (last != things.begin() + static_cast<std::ptrdiff_t>(next) && std::prev(last)->changes_size()) --last;
        if (last == things.begin() + static_cast<std::ptrdiff_t>(next)) break;
        names.push_back(std::prev(last)->name);
        things.erase(std::prev(last));
    }
    std::ranges::reverse(names);
    return names;
}

}  // namespace

Dressed lay_dressed(Builder& b, Line line, PortRef from, const std::vector<Vec>& corners,
                    std::vector<InlineItem> things, PortRef to) {
    Legs legs{b, line, from, {}};
    if (!b.ok() || from == nowhere) return std::move(legs.result);
    const Vec start = b.at(from).at;
    std::size_t next = 0;
    for (std::size_t i = 0; i < corners.size() && b.ok(); ++i) {
        const bool last = i + 1 == corners.size();
        const Vec along = b.at(legs.open).facing;
        const auto left = [&] { return shape::dot(corners[i] - b.at(legs.open).at, along); };
        const double bend = last ? 0 : elbow_leg(b, legs.line);
        legs.others = other_legs(b, legs.line, start, corners, i);
        if (last)
            std::ranges::move(leave_out(b, legs.line, things, next, left() - bend),
                              std::back_inserter(legs.result.left_out));
        const OnLeg here = things_on_leg(b, legs.line, things, next, {b.at(legs.open).at, along, left(), !last});
        if (here.moved > 0)
            legs.open = b.pipe(legs.line, legs.open, shortest(line.material, legs.line.size) + here.moved);
        legs.spare = here.spare;
        for (const std::size_t end = next + here.count; next < end && b.ok(); ++next) legs.set(things[next]);
        if (!b.ok()) break;
        if (last && to != nowhere) {
            b.close(legs.line, legs.open, to);
            break;
        }
        const double straight = left() - (last ? 0 : elbow_leg(b, legs.line));
        if (straight > 1e-6 || !b.takes_fitting(legs.open)) legs.open = b.pipe(legs.line, legs.open, straight);
        if (last || !b.ok()) break;
        const Vec onward = corners[i + 1] - corners[i];
        legs.open = b.elbow(legs.line, legs.open, (1 / shape::length(onward)) * onward);
    }
    for (; next < things.size(); ++next) legs.result.left_out.push_back(things[next].name);
    legs.result.end = legs.open;
    legs.result.size = legs.line.size;
    return std::move(legs.result);
}

}  // namespace bw::piping
