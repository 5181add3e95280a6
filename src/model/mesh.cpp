// SPDX-License-Identifier: MIT
#include "model/mesh.h"

#include <cassert>
#include <cmath>
#include <numbers>

namespace bw::model {
namespace {

using shape::Vec;

std::array<float, 3> floats(Vec v) {
    return {static_cast<float>(v.x), static_cast<float>(v.y), static_cast<float>(v.z)};
}

std::uint16_t put(Mesh& mesh, Vec at, Vec normal) {
    assert(mesh.vertices.size() < 65535);
    mesh.vertices.push_back({floats(at), floats(normal)});
    return static_cast<std::uint16_t>(mesh.vertices.size() - 1);
}

void triangle(Mesh& mesh, int a, int b, int c) {
    for (const int i : {a, b, c}) mesh.indices.push_back(static_cast<std::uint16_t>(i));
}

void add(Mesh& mesh, const shape::Box& box) {
    const Vec middle = 0.5 * (box.min + box.max), half = 0.5 * (box.max - box.min);
    const Vec ex{half.x, 0, 0}, ey{0, half.y, 0}, ez{0, 0, half.z};
    const auto face = [&](Vec out, Vec u, Vec v) {  // u, v and out are right-handed
        const Vec at = middle + out, normal = (1 / shape::length(out)) * out;
        const int first = put(mesh, at - u - v, normal);
        put(mesh, at + u - v, normal), put(mesh, at + u + v, normal), put(mesh, at - u + v, normal);
        triangle(mesh, first, first + 1, first + 2), triangle(mesh, first, first + 2, first + 3);
    };
    face(ex, ey, ez), face(-ex, ez, ey), face(ey, ez, ex), face(-ey, ex, ez), face(ez, ex, ey), face(-ez, ey, ex);
}

struct Round {
    std::array<Vec, round_sides> spoke;  ///< unit vectors across the bar
};

Vec unit(Vec v) { return (1 / shape::length(v)) * v; }

/// Spokes of the first bar: its own x and y where it stands along z, else turned from them.
Round first_round(Vec along) {
    Vec u{1, 0, 0};
    if (std::abs(along.x) > 0.9) u = {0, 1, 0};
    u = unit(u - shape::dot(u, along) * along);
    const Vec v = shape::cross(along, u);
    Round round;
    for (int i = 0; i < round_sides; ++i) {
        const double angle = 2 * std::numbers::pi * i / round_sides;
        round.spoke[static_cast<std::size_t>(i)] = std::cos(angle) * u + std::sin(angle) * v;
    }
    return round;
}

/// Carries a corner of the section along a bar to the plane of a mitre.
Vec onto(Vec point, Vec along, Vec corner, Vec normal) {
    return point + (shape::dot(corner - point, normal) / shape::dot(along, normal)) * along;
}

void cap(Mesh& mesh, const std::array<Vec, round_sides>& ring, Vec normal, bool turned) {
    const int first = static_cast<int>(mesh.vertices.size());
    for (const Vec at : ring) put(mesh, at, normal);
    for (int i = 1; i + 1 < round_sides; ++i)
        turned ? triangle(mesh, first, first + i + 1, first + i) : triangle(mesh, first, first + i, first + i + 1);
}

void side(Mesh& mesh, const std::array<Vec, round_sides>& from, const std::array<Vec, round_sides>& to,
          const Round& round) {
    const int first = static_cast<int>(mesh.vertices.size());
    for (std::size_t i = 0; i < round_sides; ++i) put(mesh, from[i], round.spoke[i]), put(mesh, to[i], round.spoke[i]);
    for (int i = 0; i < round_sides; ++i) {
        const int a = first + 2 * i, b = first + 2 * ((i + 1) % round_sides);
        triangle(mesh, a, b, b + 1), triangle(mesh, a, b + 1, a + 1);
    }
}

void add(Mesh& mesh, const Rod& rod) {
    const auto& line = rod.line;
    Vec along = unit(line[1] - line[0]);
    Round round = first_round(along);
    std::array<Vec, round_sides> ring, next;
    for (std::size_t i = 0; i < round_sides; ++i) ring[i] = line[0] + rod.radius * round.spoke[i];
    cap(mesh, ring, -along, true);
    for (std::size_t k = 1; k < line.size(); ++k) {
        const bool last = k + 1 == line.size();
        const Vec onward = last ? along : unit(line[k + 1] - line[k]), plane = unit(along + onward);
        for (std::size_t i = 0; i < round_sides; ++i) next[i] = onto(ring[i], along, line[k], plane);
        side(mesh, ring, next, round);
        for (Vec& spoke : round.spoke) {  // mirrored in the mitre, a corner stays on its ridge
            const Vec off = spoke - shape::dot(spoke, along) * along;
            spoke = last ? off
                         : unit(onto(off, along, {}, plane) - shape::dot(onto(off, along, {}, plane), onward) * onward);
        }
        ring = next, along = onward;
    }
    cap(mesh, ring, along, false);
}

}  // namespace

Mesh mesh(const std::vector<Form>& forms) {
    Mesh made;
    for (const auto& form : forms) std::visit([&](const auto& f) { add(made, f); }, form);
    return made;
}

}  // namespace bw::model
