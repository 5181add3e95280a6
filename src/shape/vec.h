// SPDX-License-Identifier: MIT
#pragma once
// Points and directions in the room, metres: x and y in plan, z up from the finished floor.

#include <cmath>

namespace bw::shape {

struct Vec {
    double x = 0, y = 0, z = 0;
    bool operator==(const Vec&) const = default;
};

[[nodiscard]] constexpr Vec operator+(Vec a, Vec b) { return {a.x + b.x, a.y + b.y, a.z + b.z}; }
[[nodiscard]] constexpr Vec operator-(Vec a, Vec b) { return {a.x - b.x, a.y - b.y, a.z - b.z}; }
[[nodiscard]] constexpr Vec operator-(Vec a) { return {-a.x, -a.y, -a.z}; }
[[nodiscard]] constexpr Vec operator*(double k, Vec a) { return {k * a.x, k * a.y, k * a.z}; }
[[nodiscard]] constexpr double dot(Vec a, Vec b) { return a.x * b.x + a.y * b.y + a.z * b.z; }
[[nodiscard]] constexpr Vec cross(Vec a, Vec b) {
    return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}
[[nodiscard]] inline double length(Vec a) { return std::sqrt(dot(a, a)); }
[[nodiscard]] inline double distance(Vec a, Vec b) { return length(a - b); }

inline constexpr Vec up{0, 0, 1};
inline constexpr Vec down{0, 0, -1};

/// Turns about the vertical by quarter turns (counter-clockwise from above), then moves. Exact: no rotation matrix.
struct Placement {
    int quarter_turns = 0;  ///< 0 to 3
    Vec origin;
    [[nodiscard]] constexpr Vec turn(Vec v) const {
        switch (quarter_turns & 3) {
            case 1: return {-v.y, v.x, v.z};
            case 2: return {-v.x, -v.y, v.z};
            case 3: return {v.y, -v.x, v.z};
            default: return v;
        }
    }
    [[nodiscard]] constexpr Vec operator()(Vec v) const { return origin + turn(v); }
    bool operator==(const Placement&) const = default;
};

}  // namespace bw::shape
