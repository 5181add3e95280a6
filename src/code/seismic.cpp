// SPDX-License-Identifier: MIT
#include "code/seismic.h"
#include "reason/document.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace bw::code {
namespace {

Result<void> within(double value, double least, double greatest, const char* what) {
    if (std::isfinite(value) && value >= least && value <= greatest) return {};
    return fail(fmt::format("{} is {:g}", what, value), fmt::format("{:g} to {:g}", least, greatest));
}

Result<void> above(double value, const char* what) {
    if (std::isfinite(value) && value > 0) return {};
    return fail(fmt::format("{} is not above zero", what), "a value above zero");
}

Result<void> judge(const Fastened& c) {
    if (auto ok = above(c.weight.value(), "the weight"); !ok) return ok;
    if (auto ok = above(c.sds, "SDS"); !ok) return ok;
    if (auto ok = within(c.sds, 0, 4, "SDS"); !ok) return ok;
    if (auto ok = within(c.ap, 1, 2.5, "ap"); !ok) return ok;
    if (auto ok = within(c.rp, 1, 12, "Rp"); !ok) return ok;
    if (auto ok = within(c.ip, 1, 1.5, "Ip"); !ok) return ok;
    return within(c.height_ratio, 0, 1, "z/h");
}

reason::Term plain(const char* symbol, const char* meaning, double value) {
    return {symbol, meaning, units::number(value)};
}

}  // namespace

Result<Ruled<SeismicForce>> seismic_force(const Fastened& c) {
    if (auto ok = judge(c); !ok) return tl::unexpected(ok.error());
    Ruled<SeismicForce> out;
    auto& found = out.value;
    found.computed = 0.4 * c.ap * c.sds / (c.rp / c.ip) * (1 + 2 * c.height_ratio) * c.weight;
    found.upper = 1.6 * c.sds * c.ip * c.weight;
    found.lower = 0.3 * c.sds * c.ip * c.weight;
    found.force = std::clamp(found.computed, found.lower, found.upper);
    found.vertical = 0.2 * c.sds * c.weight;
    out.derivation = {
        {"Sideways, along each axis in turn, at the centre of gravity.",
         "Fp = 0.4 ap SDS Wp (1 + 2 z/h) / (Rp / Ip)",
         {plain("ap", "amplification", c.ap),
          plain("SDS", "design acceleration at short periods, g", c.sds),
          {"Wp", "operating weight", amount(c.weight)},
          plain("z/h", "height of fastening over the roof's", c.height_ratio),
          plain("Rp", "response", c.rp),
          plain("Ip", "importance", c.ip)},
         reason::Term{"Fp", "before its bounds", amount(found.computed)}},
        {"Not more than this.", "1.6 SDS Ip Wp", {}, reason::Term{"", "greatest", amount(found.upper)}},
        {"Not less than this.", "0.3 SDS Ip Wp", {}, reason::Term{"", "least", amount(found.lower)}},
        {found.force == found.computed ? "The equation governs."
         : found.force == found.lower  ? "The least governs."
                                       : "The greatest governs.",
         {},
         {},
         reason::Term{"Fp", "horizontal force", amount(found.force)}},
        {"Up or down at the same time.", "0.2 SDS Wp", {}, reason::Term{"", "vertical", amount(found.vertical)}}};
    out.sources = {reason::asce7("13.3.1.1, equations 13.3-1 to 13.3-3; 13.3.1.2", Standing::published)};
    return out;
}

ComponentFactors water_heater_factors() {
    return {1, 2.5, "boilers, furnaces, water heaters and other mechanical parts that deform before they break",
            reason::asce7("Table 13.6-1", Standing::memory)};
}

ComponentFactors pipe_factors(bool b31, bool threaded) {
    // welded or brazed bears more than threaded
    const double rp = b31 ? (threaded ? 6 : 12) : (threaded ? 4.5 : 9);
    return {2.5, rp,
            fmt::format("pipe {} ASME B31, {}", b31 ? "by" : "not by",
                        threaded ? "threaded or pressed" : "welded or brazed"),
            reason::asce7("Table 13.6-1", Standing::memory)};
}

Result<Ruled<Overturning>> overturning(const FreeStanding& s) {
    if (auto ok = above(s.weight.value(), "the weight"); !ok) return tl::unexpected(ok.error());
    if (auto ok = above(s.height.value(), "the height"); !ok) return tl::unexpected(ok.error());
    if (auto ok = above(s.base.value(), "the base"); !ok) return tl::unexpected(ok.error());
    if (s.anchors < 1) return fail("there is no anchor", "one anchor or more");
    if (s.force.value() < 0 || s.vertical.value() < 0) return fail("a force is below zero", "zero or more");
    if (auto ok = within(s.weight_share, 0, 1, "the share of the weight"); !ok) return tl::unexpected(ok.error());
    const double tips = s.force.value() * s.height.value();
    const double holds = (s.weight_share * s.weight.value() - s.vertical.value()) * s.base.value() / 2;
    Ruled<Overturning> out;
    out.value.stable = holds >= tips;
    out.value.uplift = Force::from_value(std::max(0.0, (tips - holds) / (s.base.value() * s.anchors)));
    out.derivation = {{"About the row of feet it would tip over.",
                       "T = (F h - (s W - Fv) b / 2) / (n b)",
                       {{"F", "sideways", amount(s.force)},
                        {"h", "height of the centre of gravity", amount(s.height, Kind::length)},
                        {"W", "weight", amount(s.weight)},
                        plain("s", "share of it that may be counted on", s.weight_share),
                        {"Fv", "lifted at the same time", amount(s.vertical)},
                        {"b", "between the rows of feet", amount(s.base, Kind::length)},
                        {"n", "anchors in the row that would lift", units::count(s.anchors)}},
                       reason::Term{"T", "pull on each anchor", amount(out.value.uplift)}},
                      {out.value.stable ? "Its own weight holds it." : "It tips without anchors."}};
    out.sources = {{"statics", "", "moments about an edge", Standing::computed}};
    return out;
}

}  // namespace bw::code
