// SPDX-License-Identifier: MIT
// What a heater answers about itself: its ports and its two curves.

#include <fmt/format.h>

#include <algorithm>

#include "catalogue/catalogue.h"

namespace bw::catalogue {

namespace {

/// How far past the ends of the efficiency curve its end values are still believed.
constexpr double beyond_ends = 5;  // K

/// Straight lines between points of rising x; x lies within them.
template <class X, class Y>
Y between(const std::vector<CurvePoint<X, Y>>& curve, X x) {
    std::size_t i = 1;
    while (i + 1 < curve.size() && x > curve[i].x) ++i;
    const auto& a = curve[i - 1];
    const auto& b = curve[i];
    return a.y + (b.y - a.y) * static_cast<double>((x - a.x) / (b.x - a.x));
}

}  // namespace

const HeaterPort* Heater::port(std::string_view wanted) const {
    for (const auto& p : ports)
        if (p.name == wanted) return &p;
    return nullptr;
}

std::vector<int> linked_groups(const Heater& heater, int heaters) {
    const int most = std::max(1, heater.greatest_group);
    std::vector<int> sizes;
    for (int parts = (heaters + most - 1) / most; parts > 0; --parts) {
        sizes.push_back((heaters + parts - 1) / parts);
        heaters -= sizes.back();
    }
    return sizes;
}

const GasInlet* Heater::inlet(Gas kind) const {
    for (const auto& inlet : gas)
        if (inlet.gas == kind) return &inlet;
    return nullptr;
}

Result<Ratio> efficiency(const Heater& heater, Temperature return_water) {
    const auto& curve = heater.efficiency;
    if (curve.size() < 2) return fail(fmt::format("{} has no efficiency curve", heater.key), "at least two points");
    const auto reach = beyond_ends * kelvin_difference;
    if (return_water < curve.front().x - reach || return_water > curve.back().x + reach)
        return fail(fmt::format("{}: efficiency at a return of {} is not known", heater.key,
                                print(amount(return_water), System::us)),
                    fmt::format("{} to {}", print(amount(curve.front().x), System::us),
                                print(amount(curve.back().x), System::us)));
    if (return_water <= curve.front().x) return curve.front().y;
    if (return_water >= curve.back().x) return curve.back().y;
    return between(curve, return_water);
}

Result<Pressure> pressure_drop(const Heater& heater, VolumeFlow flow) {
    const auto& curve = heater.pressure_drop;
    if (curve.size() < 2) return fail(fmt::format("{} has no pressure-drop curve", heater.key), "at least two points");
    if (flow < curve.front().x || flow > heater.flow_greatest || flow > curve.back().x)
        return fail(fmt::format("{}: pressure drop at {} is not known", heater.key, print(amount(flow), System::us)),
                    fmt::format("0 to {}", print(amount(heater.flow_greatest), System::us)));
    return between(curve, flow);
}

}  // namespace bw::catalogue
