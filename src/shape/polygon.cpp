// SPDX-License-Identifier: MIT
#include "shape/polygon.h"

#include <algorithm>
#include <cmath>

namespace bw::shape {
namespace {

Point minus(Point a, Point b) { return {a.x - b.x, a.y - b.y}; }
double cross(Point a, Point b) { return a.x * b.y - a.y * b.x; }
double dot(Point a, Point b) { return a.x * b.x + a.y * b.y; }
double size(Point a) { return std::sqrt(dot(a, a)); }

/// Side of c against the line a to b: 0 when it lies on it to within rounding.
int side(Point a, Point b, Point c) {
    const Point ab = minus(b, a), ac = minus(c, a);
    const double area = cross(ab, ac);
    if (std::abs(area) <= 1e-12 * (size(ab) * size(ac))) return 0;
    return area > 0 ? 1 : -1;
}

bool within_span(Point a, Point b, Point p) {
    return std::min(a.x, b.x) <= p.x && p.x <= std::max(a.x, b.x) && std::min(a.y, b.y) <= p.y &&
           p.y <= std::max(a.y, b.y);
}

bool meet(Point a, Point b, Point c, Point d) {
    const int abc = side(a, b, c), abd = side(a, b, d), cda = side(c, d, a), cdb = side(c, d, b);
    if (abc != abd && cda != cdb && abc * abd <= 0 && cda * cdb <= 0 && !(abc == 0 && abd == 0)) return true;
    return (abc == 0 && within_span(a, b, c)) || (abd == 0 && within_span(a, b, d)) ||
           (cda == 0 && within_span(c, d, a)) || (cdb == 0 && within_span(c, d, b));
}

double distance_to_edge(Point a, Point b, Point p) {
    const Point ab = minus(b, a);
    const double whole = dot(ab, ab);
    const double t = whole > 0 ? std::clamp(dot(minus(p, a), ab) / whole, 0.0, 1.0) : 0.0;
    return size(minus(p, {a.x + t * ab.x, a.y + t * ab.y}));
}

/// Whether an edge's own bounds come as near as `tolerance` to those between two points: quickly told, and seldom so.
bool reaches(Point a, Point b, Point low, Point high, double tolerance) {
    return std::min(a.x, b.x) <= high.x + tolerance && std::max(a.x, b.x) >= low.x - tolerance &&
           std::min(a.y, b.y) <= high.y + tolerance && std::max(a.y, b.y) >= low.y - tolerance;
}

/// Whether any edge's bounds come as near to a box; else the box is all inside or all outside.
bool touches(const Polygon& polygon, const Box& box, double tolerance) {
    for (std::size_t i = 0; i < polygon.size(); ++i)
        if (reaches(polygon[i], polygon[(i + 1) % polygon.size()], {box.min.x, box.min.y}, {box.max.x, box.max.y},
                    tolerance))
            return true;
    return false;
}

/// Whether the straight way from a to b stays inside: cut where it meets an edge, every piece's middle is inside.
bool way_inside(const Polygon& polygon, Point a, Point b, double tolerance) {
    const Point way = minus(b, a);
    std::vector<double> cuts{0, 1};
    for (std::size_t i = 0; i < polygon.size(); ++i) {
        const Point c = polygon[i], edge = minus(polygon[(i + 1) % polygon.size()], c);
        const double det = cross(way, edge);
        if (det == 0) continue;
        const double t = cross(minus(c, a), edge) / det, s = cross(minus(c, a), way) / det;
        if (t > 0 && t < 1 && s >= -1e-9 && s <= 1 + 1e-9) cuts.push_back(t);
    }
    std::sort(cuts.begin(), cuts.end());
    for (std::size_t k = 0; k + 1 < cuts.size(); ++k) {
        const double t = (cuts[k] + cuts[k + 1]) / 2;
        if (!inside(polygon, {a.x + t * way.x, a.y + t * way.y}, tolerance)) return false;
    }
    return true;
}

}  // namespace

Box bounds(const Polygon& polygon) {
    Box box{{polygon[0].x, polygon[0].y, 0}, {polygon[0].x, polygon[0].y, 0}};
    for (const Point& p : polygon) box = joined(box, {{p.x, p.y, 0}, {p.x, p.y, 0}});
    return box;
}

double signed_area(const Polygon& polygon) {
    double twice = 0;
    for (std::size_t i = 0; i < polygon.size(); ++i) twice += cross(polygon[i], polygon[(i + 1) % polygon.size()]);
    return twice / 2;
}

bool crosses_itself(const Polygon& polygon) {
    const std::size_t n = polygon.size();
    if (n < 3) return true;
    for (std::size_t i = 0; i < n; ++i) {
        const Point a = polygon[i], b = polygon[(i + 1) % n], c = polygon[(i + 2) % n];
        if (a == b) return true;
        if (side(a, b, c) == 0 && dot(minus(b, a), minus(c, b)) < 0) return true;
        for (std::size_t j = i + 2; j < n; ++j) {
            if (i == 0 && j == n - 1) continue;  // neighbours share a corner
            if (meet(a, b, polygon[j], polygon[(j + 1) % n])) return true;
        }
    }
    return false;
}

bool inside(const Polygon& polygon, Point p, double tolerance) {
    bool in = false;
    for (std::size_t i = 0; i < polygon.size(); ++i) {
        const Point a = polygon[i], b = polygon[(i + 1) % polygon.size()];
        if (reaches(a, b, p, p, tolerance) && distance_to_edge(a, b, p) <= tolerance) return true;
        if ((a.y > p.y) != (b.y > p.y) && p.x < a.x + (p.y - a.y) / (b.y - a.y) * (b.x - a.x)) in = !in;
    }
    return in;
}

bool contains(const Polygon& polygon, const Box& box, double tolerance) {
    if (!touches(polygon, box, tolerance)) return inside(polygon, {box.min.x, box.min.y});
    // A simple polygon has no holes: what its inside surrounds is inside.
    const Point corners[] = {
        {box.min.x, box.min.y}, {box.max.x, box.min.y}, {box.max.x, box.max.y}, {box.min.x, box.max.y}};
    for (std::size_t i = 0; i < 4; ++i) {
        if (!inside(polygon, corners[i], tolerance)) return false;
        if (!way_inside(polygon, corners[i], corners[(i + 1) % 4], tolerance)) return false;
    }
    return true;
}

}  // namespace bw::shape
