// SPDX-License-Identifier: MIT
#include "matter/combustion.h"
#include "units/constants.h"

#include <fmt/format.h>

#include <cmath>

namespace bw::matter {

namespace {

constexpr double oxygen_in_air = 0.21;  // the trade's combustion tables' air: 21 % oxygen, 79 % nitrogen
constexpr double mass_c = 12.011, mass_h = 1.008, mass_water = 18.015;  // kg/kmol
constexpr double gas_constant = 8.314462618;
constexpr double standard_pressure = units::atmosphere_pascal,
                 standard_temperature = (60 + 459.67) / 1.8;  // of gas volumes

/// Volumes of one volume of CxHy burnt whole.
struct Products {
    double oxygen_needed, air, co2, water, oxygen_left, nitrogen;
    [[nodiscard]] double dry() const { return co2 + oxygen_left + nitrogen; }
};

Products burn(const Fuel& gas, double excess) {
    const double needed = gas.carbon + gas.hydrogen / 4.0;
    const double air = needed / oxygen_in_air * (1 + excess);
    return {
        needed, air, static_cast<double>(gas.carbon), gas.hydrogen / 2.0, needed * excess, air * (1 - oxygen_in_air)};
}

Result<void> in_range(Ratio excess_air, Pressure absolute) {
    if (!(excess_air >= 0 && excess_air <= 5))
        return fail(fmt::format("excess air of {} is outside the method", print(percent(excess_air), System::us)),
                    "0 to 500 %");
    if (!(si_value(absolute) >= 50e3 && si_value(absolute) <= 120e3))
        return fail("an air pressure outside the method", "50 to 120 kPa absolute");
    return {};
}

double water_mass_ratio(const Fuel& gas, double water) {
    return water * mass_water / (gas.carbon * mass_c + gas.hydrogen * mass_h);
}

reason::Derivation working(const Fuel& gas, double excess, const Products& p, const Combustion& out, Pressure vapour) {
    return {{std::string(gas.burns), std::string(gas.formula), {}, {}},
            {"Dry air taken in, per volume of fuel",
             "A = O (1 + e) / 0.21",
             {{"O", "oxygen needed", number(p.oxygen_needed)}, {"e", "excess air", percent(excess)}},
             reason::Term{"A", "air", number(p.air)}},
            {"Flue gas, wet",
             "F = CO2 + H2O + O e + 0.79 A",
             {{"CO2", "carbon dioxide", number(p.co2)}, {"H2O", "water vapour", number(p.water)}},
             reason::Term{"F", "flue gas", number(out.flue_gas)}},
            {"Carbon dioxide in the dry flue gas",
             "c = CO2 / (F - H2O)",
             {},
             reason::Term{"c", "carbon dioxide, dry", percent(out.co2_dry)}},
            {"The dew point is where water's vapour pressure is its share of the air pressure",
             "p(T) = H2O / F p",
             {{"H2O / F p", "partial pressure of the vapour", amount(vapour)}},
             reason::Term{"T", "dew point", amount(out.dew_point)}}};
}

}  // namespace

Result<Combustion> combustion(Gas gas, Ratio excess_air, Pressure absolute) {
    if (auto ok = in_range(excess_air, absolute); !ok) return tl::unexpected(ok.error());
    const auto& burnt = fuel(gas);
    const auto p = burn(burnt, excess_air);
    Combustion out;
    out.air = p.air;
    out.water_vapour = p.water;
    out.flue_gas = p.dry() + p.water;
    out.co2_dry = p.co2 / p.dry();
    out.oxygen_dry = p.oxygen_left / p.dry();
    out.water_per_fuel = water_mass_ratio(burnt, p.water);
    const Pressure vapour = p.water / out.flue_gas * absolute;
    const auto dew_point = condensing_temperature(vapour);
    if (!dew_point) return tl::unexpected(dew_point.error());
    out.dew_point = *dew_point;
    out.derivation = working(burnt, excess_air, p, out, vapour);
    out.sources = {{"stoichiometry", "", "dry air of 21 % oxygen, complete combustion", reason::Standing::computed},
                   {"IAPWS R7-97", "2012", "equation 31 (saturation)", reason::Standing::computed}};
    return out;
}

Result<Ratio> condensed_share(Gas gas, Ratio excess_air, Temperature leaving, Pressure absolute) {
    if (auto ok = in_range(excess_air, absolute); !ok) return tl::unexpected(ok.error());
    const auto vapour = vapour_pressure(leaving);
    if (!vapour) return tl::unexpected(vapour.error());
    const auto p = burn(fuel(gas), excess_air);
    if (*vapour >= absolute) return 0.0;
    const double kept = p.dry() * (*vapour / (absolute - *vapour));
    return std::fmax(0.0, 1 - kept / p.water);
}

Result<Condensate> condensate(Gas gas, Power input, HeatingValue higher, Ratio excess_air, Temperature leaving,
                              Pressure absolute) {
    if (!(si_value(input) >= 0) || !(si_value(higher) > 0))
        return fail("condensate needs an input and a heating value",
                    "an input of 0 or more and a heating value above 0");
    const auto share = condensed_share(gas, excess_air, leaving, absolute);
    if (!share) return tl::unexpected(share.error());
    const double fuel_moles =
        si_value(gas_flow(input, higher)) * standard_pressure / (gas_constant * standard_temperature);
    const double made = burn(fuel(gas), excess_air).water;
    Condensate out;
    out.share = *share;
    out.mass = MassFlow::from_value(fuel_moles * made * mass_water * 1e-3 * *share);
    out.flow = out.mass / (1000.0 * kilogram_per_cubic_metre);
    out.derivation = {
        {"Water made by burning, from the gas volume at 60 degF and one atmosphere",
         "w = Q / H p / (R T) n M",
         {{"Q", "heat input", amount(input)},
          {"H", "heating value", amount(higher, Kind::heating_value)},
          {"n", "volumes of vapour per volume of fuel", number(made)}},
         reason::Term{"w", "water made", amount(MassFlow::from_value(fuel_moles * made * mass_water * 1e-3))}},
        {"Share that condenses if flue gas leaves saturated at the water's temperature; the most there can be",
         "s = 1 - D / n p_v / (p - p_v)",
         {{"T", "leaving temperature", amount(leaving)},
          {"p_v", "vapour pressure there", amount(*vapour_pressure(leaving))},
          {"p", "air pressure, absolute", amount(absolute)},
          {"D", "dry flue gas per volume of fuel", number(burn(fuel(gas), excess_air).dry())}},
         reason::Term{"s", "share condensed", percent(*share)}},
        {"Condensate", "m = w s", {}, reason::Term{"m", "condensate", amount(out.flow, Kind::hourly_flow)}}};
    out.sources = {{"stoichiometry", "", "dry air of 21 % oxygen, complete combustion", reason::Standing::computed},
                   {"IAPWS R7-97", "2012", "equation 30 (saturation)", reason::Standing::computed}};
    return out;
}

}  // namespace bw::matter
