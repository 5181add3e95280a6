// SPDX-License-Identifier: MIT
#include "serve/remedies.h"

#include <fmt/format.h>

#include <cmath>

#include "reason/register/register.h"
#include "survey/words.h"

namespace bw::serve {
namespace {

using jobs::Edit;
using jobs::Json;
using jobs::Path;
using reason::Check;
using survey::Survey;
using Remedies = std::vector<Remedy>;

Edit set(Path path, Json value) { return {std::move(path), Edit::What::set, std::move(value)}; }
Edit take_out(Path path) { return {std::move(path), Edit::What::remove, {}}; }

double rounded_up(double value, double step) { return std::ceil(value / step - 1e-9) * step; }

void gas_at_more_pressure(Remedies& out, const Survey& s) {
    if (*s.gas.delivery_pressure >= 1.9 * units::psi) return;
    Remedy remedy{"Ask the gas supplier for 2 psi, with a regulator before the heaters",
                  {set({"gas", "delivery-pressure"}, "2 psi")}};
    if (!s.gas.allowed_drop.assumed) remedy.edits.push_back(set({"gas", "allowed-drop"}, "1 psi"));
    out.push_back(std::move(remedy));
}

void gas_pipe(const Check&, const Survey& s, Remedies& out) {
    if (*s.gas.delivery_pressure < 1.9 * units::psi && *s.gas.allowed_drop < 0.49 * units::inch_water)
        out.push_back({"Allow a drop of 0.5 inches of water column, as usual at this pressure",
                       {set({"gas", "allowed-drop"}, "0.5 inH2O")}});
    gas_at_more_pressure(out, s);
    if (!*s.preferences.engineered_gas)
        out.push_back({"Size gas pipe by the pressure solved at every heater, where an engineered design is accepted",
                       {set({"preferences", "gas-by-engineering"}, true)}});
    if (*s.preferences.gas_pipe != text::Material::steel_40)
        out.push_back({"Gas pipe of steel, schedule 40", {set({"preferences", "gas-pipe"}, "steel-40")}});
}

void gas_meter(const Check& check, const Survey&, Remedies& out) {
    if (!check.value) return;
    const double flow = rounded_up(units::spell(*check.value, units::System::us).value, 100);
    out.push_back({fmt::format("Have the gas supplier set a meter and service for {:.0f} ft3/h", flow),
                   {set({"gas", "meter"}, fmt::format("{:.0f} ft3/h", flow))}});
}

void water_pressure(const Check& check, const Survey& s, Remedies& out) {
    if (!check.value || !check.limit || check.sense != reason::Sense::at_least) return;
    const double psi = *s.supply.pressure / units::psi + (check.limit->si - check.value->si) / units::psi.value();
    const double wanted = rounded_up(psi * 1.02, 5);
    if (wanted <= 80)  // beyond, a reducer would take it away again
        out.push_back({fmt::format("A booster or a larger water service that gives {:.0f} psi", wanted),
                       {set({"supply", "pressure"}, fmt::format("{:.0f} psi", wanted))}});
    if (*s.preferences.spare == survey::SparePolicy::none)
        out.push_back(
            {"One heater more, so that each passes less and loses less", {set({"preferences", "spare"}, "one")}});
}

void hardness(const Check& check, const Survey&, Remedies& out) {
    if (!check.limit) return;
    const double soft = std::min(60.0, std::floor(check.limit->si));
    out.push_back({fmt::format("A softener before the heaters, set for {:.0f} mg/L", soft),
                   {set({"supply", "hardness"}, fmt::format("{:.0f} mg/L", soft))}});
}

void loop_loss(const Check& check, const Survey&, Remedies& out) {
    if (!check.value) return;
    const double loss = rounded_up(units::spell(*check.value, units::System::us).value, 1);
    out.push_back({fmt::format("Let the heaters allow {:.0f} kBtu/h for the loop", loss),
                   {set({"recirculation", "loss"}, fmt::format("{:.0f} kBtu/h", loss))}});
}

void loop_flow(const Check&, const Survey& s, Remedies& out) {
    if (!s.recirculation.flow.assumed)
        out.push_back({"Let the loop's flow follow from its loss and drop", {take_out({"recirculation", "flow"})}});
    if (*s.recirculation.drop < 9.9 * units::degF_difference)
        out.push_back(
            {"Let the loop cool by 10 degF, so that less must flow", {set({"recirculation", "drop"}, "10 degF")}});
}

void firm(const Check&, const Survey& s, Remedies& out) {
    if (*s.preferences.spare == survey::SparePolicy::none)
        out.push_back({"One heater more than needed, so that one may be down", {set({"preferences", "spare"}, "one")}});
}

void vent_pipe(const Check&, const Survey& s, Remedies& out) {
    if (*s.preferences.vent_pipe != text::Material::vent_polypropylene)
        out.push_back({"Vent pipe of polypropylene, which stands hotter exhaust",
                       {set({"preferences", "vent-pipe"}, "vent-polypropylene")}});
    if (*s.preferences.vent == survey::VentPreference::common)
        out.push_back({"A vent of its own for every heater", {set({"preferences", "vent"}, "single")}});
}

void piped_air(const Check&, const Survey& s, Remedies& out) {
    if (*s.preferences.room_air)
        out.push_back({"Pipe outdoor air to the heaters", {set({"preferences", "room-air"}, false)}});
}

void sturdier_pipe(const Check&, const Survey& s, Remedies& out) {
    if (*s.preferences.water_pipe != text::Material::stainless_10s)
        out.push_back({"Water pipe of stainless steel, which hot water does not erode",
                       {set({"preferences", "water-pipe"}, "stainless-10s")}});
}

/// What binds the plant to a place where it cannot stand well.
void freer_place(const Check&, const Survey& s, Remedies& out) {
    if (*s.preferences.arrangement != survey::ArrangementPreference::any)
        out.push_back({"Any arrangement: on a wall, or on a rack", {set({"preferences", "arrangement"}, "any")}});
    if (s.preferences.heater) out.push_back({"Any heater of the catalogue", {take_out({"preferences", "heater"})}});
    if (*s.preferences.vent != survey::VentPreference::any)
        out.push_back({"Single or common vents, whichever fit", {set({"preferences", "vent"}, "any")}});
}

void fewer_heaters(const Check& check, const Survey& s, Remedies& out) {
    freer_place(check, s, out);
    if (*s.preferences.spare != survey::SparePolicy::none)
        out.push_back({"No spare heater", {set({"preferences", "spare"}, "none")}});
}

using Mend = void (*)(const Check&, const Survey&, Remedies&);

Mend mend_of(reason::Remedy remedy) {
    switch (remedy) {
        case reason::Remedy::none: return nullptr;
        case reason::Remedy::gas_pipe: return gas_pipe;
        case reason::Remedy::gas_meter: return gas_meter;
        case reason::Remedy::water_pressure: return water_pressure;
        case reason::Remedy::hardness: return hardness;
        case reason::Remedy::sturdier_pipe: return sturdier_pipe;
        case reason::Remedy::loop_loss: return loop_loss;
        case reason::Remedy::loop_flow: return loop_flow;
        case reason::Remedy::spare_heater: return firm;
        case reason::Remedy::vent_pipe: return vent_pipe;
        case reason::Remedy::piped_air: return piped_air;
        case reason::Remedy::freer_place: return freer_place;
        case reason::Remedy::fewer_heaters: return fewer_heaters;
    }
    return nullptr;
}

}  // namespace

std::vector<Remedy> remedies(const Check& check, const Survey& survey) {
    Remedies out;
    if (check.status != reason::Status::fail && check.status != reason::Status::tight) return out;
    const auto place = reason::place_of(check.id);
    if (const auto mend = place ? mend_of(place->row->remedy) : nullptr) mend(check, survey, out);
    return out;
}

}  // namespace bw::serve
