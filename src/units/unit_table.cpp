// SPDX-License-Identifier: MIT
#include "units/unit_table.h"

#include "units/constants.h"
#include "units/quantity.h"

namespace bw::units {

namespace {

constexpr double inch_si = 0.0254, foot_si = 0.3048, pound_si = 0.45359237, gravity = standard_gravity;
constexpr double gallon_si = 231 * inch_si * inch_si * inch_si, foot3 = foot_si * foot_si * foot_si;
constexpr double btu_si = 1055.05585262;
constexpr double psi_si = pound_si * gravity / (inch_si * inch_si), water_inch = 249.08891;
constexpr double rankine = 1 / 1.8;
constexpr double grain_per_gallon = 17.11806;  // mg/L: 64.79891 mg in 231 cubic inches

constexpr UnitRead ratios[] = {{"1", 1}};
constexpr UnitRead percents[] = {{"%", 0.01}, {"percent", 0.01, 0, true}, {"pct", 0.01, 0, true}};
constexpr UnitRead lengths[] = {{"in", inch_si, 0, true},
                                {"inch", inch_si, 0, true},
                                {"inches", inch_si, 0, true},
                                {"\"", inch_si},
                                {"ft", foot_si, 0, true},
                                {"foot", foot_si, 0, true},
                                {"feet", foot_si, 0, true},
                                {"'", foot_si},
                                {"yd", 3 * foot_si, 0, true},
                                {"mm", 1e-3},
                                {"cm", 1e-2},
                                {"m", 1},
                                {"km", 1e3}};
constexpr UnitRead areas[] = {{"in2", inch_si* inch_si, 0, true},
                              {"sqin", inch_si* inch_si, 0, true},
                              {"ft2", foot_si* foot_si, 0, true},
                              {"sqft", foot_si* foot_si, 0, true},
                              {"mm2", 1e-6},
                              {"cm2", 1e-4},
                              {"m2", 1}};
constexpr UnitRead volumes[] = {{"gal", gallon_si, 0, true},
                                {"gallons", gallon_si, 0, true},
                                {"qt", gallon_si / 4, 0, true},
                                {"ft3", foot3, 0, true},
                                {"cuft", foot3, 0, true},
                                {"in3", inch_si* inch_si* inch_si, 0, true},
                                {"L", 1e-3},
                                {"l", 1e-3},
                                {"mL", 1e-6},
                                {"ml", 1e-6},
                                {"m3", 1}};
constexpr UnitRead masses[] = {{"lb", pound_si, 0, true},
                               {"lbs", pound_si, 0, true},
                               {"oz", pound_si / 16, 0, true},
                               {"kg", 1},
                               {"g", 1e-3},
                               {"t", 1e3}};
constexpr UnitRead masses_per_length[] = {
    {"lb/ft", pound_si / foot_si, 0, true}, {"plf", pound_si / foot_si, 0, true}, {"kg/m", 1}, {"g/m", 1e-3}};
constexpr UnitRead flows[] = {{"gpm", gallon_si / 60, 0, true},
                              {"gal/min", gallon_si / 60, 0, true},
                              {"gph", gallon_si / 3600, 0, true},
                              {"gal/h", gallon_si / 3600, 0, true},
                              {"gal/hr", gallon_si / 3600, 0, true},
                              {"gpd", gallon_si / 86400, 0, true},
                              {"gal/d", gallon_si / 86400, 0, true},
                              {"cfm", foot3 / 60, 0, true},
                              {"ft3/min", foot3 / 60, 0, true},
                              {"cfh", foot3 / 3600, 0, true},
                              {"ft3/h", foot3 / 3600, 0, true},
                              {"ft3/hr", foot3 / 3600, 0, true},
                              {"L/s", 1e-3},
                              {"l/s", 1e-3},
                              {"L/min", 1e-3 / 60},
                              {"l/min", 1e-3 / 60},
                              {"L/h", 1e-3 / 3600},
                              {"l/h", 1e-3 / 3600},
                              {"m3/h", 1.0 / 3600},
                              {"m3/s", 1}};
constexpr UnitRead mass_flows[] = {{"lb/h", pound_si / 3600, 0, true},
                                   {"lb/hr", pound_si / 3600, 0, true},
                                   {"lb/min", pound_si / 60, 0, true},
                                   {"lb/s", pound_si, 0, true},
                                   {"kg/h", 1.0 / 3600},
                                   {"kg/s", 1},
                                   {"g/s", 1e-3}};
constexpr UnitRead pressures[] = {{"psi", psi_si, 0, true},
                                  {"psig", psi_si, 0, true},
                                  {"inH2O", water_inch, 0, true},
                                  {"inwc", water_inch, 0, true},
                                  {"inWG", water_inch, 0, true},
                                  {"ftH2O", 12 * water_inch, 0, true},
                                  {"osi", psi_si / 16, 0, true},
                                  {"Pa", 1},
                                  {"kPa", 1e3},
                                  {"MPa", 1e6},
                                  {"mbar", 100},
                                  {"bar", 1e5}};
constexpr UnitRead temperatures[] = {
    {"degF", rankine, 459.67, true}, {"F", rankine, 459.67, true}, {"degC", 1, 273.15}, {"C", 1, 273.15}, {"K", 1}};
constexpr UnitRead temperature_differences[] = {
    {"degF", rankine, 0, true}, {"F", rankine, 0, true}, {"R", rankine}, {"K", 1}, {"degC", 1}, {"C", 1}};
constexpr UnitRead powers[] = {{"Btu/h", btu_si / 3600, 0, true},
                               {"Btu/hr", btu_si / 3600, 0, true},
                               {"Btuh", btu_si / 3600, 0, true},
                               {"kBtu/h", btu_si / 3.6, 0, true},
                               {"kBtu/hr", btu_si / 3.6, 0, true},
                               {"MBH", btu_si / 3.6, 0, true},
                               {"MMBtu/h", btu_si / 3.6e-3, 0, true},
                               {"W", 1},
                               {"kW", 1e3},
                               {"MW", 1e6}};
constexpr UnitRead electric_powers[] = {{"W", 1}, {"kW", 1e3}, {"hp", 745.69987158227022, 0, true}};
constexpr UnitRead energies[] = {{"Btu", btu_si, 0, true},
                                 {"kBtu", 1e3 * btu_si, 0, true},
                                 {"MMBtu", 1e6 * btu_si, 0, true},
                                 {"therm", 1e5 * btu_si, 0, true},
                                 {"J", 1},
                                 {"kJ", 1e3},
                                 {"MJ", 1e6},
                                 {"kWh", 3.6e6}};
constexpr UnitRead heating_values[] = {{"Btu/ft3", btu_si / foot3, 0, true},
                                       {"Btu/cf", btu_si / foot3, 0, true},
                                       {"Btu/scf", btu_si / foot3, 0, true},
                                       {"kBtu/ft3", 1e3 * btu_si / foot3, 0, true},
                                       {"kJ/m3", 1e3},
                                       {"MJ/m3", 1e6},
                                       {"kWh/m3", 3.6e6}};
constexpr UnitRead velocities[] = {{"ft/s", foot_si, 0, true},
                                   {"fps", foot_si, 0, true},
                                   {"ft/min", foot_si / 60, 0, true},
                                   {"fpm", foot_si / 60, 0, true},
                                   {"mph", 5280 * foot_si / 3600, 0, true},
                                   {"m/s", 1}};
constexpr UnitRead densities[] = {{"lb/ft3", pound_si / foot3, 0, true},
                                  {"lb/gal", pound_si / gallon_si, 0, true},
                                  {"kg/m3", 1},
                                  {"g/cm3", 1e3},
                                  {"kg/L", 1e3}};
constexpr UnitRead viscosities[] = {{"lb/(fts)", pound_si / foot_si, 0, true},
                                    {"lb/ft/s", pound_si / foot_si, 0, true},
                                    {"cP", 1e-3},
                                    {"mPas", 1e-3},
                                    {"Pas", 1}};
constexpr UnitRead specific_heats[] = {{"Btu/(lbdegF)", btu_si / pound_si * 1.8, 0, true},
                                       {"Btu/(lbF)", btu_si / pound_si * 1.8, 0, true},
                                       {"kJ/(kgK)", 1e3},
                                       {"J/(kgK)", 1}};
constexpr UnitRead currents[] = {{"A", 1}, {"mA", 1e-3}};
constexpr UnitRead voltages[] = {{"V", 1}, {"kV", 1e3}};
constexpr UnitRead times[] = {{"h", 3600, 0, true},     {"hr", 3600, 0, true},   {"hour", 3600, 0, true},
                              {"hours", 3600, 0, true}, {"min", 60, 0, true},    {"minutes", 60, 0, true},
                              {"s", 1, 0, true},        {"sec", 1, 0, true},     {"d", 86400, 0, true},
                              {"day", 86400, 0, true},  {"days", 86400, 0, true}};
constexpr UnitRead forces[] = {{"lbf", pound_si* gravity, 0, true},
                               {"lb", pound_si* gravity, 0, true},
                               {"kip", 1e3 * pound_si* gravity, 0, true},
                               {"N", 1},
                               {"kN", 1e3}};
constexpr UnitRead angles[] = {{"deg", pi / 180, 0, true}, {"rad", 1}};
constexpr UnitRead moneys[] = {{"USD", 1, 0, true}};
constexpr UnitRead acidities[] = {{"pH", 1, 0, true}};
constexpr UnitRead hardnesses[] = {{"mg/L", 1},
                                   {"mg/l", 1},
                                   {"ppm", 1, 0, true},
                                   {"gr/gal", grain_per_gallon, 0, true},
                                   {"gpg", grain_per_gallon, 0, true}};

constexpr std::string_view length_choices = "in, ft, mm, cm or m";
constexpr std::string_view area_choices = "in2, ft2, mm2, cm2 or m2";
constexpr std::string_view volume_choices = "gal, ft3, L or m3";
constexpr std::string_view flow_choices = "gpm, gal/h, cfm, ft3/h, L/s, L/min, L/h or m3/h";
constexpr std::string_view pressure_choices = "psi, inH2O, ftH2O, Pa, kPa, mbar or bar (gauge)";

constexpr UnitPrinted one{"1", 1, 0, 0};

constexpr KindTable tables[] = {
    {"a number", ratios, {"1", 1, 0, 0}, {"1", 1, 0, 0}, true, "no unit"},
    {"a count", ratios, one, one, true, "a whole number"},
    {"a share", percents, {"%", 0.01, 0, 1}, {"%", 0.01, 0, 1}, false, "%"},
    {"a length", lengths, {"in", inch_si, 0, 2}, {"mm", 1e-3, 0, 0}, false, length_choices},
    {"a length", lengths, {"ft", foot_si, 0, 1}, {"m", 1, 0, 2}, false, length_choices},
    {"a length", lengths, {"in", inch_si, 0, 3}, {"mm", 1e-3, 0, 1}, false, length_choices},
    {"an area", areas, {"in2", inch_si* inch_si, 0, 1}, {"mm2", 1e-6, 0, 0}, false, area_choices},
    {"an area", areas, {"ft2", foot_si* foot_si, 0, 1}, {"m2", 1, 0, 2}, false, area_choices},
    {"a volume", volumes, {"gal", gallon_si, 0, 1}, {"L", 1e-3, 0, 1}, false, volume_choices},
    {"a volume", volumes, {"ft3", foot3, 0, 1}, {"m3", 1, 0, 2}, false, volume_choices},
    {"a mass", masses, {"lb", pound_si, 0, 1}, {"kg", 1, 0, 1}, false, "lb, oz, kg or g"},
    {"a mass per length",
     masses_per_length,
     {"lb/ft", pound_si / foot_si, 0, 2},
     {"kg/m", 1, 0, 2},
     false,
     "lb/ft or kg/m"},
    {"a water flow", flows, {"gpm", gallon_si / 60, 0, 1}, {"L/s", 1e-3, 0, 2}, false, flow_choices},
    {"an hourly flow", flows, {"gal/h", gallon_si / 3600, 0, 0}, {"L/h", 1e-3 / 3600, 0, 0}, false, flow_choices},
    {"a gas flow", flows, {"ft3/h", foot3 / 3600, 0, 1}, {"m3/h", 1.0 / 3600, 0, 2}, false, flow_choices},
    {"an air flow", flows, {"cfm", foot3 / 60, 0, 1}, {"m3/h", 1.0 / 3600, 0, 1}, false, flow_choices},
    {"a mass flow",
     mass_flows,
     {"lb/h", pound_si / 3600, 0, 1},
     {"kg/h", 1.0 / 3600, 0, 1},
     false,
     "lb/h, lb/min, kg/h or kg/s"},
    {"a pressure", pressures, {"psi", psi_si, 0, 2}, {"kPa", 1e3, 0, 1}, false, pressure_choices},
    {"a gas pressure", pressures, {"inH2O", water_inch, 0, 2}, {"Pa", 1, 0, 0}, false, pressure_choices},
    {"a temperature", temperatures, {"degF", rankine, 459.67, 1}, {"degC", 1, 273.15, 1}, false, "degF, degC or K"},
    {"a temperature difference",
     temperature_differences,
     {"degF", rankine, 0, 1},
     {"K", 1, 0, 1},
     false,
     "degF, degC or K"},
    {"a heat rate", powers, {"kBtu/h", btu_si / 3.6, 0, 1}, {"kW", 1e3, 0, 1}, false, "Btu/h, kBtu/h, MBH, W or kW"},
    {"an electric power", electric_powers, {"W", 1, 0, 0}, {"W", 1, 0, 0}, false, "W, kW or hp"},
    {"an energy", energies, {"Btu", btu_si, 0, 0}, {"kJ", 1e3, 0, 0}, false, "Btu, kBtu, therm, kJ, MJ or kWh"},
    {"a heating value",
     heating_values,
     {"Btu/ft3", btu_si / foot3, 0, 0},
     {"MJ/m3", 1e6, 0, 2},
     false,
     "Btu/ft3, kJ/m3 or MJ/m3"},
    {"a velocity", velocities, {"ft/s", foot_si, 0, 2}, {"m/s", 1, 0, 2}, false, "ft/s, ft/min or m/s"},
    {"a density", densities, {"lb/ft3", pound_si / foot3, 0, 2}, {"kg/m3", 1, 0, 1}, false, "lb/ft3, lb/gal or kg/m3"},
    {"a viscosity",
     viscosities,
     {"lb/(ft*s)", pound_si / foot_si, 0, 4},
     {"mPa*s", 1e-3, 0, 3},
     false,
     "lb/(ft*s), cP, mPa*s or Pa*s"},
    {"a specific heat",
     specific_heats,
     {"Btu/(lb*degF)", btu_si / pound_si * 1.8, 0, 3},
     {"kJ/(kg*K)", 1e3, 0, 3},
     false,
     "Btu/(lb*degF), kJ/(kg*K) or J/(kg*K)"},
    {"a current", currents, {"A", 1, 0, 1}, {"A", 1, 0, 1}, false, "A"},
    {"a voltage", voltages, {"V", 1, 0, 0}, {"V", 1, 0, 0}, false, "V"},
    {"a time", times, {"s", 1, 0, 1}, {"s", 1, 0, 1}, false, "h, min, s or d"},
    {"a force", forces, {"lbf", pound_si* gravity, 0, 0}, {"N", 1, 0, 0}, false, "lbf, N or kN"},
    {"an angle", angles, {"deg", pi / 180, 0, 1}, {"deg", pi / 180, 0, 1}, false, "deg or rad"},
    {"an amount of money", moneys, {"USD", 1, 0, 2}, {"USD", 1, 0, 2}, true, "USD or no unit"},
    {"an acidity", acidities, {"pH", 1, 0, 1}, {"pH", 1, 0, 1}, true, "pH or no unit"},
    {"a hardness", hardnesses, {"mg/L", 1, 0, 0}, {"mg/L", 1, 0, 0}, false, "mg/L, ppm or gr/gal (as CaCO3)"},
    {"an altitude", lengths, {"ft", foot_si, 0, 0}, {"m", 1, 0, 0}, false, "ft or m"},
};
static_assert(std::size(tables) == static_cast<std::size_t>(Kind::altitude) + 1, "a row for every kind");

}  // namespace

const KindTable& table_of(Kind kind) { return tables[static_cast<std::size_t>(kind)]; }

}  // namespace bw::units
