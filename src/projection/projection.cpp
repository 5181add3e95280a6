// SPDX-License-Identifier: MIT
#include "projection/projection.h"

#include <algorithm>
#include <cmath>

#include "projection/field.h"
#include "projection/lines.h"
#include "projection/order.h"
#include "projection/shade.h"

namespace bw::projection {
namespace {

constexpr double least_seen = 1e-9;  // of a line's whole: shorter stretches are rounding

/// An arc seen on edge is a straight line.
void straighten(std::vector<Point>& line) {
    if (line.size() < 3) return;
    const Point a = line.front(), b = line.back();
    const double x = b.x - a.x, y = b.y - a.y, square = x * x + y * y;
    double last = 0;
    for (const auto& p : line) {
        const double along = (p.x - a.x) * x + (p.y - a.y) * y, across = (p.x - a.x) * y - (p.y - a.y) * x;
        if (along < last || std::abs(across) > 1e-6 * std::sqrt(square)) return;
        last = along;
    }
    line = {a, b};
}

/// Where a line's chords are hidden.
struct Hidden {
    std::vector<std::vector<Span>> chord;
    std::vector<bool> wholly;
    std::size_t gone = 0;  ///< chords wholly hidden

    explicit Hidden(std::size_t chords) : chord(chords), wholly(chords, false) {}
    void add(std::size_t i, Span span) {
        if (span.empty() || wholly[i]) return;
        if (span.from <= 0 && span.to >= 1) wholly[i] = true, ++gone;
        chord[i].push_back(span);
    }
    /// What is left of a chord, and what is not, in their order.
    [[nodiscard]] std::vector<std::pair<Span, bool>> stretches(std::size_t i) const {
        auto spans = chord[i];
        std::sort(spans.begin(), spans.end(), [](Span a, Span b) { return a.from < b.from; });
        std::vector<std::pair<Span, bool>> out;
        double at = 0;
        for (const auto& span : spans) {
            if (span.to <= at) continue;
            if (span.from > at + least_seen) out.push_back({{at, span.from}, false});
            const double from = std::max(at, span.from), to = std::min(span.to, 1.0);
            if (!out.empty() && out.back().second)
                out.back().first.to = to;
            else
                out.push_back({{from, to}, true});
            at = to;
        }
        if (at < 1 - least_seen) out.push_back({{at, 1}, false});
        return out;
    }
};

class Looker {
public:
    Looker(const std::vector<Item>& items, const Eye& eye, const Wanted& wanted)
        : items_(items), eye_(eye), wanted_(wanted), field_(items, eye), shown_(items.size(), false) {}

    Seen look(const std::vector<Wire>& wires) {
        std::vector<Curve> curves;
        for (int i = 0; i < static_cast<int>(items_.size()); ++i) add_curves(curves, items_, i, eye_, wanted_.chord);
        for (const auto& wire : wires) curves.push_back({-1, wire.owner, Kind::wire, {wire.a, wire.b}, 0, {}});
        for (const auto& curve : curves) trace(curve);
        if (wanted_.faces)
            for (const int item : painted(items_, shown_, field_, eye_))
                add_faces(seen_.faces, items_[static_cast<std::size_t>(item)], eye_, wanted_.chord);
        return std::move(seen_);
    }

private:
    void trace(const Curve& curve) {
        Patch whole;
        for (const Vec v : curve.line) whole.take(eye_, v);
        Patch around = whole;
        around.grow(1e-9);  // a line along an axis has no area
        field_.before(curve.line, around, found_);
        // the largest first: most lines are hidden by heaters
        std::sort(found_.begin(), found_.end(), [&](int a, int b) {
            const double x = field_.patch(a).area(), y = field_.patch(b).area();
            return x != y ? x > y : a < b;
        });
        Hidden hidden(curve.line.size() - 1);
        for (const int item : found_) {
            if (item == curve.item) continue;
            shade_by(item, curve, hidden);
            if (hidden.gone == hidden.chord.size()) break;
        }
        write(curve, hidden);
    }

    void shade_by(int item, const Curve& curve, Hidden& hidden) const {
        const auto& solid = items_[static_cast<std::size_t>(item)];
        for (std::size_t i = 0; i + 1 < curve.line.size(); ++i)
            if (!hidden.wholly[i]) hidden.add(i, shade(solid, curve.line[i], curve.line[i + 1], eye_.towards));
    }

    void write(const Curve& curve, const Hidden& hidden) {
        bool open = false, was_hidden = false;
        const std::size_t first = seen_.strokes.size();
        for (std::size_t i = 0; i + 1 < curve.line.size(); ++i) {
            const Point a = eye_(curve.line[i]), b = eye_(curve.line[i + 1]);
            const auto at = [&](double t) { return Point{a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)}; };
            for (const auto& [span, is_hidden] : hidden.stretches(i)) {
                if (!open || was_hidden != is_hidden || span.from > 0)
                    seen_.strokes.push_back({curve.owner, curve.kind, is_hidden, {at(span.from)}, 0});
                seen_.strokes.back().line.push_back(at(span.to));
                open = span.to >= 1, was_hidden = is_hidden;
            }
        }
        bool any = false;
        for (std::size_t i = first; i < seen_.strokes.size(); ++i) {
            any |= !seen_.strokes[i].hidden;
            straighten(seen_.strokes[i].line);
        }
        if (any && curve.item >= 0) shown_[static_cast<std::size_t>(curve.item)] = true;
        if (curve.radius > 0 && seen_.strokes.size() == first + 1 && !was_hidden)
            seen_.strokes.back().line = {eye_(curve.centre)}, seen_.strokes.back().radius = curve.radius;
        if (wanted_.hidden) return;
        const auto from = seen_.strokes.begin() + static_cast<std::ptrdiff_t>(first);
        seen_.strokes.erase(std::remove_if(from, seen_.strokes.end(), [](const Stroke& s) { return s.hidden; }),
                            seen_.strokes.end());
    }

    const std::vector<Item>& items_;
    const Eye& eye_;
    const Wanted& wanted_;
    Field field_;
    std::vector<bool> shown_;
    std::vector<int> found_;
    Seen seen_;
};

}  // namespace

Eye isometric(int x, int y) {
    const double third = std::sqrt(1.0 / 3), half = std::sqrt(0.5), sixth = std::sqrt(1.0 / 6);
    const double a = x < 0 ? -1 : 1, b = y < 0 ? -1 : 1;
    return {{-b * half, a * half, 0}, {-a * sixth, -b * sixth, 2 * sixth}, {a * third, b * third, third}};
}

void add(std::vector<Item>& items, const std::vector<shape::Solid>& solids, int owner) {
    constexpr double hair = 1e-6;
    const shape::Cylinder* last = nullptr;
    for (const auto& solid : solids) {
        const auto* bar = std::get_if<shape::Cylinder>(&solid);
        if (!bar) {
            items.push_back({std::get<shape::Box>(solid), owner, false, false});
            last = nullptr;
            continue;
        }
        if (distance(bar->a, bar->b) < hair) continue;
        const bool goes_on = last && distance(last->b, bar->a) < hair && std::abs(last->radius - bar->radius) < hair;
        if (goes_on) {
            items.back().joined_b = true;
            items.push_back({Ball{bar->a, bar->radius}, owner, false, false});
        }
        items.push_back({*bar, owner, goes_on, false});
        last = bar;
    }
}

Seen look(const std::vector<Item>& items, const std::vector<Wire>& wires, const Eye& eye, const Wanted& wanted) {
    return Looker(items, eye, wanted).look(wires);
}

}  // namespace bw::projection
