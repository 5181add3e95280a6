// SPDX-License-Identifier: MIT
#include "code/gas_rules.h"

#include <algorithm>
#include <cmath>

#include "code/sources.h"

namespace bw::code {

namespace {

constexpr double test_factor = 1.5;
constexpr double test_least_psi = 3, hoop_psi = 125, gauge_factor = 5;
constexpr double hours_per_step = 0.5, step_cubic_feet = 500, longest_hours = 24;
constexpr Standing read = Standing::published;
constexpr Standing memory = Standing::memory;

}  // namespace

Clause<Pressure> gas_indoor_pressure_limit() {
    return {5.0 * psi, "gas pressure in pipe inside a building is at most 5 psi gauge", ifgc("402.6", memory)};
}

RegulatorRules gas_regulator_rules(Pressure delivery, Pressure appliance_greatest) {
    RegulatorRules out;
    out.needed = delivery > appliance_greatest;
    out.overprotection = out.needed && delivery > 2.0 * psi;
    out.shutoff_upstream = {true, "a shut-off valve stands ahead of each line regulator", ifgc("410.2", memory)};
    out.accessible = {true, "regulators can be reached for service", ifgc("410.1", memory)};
    out.vent_outdoors_or_limiter = {true, "a regulator's vent is piped outdoors, or it has a listed vent limiter",
                                    ifgc("410.3", memory)};
    out.test_ports = {true, "a tapping for a gauge stands on each side of a line regulator (downstream by the code)",
                      ifgc("410.2", memory)};
    out.derivation.push_back(
        {out.needed ? "Delivery pressure is above what the heater takes: a line regulator is needed"
                    : "Delivery pressure is within what the heater takes: no line regulator",
         "p > pmax",
         {{"p", "delivery pressure", amount(delivery, Kind::gas_pressure)},
          {"pmax", "heater's greatest inlet pressure", amount(appliance_greatest, Kind::gas_pressure)}},
         {}});
    if (out.overprotection)
        out.derivation.push_back(
            {"Above 2 psi a second device must hold the appliance's pressure to 2 psi if the "
             "regulator fails"});
    out.sources = {ifgc("410.2", memory), ifgc("410.3", memory), nfpa54("5.9 (overpressure protection)", memory)};
    return out;
}

std::optional<Clause<Length>> gas_purge_length(Nominal size) {
    auto source = ifgc("Table 406.7.1.1", read);
    if (size < Nominal{20}) return std::nullopt;
    if (size < Nominal{24})
        return Clause<Length>{50.0 * foot, "2-1/2 in and less than 3 in: longer than 50 ft", source};
    if (size < Nominal{32}) return Clause<Length>{30.0 * foot, "3 in and less than 4 in: longer than 30 ft", source};
    if (size < Nominal{48}) return Clause<Length>{15.0 * foot, "4 in and less than 6 in: longer than 15 ft", source};
    if (size < Nominal{64})
        return Clause<Length>{10.0 * foot, "6 in and less than 8 in: longer than 10 ft",
                              ifgc("Table 406.7.1.1", memory)};
    return Clause<Length>{0.0 * foot, "8 in and larger: any length", source};
}

Result<Ruled<GasTest>> gas_test(Pressure working, Volume volume, const std::vector<PurgeRun>& runs) {
    if (!(working.value() > 0))
        return fail("working pressure of the gas test is " + print(amount(working, Kind::gas_pressure), System::us),
                    "a gauge pressure above zero");
    if (!(volume.value() > 0))
        return fail("volume of the gas piping is " + print(amount(volume, Kind::room_volume), System::us),
                    "a volume above zero");
    Ruled<GasTest> out;
    auto& test = out.value;
    test.pressure = std::max(test_least_psi * psi, test_factor * working);
    test.gauge_range = gauge_factor * test.pressure;
    test.hoop_stress_limit = test.pressure > hoop_psi * psi;
    double steps = std::ceil(volume / (step_cubic_feet * cubic_foot) * (1 - 1e-12));
    test.duration = std::min(longest_hours, hours_per_step * steps) * hour;
    out.derivation.push_back({"Test pressure",
                              "pt = max(3 psi, 1.5 pw)",
                              {{"pw", "greatest working pressure, gauge", amount(working, Kind::pressure)}},
                              reason::Term{"pt", "test pressure, gauge", amount(test.pressure, Kind::pressure)}});
    out.derivation.push_back({"Duration: half an hour for each 500 ft3 or part of it, at most 24 h",
                              "t = min(24 h, 0.5 h ceil(V / 500 ft3))",
                              {{"V", "pipe volume", amount(volume, Kind::room_volume)}},
                              reason::Term{"t", "duration", amount(test.duration)}});
    for (const auto& run : runs) {
        auto beyond = gas_purge_length(run.size);
        if (!beyond || run.length <= beyond->value) continue;
        test.purge_outdoors = true;
        out.derivation.push_back(
            {"Purge with inert gas and discharge outdoors: " + beyond->says,
             "",
             {{"L", "length of " + print(run.size) + " in pipe", amount(run.length, Kind::long_length)}},
             {}});
    }
    if (!test.purge_outdoors && !runs.empty())
        out.derivation.push_back(
            {"No run reaches the length that calls for purging outdoors after inert gas; purge by "
             "406.7.2 with the gas concentration watched"});
    out.sources = {ifgc("406.4.1", read), ifgc("406.4.2", memory), ifgc("406.4 (gauge range)", read),
                   ifgc("406.7.1, Table 406.7.1.1", read)};
    return out;
}

Clause<bool> gas_sediment_trap() {
    return {true,
            "a sediment trap stands downstream of the appliance shut-off, as near the inlet as practical: a tee whose "
            "bottom opening holds a capped nipple",
            ifgc("408.4", read)};
}

Clause<bool> gas_appliance_shutoff() {
    return {true, "each appliance has its own listed shut-off valve in the same room, ahead of its union or connector",
            ifgc("409.5", memory)};
}

Clause<Length> gas_shutoff_distance() {
    return {6.0 * foot, "the appliance shut-off stands within 6 ft of the appliance", ifgc("409.5.1", memory)};
}

Clause<bool> gas_union() {
    return {true, "a union or other means to take the appliance off stands downstream of its shut-off valve",
            ifgc("409.5", memory)};
}

Clause<bool> gas_bonding() {
    return {true, "metal gas piping that may become live is electrically continuous and bonded to an earth-return path",
            ifgc("310.1", memory)};
}

Clause<bool> gas_connector() {
    return {true, "flexible connectors are listed, in the appliance's room, and pass through no wall or floor",
            ifgc("411.1.3.3", memory)};
}

Clause<Length> gas_connector_length() {
    return {3.0 * foot, "an appliance connector is at most 3 ft long (6 ft for ranges and dryers)",
            ifgc("411.1.3.1", memory)};
}

Clause<Length> gas_support_spacing(Nominal size) {
    auto source = ifgc("Table 415.1", read);
    if (size < Nominal{6}) return {6.0 * foot, "steel gas pipe of 1/2 in is held every 6 ft", source};
    if (size < Nominal{10}) return {8.0 * foot, "steel gas pipe of 3/4 or 1 in is held every 8 ft", source};
    return {10.0 * foot, "horizontal steel gas pipe of 1-1/4 in and larger is held every 10 ft", source};
}

Clause<Length> gas_tubing_support_spacing(Nominal size) {
    auto source = ifgc("Table 415.1", memory);
    // The table goes by outside diameter, an eighth over the nominal size of copper tube.
    if (size < Nominal{4}) return {4.0 * foot, "smooth tubing of 1/2 in outside is held every 4 ft", source};
    if (size < Nominal{6}) return {6.0 * foot, "smooth tubing of 5/8 or 3/4 in outside is held every 6 ft", source};
    return {8.0 * foot, "horizontal smooth tubing of 7/8 in outside and larger is held every 8 ft", source};
}

}  // namespace bw::code
