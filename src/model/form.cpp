// SPDX-License-Identifier: MIT
#include "model/form.h"

#include <cmath>
#include <cstdint>
#include <map>

namespace bw::model {
namespace {

using shape::Vec;

constexpr double rounding = 1e-7;  // metres: closer than this is the same

Vec way(Vec a, Vec b) { return (1 / shape::distance(a, b)) * (b - a); }

/// What a mitre between two directions takes from each bar's inner side.
double mitre(Vec before, Vec after, double radius) {
    const double cosine = shape::dot(before, after);
    return cosine <= -0.999 ? 1e9 : radius * std::sqrt(std::max(0.0, 1 - cosine) / (1 + cosine));
}

/// Whether a bar may follow a rod: it begins at the rod's end, is as thick, and both are long enough for their mitres.
bool follows(const Rod& rod, const shape::Cylinder& bar) {
    const auto& line = rod.line;
    const std::size_t n = line.size();
    if (std::abs(rod.radius - bar.radius) > rounding || shape::distance(line.back(), bar.a) > rounding) return false;
    const Vec last = way(line[n - 2], line[n - 1]);
    const double taken = mitre(last, way(bar.a, bar.b), rod.radius);
    const double before = n > 2 ? mitre(way(line[n - 3], line[n - 2]), last, rod.radius) : 0;
    return before + taken <= shape::distance(line[n - 2], line[n - 1]) + rounding &&
           taken <= shape::distance(bar.a, bar.b) + rounding;
}

Vec across(Vec z) {
    const Vec ax{std::abs(z.x), std::abs(z.y), std::abs(z.z)};
    if (ax.x <= ax.y && ax.x <= ax.z) return {1, 0, 0};
    return ax.y <= ax.z ? Vec{0, 1, 0} : Vec{0, 0, 1};
}

/// Along the first rod, turned towards the first thing that leaves its line; along the room's axes beside a box.
Frame frame_of(const std::vector<Form>& all) {
    for (const auto& form : all)
        if (const auto* box = std::get_if<shape::Box>(&form)) return {box->min};
    const auto& first = std::get<Rod>(all.front()).line;
    Frame frame{first[0]};
    frame.z = way(first[0], first[1]);
    Vec side = across(frame.z);
    const auto turn = [&](Vec to) {
        const Vec off = (to - first[0]) - shape::dot(to - first[0], frame.z) * frame.z;
        if (shape::length(off) < 1e-4) return false;
        side = off;
        return true;
    };
    [&] {
        for (const auto& form : all)
            for (const Vec point : std::get<Rod>(form).line)
                if (turn(point)) return;
    }();
    const Vec off = side - shape::dot(side, frame.z) * frame.z;
    frame.x = (1 / shape::length(off)) * off;
    frame.y = shape::cross(frame.z, frame.x);
    return frame;
}

Form local(const Frame& frame, const Form& form) {
    if (const auto* box = std::get_if<shape::Box>(&form)) return shape::Box{frame.in(box->min), frame.in(box->max)};
    Rod rod = std::get<Rod>(form);
    for (Vec& point : rod.line) point = frame.in(point);
    return rod;
}

using Key = std::vector<std::int64_t>;

Key key_of(const std::vector<Form>& all, Look look) {
    Key key{index_of(look)};
    const auto number = [&](double value) { key.push_back(std::llround(value / rounding)); };
    const auto point = [&](Vec v) { number(v.x), number(v.y), number(v.z); };
    for (const auto& form : all) {
        if (const auto* box = std::get_if<shape::Box>(&form)) {
            key.push_back(0), point(box->min), point(box->max);
            continue;
        }
        const auto& rod = std::get<Rod>(form);
        key.push_back(static_cast<std::int64_t>(rod.line.size())), number(rod.radius);
        for (const Vec v : rod.line) point(v);
    }
    return key;
}

}  // namespace

std::vector<Form> forms(const std::vector<shape::Solid>& solids) {
    std::vector<Form> all;
    for (const auto& solid : solids) {
        if (const auto* box = std::get_if<shape::Box>(&solid)) {
            all.emplace_back(*box);
            continue;
        }
        const auto& bar = std::get<shape::Cylinder>(solid);
        if (shape::distance(bar.a, bar.b) < rounding) continue;  // nothing to see
        auto* rod = all.empty() ? nullptr : std::get_if<Rod>(&all.back());
        if (rod && follows(*rod, bar))
            rod->line.push_back(bar.b);
        else
            all.emplace_back(Rod{{bar.a, bar.b}, bar.radius});
    }
    return all;
}

shape::Box bounds(const Form& form) {
    if (const auto* box = std::get_if<shape::Box>(&form)) return *box;
    const auto& rod = std::get<Rod>(form);
    auto all = shape::bounds(shape::Cylinder{rod.line[0], rod.line[1], rod.radius});
    for (std::size_t i = 2; i < rod.line.size(); ++i)
        all = shape::joined(all, shape::bounds(shape::Cylinder{rod.line[i - 1], rod.line[i], rod.radius}));
    return all;
}

Vec Frame::in(Vec room) const {
    const Vec v = room - origin;
    return {shape::dot(v, x), shape::dot(v, y), shape::dot(v, z)};
}

Vec Frame::out(Vec local) const { return origin + (local.x * x + local.y * y + local.z * z); }

Scene scene(const plant::Plant& plant) {
    Scene made;
    std::map<Key, int> known;
    for (std::size_t i = 0; i < plant.pieces.size(); ++i) {
        const auto& piece = plant.pieces[i];
        if (piece.part == text::Part::connection) continue;
        auto all = forms(piece.solids);
        if (all.empty()) continue;
        const Frame frame = frame_of(all);
        for (auto& form : all) form = local(frame, form);
        const auto [at, added] = known.try_emplace(key_of(all, look_of(piece)), static_cast<int>(made.shapes.size()));
        if (added) made.shapes.push_back({std::move(all), look_of(piece), piece.item, 0});
        ++made.shapes[static_cast<std::size_t>(at->second)].used;
        made.placed.push_back({static_cast<int>(i), at->second, frame});
    }
    return made;
}

}  // namespace bw::model
