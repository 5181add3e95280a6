// SPDX-License-Identifier: MIT
// Strut across the studs of a wall that burns or is light: rails that heaters and arms are bolted to.

#include <algorithm>
#include <cmath>

#include "piping/support/structure.h"

namespace bw::piping {
namespace {

constexpr double strut_half = 0.8125 * inch_m;  ///< half of 1-5/8 in
constexpr double between_studs = 16 * inch_m, from_end = 1 * inch_m, least_rail = 18 * inch_m, step = inch_m;

shape::Box rail_box(const plant::Bank& bank, double low, double high, double w) {
    return {{low, -bank.depth_back, w - strut_half}, {high, 0, w + strut_half}};
}

}  // namespace

StudRails::StudRails(Structure& s, const plant::Bank& bank) : s_(s), bank_(bank) {}

void StudRails::add(double low, double high, double w) {
    const double spare = std::max(0.0, least_rail - (high - low)) / 2;
    low = std::max(0.0, low - spare), high = std::min(bank_.length, high + spare);
    // a rail is cut where a pipe comes out of the wall
    for (double from = low; from < high - step;) {
        double to = from;
        while (to < high - 1e-9 && is_free(to, std::min(to + step, high), w)) to = std::min(to + step, high);
        if (to - from > 3 * from_end) cut(snap(from), snap(to), w);
        from = std::max(to, from) + step;
    }
}

bool StudRails::is_free(double low, double high, double w) const {
    const auto box = rail_box(bank_, low, high, w);
    return !s_.b.space.taken(shape::box_of(bank_.place(box.min), bank_.place(box.max)));
}

void StudRails::cut(double low, double high, double w) {
    const Item* longest = s_.row(Part::strut, 1e3);
    const double most = longest ? longest->number("length").value_or(high - low) : high - low;
    const int parts = static_cast<int>(std::ceil((high - low) / most - 1e-6));
    for (int k = 0; k < parts; ++k)
        lay(snap(low + (high - low) * k / parts), snap(low + (high - low) * (k + 1) / parts), w);
}

void StudRails::lay(double low, double high, double w) {
    const std::string name = "bank-" + std::to_string(bank_.number) + ".support";
    auto rail = s_.piece(s_.row(Part::strut, high - low), Part::strut, name, bank_.number);
    if (!rail) return;
    const auto box = rail_box(bank_, low, high, w);
    rail->cut = high - low;
    rail->solids = {shape::box_of(bank_.place(box.min), bank_.place(box.max))};
    const Vec into_wall = bank_.place.turn({0, -1, 0});
    const double span = high - low - 2 * from_end;
    const int studs = std::max(2, 1 + static_cast<int>(std::floor(span / between_studs + 1e-6)));
    for (int k = 0; k < studs; ++k) {
        const double u = low + from_end + std::min(span, k * between_studs);
        rail->ports.push_back(bolt_hole("stud-" + std::to_string(k + 1),
                                        bank_.place({k + 1 == studs ? high - from_end : u, -bank_.depth_back, w}),
                                        into_wall));
    }
    const int index = s_.b.add(std::move(*rail));
    for (int k = 0; k < studs; ++k) s_.anchor({index, k}, name, bank_.number, Into::stud);
    rails_.push_back({low, high, w, index});
}

PortRef StudRails::hole(double u, double w, const std::string& name) {
    for (const Rail& rail : rails_)
        if (u > rail.low && u < rail.high && std::abs(w - rail.w) < strut_half)
            return s_.b.tap(rail.piece, bolt_hole(name, bank_.place({u, 0, w}), bank_.place.turn({0, 1, 0})));
    return nowhere;
}

}  // namespace bw::piping
