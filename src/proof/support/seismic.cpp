// SPDX-License-Identifier: MIT
// What an earthquake does to banks, by the site's figures where the structural engineer gave them.
#include "code/seismic.h"
#include "proof/checks.h"
#include "proof/support/weight.h"
#include "reason/document.h"

namespace bw::proof {
namespace {

using namespace bw::units;  // NOLINT: quantity names

/// A bank filled, its centre of gravity in its own frame, and what it stands on.
struct Loaded {
    double mass = 0;
    shape::Vec centre;
    std::vector<int> feet, anchors;
    double base = 0;  ///< between its rows of feet
};

shape::Vec middle(const Piece& piece) {
    if (piece.solids.empty()) return piece.ports.empty() ? shape::Vec{} : piece.ports.front().at;
    const shape::Box box = shape::bounds(piece.solids);
    return 0.5 * (box.min + box.max);
}

Loaded loaded(const View& view, const plant::Bank& bank) {
    Loaded out;
    double low = 1e9, high = -1e9;
    const auto across = bank.place.turn({0, 1, 0});
    for (int i = 0; i < static_cast<int>(view.plant.pieces.size()); ++i) {
        const auto& piece = view.piece(i);
        if (piece.bank != bank.number) continue;
        const double mass = filled(piece);
        out.mass += mass;
        out.centre = out.centre + mass * middle(piece);
        if (piece.part == Part::anchor) out.anchors.push_back(i);
        if (piece.part != Part::foot) continue;
        out.feet.push_back(i);
        const double at = shape::dot(middle(piece), across);
        low = std::min(low, at), high = std::max(high, at);
    }
    if (out.mass > 0) out.centre = (1 / out.mass) * out.centre;
    if (!out.feet.empty()) out.base = high - low;
    return out;
}

Result<code::Ruled<code::SeismicForce>> force_on(const View& view, double mass) {
    const auto& site = view.survey.seismic;
    const auto factors = code::water_heater_factors();
    return code::seismic_force(
        {mass * gravity * newton, *site.sds, factors.ap, factors.rp, site.importance, site.height_ratio});
}

/// Each row of feet has half the anchors.
void rack(const View& view, const plant::Bank& bank, Checks& checks) {
    const auto load = loaded(view, bank);
    auto check = new_check("structure.seismic.bank-<b>", {}, {{"b", bank.number}});
    about(check, view, load.anchors);
    const auto force = force_on(view, load.mass);
    const int anchors = static_cast<int>(load.anchors.size()) / 2;
    if (!force || load.base <= 0 || anchors < 1) {
        check.sources = {by_pieces()};
        checks.push_back(holds(std::move(check), false, {},
                               force ? "The bank's feet and anchors do not stand in two rows." : force.error().what));
        return;
    }
    // 0.9 of the dead weight, ASCE 7-16 2.3.6, less what lifts
    const auto tips = code::overturning({load.mass * gravity * newton, force->value.force, load.centre.z * metre,
                                         load.base * metre, anchors, force->value.vertical, 0.9});
    if (!tips) return;
    check.derivation = force->derivation;
    check.derivation.insert(check.derivation.end(), tips->derivation.begin(), tips->derivation.end());
    check.sources = force->sources;
    check.sources.push_back(asce7("Table 13.6-1: ap 1, Rp 2.5; 2.3.6: 0.9 D"));
    check.value = amount(tips->value.uplift);
    const auto shear = force->value.force / static_cast<double>(load.anchors.size());
    step(check, "Each also bears its share sideways.", "V = Fp / n",
         {{"n", "anchors", count(static_cast<double>(load.anchors.size()))}}, Term{"V", "shear", amount(shear)});
    double least = 1e300;
    for (const int i : load.anchors) least = std::min(least, view.number(i, "load").value_or(0));
    if (least > 0) {
        check.limit = amount(least * newton);
        check.margin = 1 - tips->value.uplift.value() / least;
    }
    checks.push_back(reason::referred(
        std::move(check),
        fmt::format(
            "CAUTION: each anchor of the row that lifts is pulled by {} and pushed sideways by {}. {} A structural "
            "engineer chooses anchors by their maker's table for the floor that is there.",
            us(amount(tips->value.uplift)), us(amount(shear)),
            least > 0 ? fmt::format("The catalogue's anchor is said to hold {}.", us(amount(least * newton)))
                      : "The catalogue gives no capacity.")));
}

/// The pull of a bank on its wall, or of a rack on its feet and ties, and what drags it along.
void wall(const View& view, const plant::Bank& bank, Checks& checks) {
    const auto load = loaded(view, bank);
    auto check = new_check("structure.seismic.bank-<b>", {}, {{"b", bank.number}});
    const auto force = force_on(view, load.mass);
    if (!force) {
        check.sources = {by_pieces()};
        checks.push_back(holds(std::move(check), false, {}, force.error().what));
        return;
    }
    check.derivation = force->derivation;
    check.sources = force->sources;
    check.sources.push_back(asce7("Table 13.6-1: ap 1, Rp 2.5"));
    check.value = amount(force->value.force);
    checks.push_back(reason::referred(
        std::move(check),
        fmt::format("CAUTION: bank {} pulls on {}, or drags along it, with {} beside its weight. A structural engineer "
                    "decides for the {} and the fastenings.",
                    bank.number, bank.wall < 0 ? "the feet and ties of its rack" : "its wall",
                    us(amount(force->value.force)), bank.wall < 0 ? "building" : "wall")));
}

}  // namespace

void check_seismic(const View& view, Checks& checks) {
    if (!view.survey.seismic.sds) {
        auto check = new_check("structure.seismic", {asce7("13.3.1"), ibc("1613")});
        checks.push_back(reason::referred(
            std::move(check),
            "Site class and design accelerations were not given: a structural engineer decides on bracing."));
        return;
    }
    for (const auto& bank : view.layout.banks) {
        const bool on_feet = bank.wall < 0 && bank.rack.tied == plant::stations::Tied::feet;
        on_feet ? rack(view, bank, checks) : wall(view, bank, checks);
    }
    auto pipe = new_check("structure.seismic.pipe", {asce7("13.6"), ibc("1613")});
    checks.push_back(
        reason::referred(std::move(pipe),
                         "Which pipe is braced, and where, depends on its size and how it hangs: a structural "
                         "engineer decides."));
}

}  // namespace bw::proof
