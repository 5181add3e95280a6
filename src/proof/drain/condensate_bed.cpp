// SPDX-License-Identifier: MIT
// A neutraliser's medium: how long it lasts and what it makes of the condensate. Estimates on the side of a short life.
#include <algorithm>
#include <cmath>

#include "code/water.h"
#include "matter/air.h"
#include "matter/combustion.h"
#include "matter/neutralise.h"
#include "matter/water.h"
#include "proof/checks.h"

namespace bw::proof {
namespace {

using namespace bw::units;  // NOLINT: quantity names

constexpr double refill_at = 0.5;  // share of the medium gone (common practice, no source)
constexpr double marble = 2710;    // kg/m3

/// Hours a year's day keeps the plant at full fire, by its hot water and the loop.
double full_hours_a_day(const View& view) {
    const auto mean = Temperature::from_value((si_value(view.demand.cold) + si_value(view.demand.hot)) / 2);
    const auto water = matter::water(mean);
    if (!water) return 0;
    const double drawn = view.demand.day.total.value() * water->density.value() * water->heat_capacity.value() *
                         (si_value(view.demand.hot) - si_value(view.demand.cold));
    const double day = drawn + view.demand.recirculation_loss.value() * 86400;
    const double fire = view.capacity.each.input.value() * view.capacity.each.efficiency * view.heaters();
    return day / fire / 3600;
}

struct Life {
    Mass mass{};
    VolumeFlow flow{};
    Time hours{};       ///< at full fire, until it is refilled
    double a_day = 0;   ///< hours at full fire in a day
    double months = 0;  ///< nothing where the day is not known
    Time contact{};
};

Life life_of(const View& view, Mass mass, VolumeFlow flow, const matter::Neutralised& bed) {
    Life life{mass, flow, Time::from_value(refill_at * mass.value() / (flow.value() * bed.dissolved)), {}, {}, {}};
    life.a_day = full_hours_a_day(view);
    if (life.a_day > 0) life.months = life.hours.value() / 3600 / life.a_day / (365.25 / 12);
    // as loose as chips lie, half of a bed is void: as much water stands in it as its marble fills
    life.contact = Time::from_value(mass.value() / marble / flow.value());
    return life;
}

void told(Check& check, const Life& life, const matter::Neutralised& bed) {
    check.sources.insert(check.sources.end(), bed.sources.begin(), bed.sources.end());
    check.derivation = bed.derivation;
    step(check,
         "Hours at full fire until half the medium is gone, when it is refilled (common practice), the condensate as "
         "cold as the water and as much marble dissolved as can be.",
         "t = m / 2 / (V c)",
         {{"m", "medium when full", amount(life.mass)},
          {"V", "condensate at full fire", amount(life.flow, Kind::hourly_flow)},
          {"c", "marble dissolved, kg/m3 (g/L)", number(bed.dissolved)},
          {"ca", "of that by the acid alone", number(bed.least)}},
         Term{"t", "at full fire", amount(life.hours)});
    step(check, "Hours of full fire in a day by its hot water and the loop.", {},
         {{"ta", "hours a day", number(life.a_day)}}, Term{"n", "months to refill", number(life.months)});
    step(check, "Time the water stands among the chips at full fire, half of the bed void (common practice).", {}, {},
         Term{"tc", "contact", amount(life.contact)});
}

std::string said(const View& view, const Life& life, const matter::Neutralised& bed) {
    const double whole = std::floor(life.months);
    return fmt::format(
        "Estimate: pH {:.1f} comes in, up to {:.1f} leaves; {:.0f} lb of marble are half gone after some {:.0f} hours "
        "at full fire{}. Whoever services the plant measures the pH {} and refills below {:.0f}; the sewer authority "
        "may ask for more.",
        view.heater.condensate_acidity, bed.acidity, life.mass / pound, life.hours.value() / 3600,
        whole >= 1 ? fmt::format(", {:.0f} months of days like the one reckoned with", whole) : "",
        life.months > 0 && life.months < 12 ? fmt::format("and the medium every {:.0f} months", std::max(1.0, whole))
                                            : "yearly",
        code::condensate_acidity_limit().value);
}

}  // namespace

void check_condensate_bed(const View& view, int piece, VolumeFlow flow, Checks& checks) {
    const auto& id = view.piece(piece).id;
    auto check = new_check("condensate.bed.<piece>", {code::condensate_acidity_limit().source},
                           {{"piece", id, view.name(piece)}});
    about(check, view, {piece});
    const Mass mass = view.number(piece, "medium-mass").value_or(0) * kilogram;
    const auto air = matter::atmosphere(*view.survey.altitude);
    const auto burnt = matter::combustion(*view.survey.gas.kind, view.heater.excess_air);
    if (!(mass.value() > 0) || !(flow.value() > 0) || !air || !burnt) {
        checks.push_back(holds(std::move(check), false, {},
                               view.name(piece) + " names no mass of medium, or its condensate is not found."));
        return;
    }
    const auto bed = matter::neutralise_by_marble(view.heater.condensate_acidity, burnt->co2_dry * *air);
    if (!bed) {
        checks.push_back(
            holds(std::move(check), false, {}, fmt::format("{}: {}.", view.name(piece), describe(bed.error()))));
        return;
    }
    const auto life = life_of(view, mass, flow, *bed);
    told(check, life, *bed);
    check.value = amount(life.hours);
    checks.push_back(reason::referred(std::move(check), said(view, life, *bed)));
}

}  // namespace bw::proof
