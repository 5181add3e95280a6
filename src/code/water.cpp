// SPDX-License-Identifier: MIT
#include "code/water.h"

#include <array>

#include "code/sources.h"
#include "text/material.h"

namespace bw::code {

namespace {

constexpr Standing memory = Standing::memory;

Source tube_handbook() { return {"Copper Tube Handbook", "", "velocity in water lines", memory}; }

}  // namespace

Clause<Pressure> water_pressure_limit() {
    return {80.0 * psi, "static pressure above 80 psi in a building calls for a pressure-reducing valve",
            ipc("604.8", memory)};
}

Clause<Pressure> mixing_valve_pressure() {
    return {20.0 * psi, "tub and shower valves of the mixing kinds want 20 psi",
            ipc("Table 604.3: 20 psi at tub and shower valves of the mixing kinds", memory)};
}

Result<Clause<Velocity>> water_velocity_limit(Material material, Temperature water) {
    bool above_140 = water > fahrenheit(140) + 0.01 * kelvin_difference;
    // Above hand-warm the handbook's hot-water limit holds; cold mains never get there.
    bool hot = water > fahrenheit(100);
    switch (text::family(material)) {
        case text::Family::copper:
            if (above_140)
                return Clause<Velocity>{3.0 * foot_per_second,
                                        "copper above 140 degF: at most 2 to 3 ft/s, or it erodes; 3 ft/s is taken",
                                        tube_handbook()};
            if (hot)
                return Clause<Velocity>{5.0 * foot_per_second, "hot copper to 140 degF: at most 5 ft/s",
                                        tube_handbook()};
            return Clause<Velocity>{8.0 * foot_per_second, "cold copper: at most 8 ft/s", tube_handbook()};
        case text::Family::steel:
        case text::Family::stainless:
            return Clause<Velocity>{10.0 * foot_per_second, "steel and stainless: at most 10 ft/s, for noise and wear",
                                    practice()};
        case text::Family::cpvc: return Clause<Velocity>{8.0 * foot_per_second, "CPVC: at most 8 ft/s", practice()};
        default:
            return fail(std::string(text::name(material)) + " carries no drinking water here",
                        "copper, stainless, steel or cpvc");
    }
}

Result<Clause<Velocity>> loop_velocity_limit(Material material, Temperature water) {
    if (text::family(material) != text::Family::copper) return water_velocity_limit(material, water);
    return Clause<Velocity>{3.0 * foot_per_second,
                            "Copper with hot water always moving: 2 to 3 ft/s.",
                            {"Copper Tube Handbook", "", "velocity in water lines", Standing::memory}};
}

Clause<bool> expansion_control() {
    return {true,
            "where the supply is closed by a check, a reducer or a backflow preventer, heated water has room to "
            "expand (vessel or relief)",
            ipc("607.3", memory)};
}

Clause<bool> backflow_protection() {
    return {true, "the supply is protected against backflow by the hazard of what is connected", ipc("608.1", memory)};
}

Clause<bool> drinking_water_materials() {
    return {true, "wetted parts are listed for drinking water (NSF/ANSI 61) and lead-free (NSF/ANSI 372)",
            ipc("605.2, 605.3", memory)};
}

Clause<bool> dissimilar_metals() {
    return {true, "copper and steel meet through a dielectric fitting or brass, not directly", ipc("605.23.1", memory)};
}

Clause<Temperature> shower_temperature_limit() {
    return {fahrenheit(120), "showers: at most 120 degF at the head", ipc("412.3", memory)};
}

Clause<Temperature> public_lavatory_temperature_limit() {
    return {fahrenheit(110), "public lavatories: tempered water, at most 110 degF", ipc("419.5", memory)};
}

Clause<bool> heater_isolation() {
    return {true, "a full-open valve stands on the cold supply at each water heater", ipc("503.1, 606.1", memory)};
}

Result<Clause<Length>> insulation_thickness(Temperature fluid, Nominal size) {
    struct Band {
        double from, to;               ///< degF
        std::array<double, 5> inches;  ///< <1, 1 to <1-1/2, 1-1/2 to <4, 4 to <8, >=8 in nominal
        std::array<bool, 5> read;
    };
    static constexpr std::array<Band, 5> bands{{
        {105, 140, {1, 1, 1.5, 1.5, 1.5}, {false, false, false, false, false}},
        {140, 200, {1.5, 1.5, 2, 2, 2}, {false, false, true, false, true}},
        {200, 250, {2.5, 2.5, 2.5, 3, 3}, {false, false, false, false, false}},
        {250, 350, {3, 4, 4.5, 4.5, 4.5}, {false, false, false, false, false}},
        {350, 1000, {4.5, 5, 5, 5, 5}, {false, true, false, false, false}},
    }};
    double degrees = fluid.value() * 1.8 - 459.67;
    if (!(degrees >= 105 - 1e-9 && degrees <= 1000))
        return fail(fmt::format("{:.5g} degF is outside the insulation table", degrees), "105 to 1,000 degF");
    std::size_t column = size < Nominal{8}    ? 0
                         : size < Nominal{12} ? 1
                         : size < Nominal{32} ? 2
                         : size < Nominal{64} ? 3
                                              : 4;
    const Band* band = &bands.front();
    for (const auto& b : bands)
        if (degrees > b.from + 1e-9) band = &b;
    return Clause<Length>{band->inches.at(column) * inch,
                          fmt::format("{} in pipe at {:.4g} degF: {:g} in of insulation at least", print(size), degrees,
                                      band->inches.at(column)),
                          reason::cite(reason::Document::ashrae_90_1, "Table 6.8.3-1",
                                       band->read.at(column) ? Standing::published : memory)};
}

Clause<bool> condensate_disposal() {
    return {true,
            "condensate is trapped, neutralised before it meets copper, iron or concrete, and drained where it cannot "
            "freeze",
            ifgc("307", memory)};
}

Clause<double> condensate_acidity_limit() {
    return {5.0, "condensate leaves at pH 5 or more; local sewer rules win", practice()};
}

}  // namespace bw::code
