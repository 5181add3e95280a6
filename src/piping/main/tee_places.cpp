// SPDX-License-Identifier: MIT
#include "piping/main/tee_places.h"

#include <algorithm>
#include <cmath>

namespace bw::piping {
namespace {

/// No way out along `first` that comes in against `facing` is priced lower: by the legs it must have, and by going past
/// and back where the far end is not ahead. `turn` is what an elbow takes of a leg.
double least_price(Vec way, Vec first, Vec facing, double turn) {
    const double out = shape::dot(way, first), in = -shape::dot(way, facing), alike = -shape::dot(first, facing);
    int across = 0;  // ways to go that neither the first leg nor the last goes
    for (const Vec axis : {Vec{1, 0, 0}, Vec{0, 1, 0}, Vec{0, 0, 1}})
        across += std::abs(shape::dot(axis, first)) < 0.5 && std::abs(shape::dot(axis, facing)) < 0.5 &&
                  std::abs(shape::dot(axis, way)) > grid;
    const double length = std::abs(way.x) + std::abs(way.y) + std::abs(way.z);
    if (alike > 0.5 && across == 0 && out > 0) return length + turn_price;
    const int legs = 2 + (std::abs(alike) > 0.5 ? std::max(across, 1) : across);
    const auto past = [turn](double ahead) { return 2 * std::max(0.0, turn - std::max(0.0, ahead)); };
    const double more = alike < -0.5 ? std::max(past(out), past(in)) : past(out) + past(in);
    return length + more + turn_price * legs;
}

}  // namespace

double price_of(Vec from, const std::vector<Vec>& way) {
    double length = 0;
    for (const Vec& corner : way) length += shape::distance(from, corner), from = corner;
    return length + turn_price * static_cast<double>(way.size());
}

void add_tee_places(std::vector<TeePlace>& places, const TeeStretch& on, const Port& other, const Item& tee,
                    double turn) {
    const double nearest = std::clamp(shape::dot(other.at - on.from, on.along), on.low, on.high);
    std::vector<double> stations{snap(nearest)};
    if (on.high - on.low > 0.3) stations.push_back(snap((on.low + on.high) / 2));
    for (const double station : stations) {
        const Vec middle = on.from + std::clamp(station, snap_up(on.low), on.high) * on.along;
        for (const Vec& side :
             {Vec{0, 0, 1}, Vec{1, 0, 0}, Vec{-1, 0, 0}, Vec{0, 1, 0}, Vec{0, -1, 0}, Vec{0, 0, -1}}) {
            if (std::abs(shape::dot(side, on.along)) > 0.5) continue;
            const Vec way = other.at - (middle + tee.stem.value() * side);
            places.push_back({on.leg, middle, side, least_price(way, side, other.facing, turn)});
        }
    }
}

}  // namespace bw::piping
