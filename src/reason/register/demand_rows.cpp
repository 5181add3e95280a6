// SPDX-License-Identifier: MIT
#include "reason/register/rows.h"

namespace bw::reason {
namespace {

using enum Ends;

constexpr CheckRow rows[] = {
    {"demand.loop-alone", "Recirculation alone against the least flow that fires", only_refers, Remedy::none,
     "the loop alone fires a heater", "demand, heater", "heater's data", "the loop flows less: engineer"},
    {"demand.one-tap", "The smallest draw alone against the least flow that fires", only_refers, Remedy::none,
     "the smallest draw, with the loop where there is one, fires a heater", "demand, heater", "heater's data",
     "it draws less: engineer"},
    {"demand.loop-heat", "The loop's loss against the least fire", only_refers, Remedy::none,
     "the loop's loss is at least one heater's least fire", "demand, heater", "heater's data",
     "the loop loses less: engineer"},
    {"demand.gas-quality", "Heat a burner draws from this gas before it is set to it", only_refers, Remedy::none,
     "the Wobbe index is within five in a hundred of the usual gas", "survey", "*p*",
     "farther off: licensed gas fitter"},
    {"demand.store", "The store wished for", only_refers, Remedy::none, "what a wished store would change", "survey",
     "given", "always: engineer"},
    {"demand.scale", "Scale: cleaning interval and treatment", only_refers, Remedy::none, "months between cleanings",
     "hardness", "*p*", "always: water treatment specialist"},
    {"demand.scald", "Time to a scald at the temperature sent out", only_refers, Remedy::none,
     "water is sent out no hotter than it is used", "survey",
     "Moritz and Henriques 1947, ASSE 1016, 1017, 1069, 1070 *m*", "hotter than use: licensed plumber"},
    {"demand.germs", "Germs: temperatures that hold Legionella down", only_refers, Remedy::none,
     "temperatures against germs", "survey", "ASHRAE Guideline 12, 188 *m*", "always: owner"},
    {"capacity.number", "The plant has the heaters that were decided on", may_fail, Remedy::none,
     "the plant has the heaters decided on, numbered without a gap", "heaters", "pieces", ""},
    {"capacity.flow", "Flow of all heaters against the peak", may_fail, Remedy::none,
     "all heaters together give the peak", "heaters, their output at rise and altitude", "heater's data",
     "altitude assumed"},
    {"capacity.flow-firm", "Flow with <down> down", may_fail, Remedy::spare_heater,
     "the rest give the peak with the spare down, or with one down where there is no spare", "the same", "*p*",
     "there is no spare and the rest are not enough: owner"},
    {"capacity.group", "Heaters in one linked group", may_fail, Remedy::none,
     "heaters on one unbroken chain of link cables are no more than the maker's number", "link cables", "heater's data",
     ""},
    {"capacity.groups", "Linked groups side by side", may_fail, Remedy::none,
     "where there are several groups: no link between them, and as many as the maker lets stand on common headers "
     "(`groups-together`)",
     "link cables", "heater's data", "the catalogue does not say: manufacturer"},
    {"capacity.linked", "Every heater is in the linked group", may_fail, Remedy::none,
     "there are no more groups than the number of heaters asks for", "link cables", "*p*", ""},
    {"capacity.altitude", "Altitude within the heater's limit", may_fail, Remedy::none,
     "the altitude is at most the heater's limit", "survey", "heater's data", "altitude assumed"},
};

}  // namespace

std::span<const CheckRow> demand_rows() { return rows; }

}  // namespace bw::reason
