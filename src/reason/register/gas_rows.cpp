// SPDX-License-Identifier: MIT
#include "reason/register/rows.h"

namespace bw::reason {
namespace {

using enum Ends;

constexpr CheckRow rows[] = {
    {"gas.delivery", "Delivery pressure confirmed by the supplier", only_refers, Remedy::none,
     "the survey gives the delivery pressure", "survey", "IFGC 402.2 *m*", "assumed: gas supplier"},
    {"gas.indoor-pressure", "Gas pressure inside the building", may_fail, Remedy::none,
     "gas in the building is at most at 5 psi", "survey", "IFGC 402.6", "pressure assumed"},
    {"gas.meter", "Gas meter and service against everything on them", may_fail, Remedy::gas_meter,
     "the meter passes all heaters and the other loads", "survey", "IFGC 402.2 *m*", "capacity unknown: gas supplier"},
    {"gas.materials", "Gas pipe and fittings of allowed kinds", may_fail, Remedy::none,
     "pipe may carry this gas; valves, connectors and regulators are listed", "pieces", "IFGC 403 *m*", ""},
    {"gas.bond", "Gas pipe bonded to the grounding system", may_fail, Remedy::none,
     "a bond clamp is joined to the gas pipe", "joints", "IFGC 310.1, NEC 250.104(B) *m*",
     "always, where there is a clamp: electrician"},
    {"gas.test", "Pressure test and purge of the gas pipe", may_fail, Remedy::none,
     "test pressure, duration, gauge and purge", "pipe contents", "IFGC 406",
     "always, where the method reaches: gas fitter and inspector"},
    {"gas.regulator", "Line regulator where delivery is above the heaters' greatest", may_fail, Remedy::none,
     "a regulator stands on every way where delivery is above the heaters' greatest", "gas tree", "IFGC 410", ""},
    {"gas.regulator.shut-off.<piece>", "Shut-off valve before <piece>", may_fail, Remedy::none,
     "a valve stands before the regulator", "pieces on the way", "IFGC 410 *m*", ""},
    {"gas.regulator.test-ports.<piece>", "Test ports before and after <piece>", may_fail, Remedy::none,
     "pressure can be read on both sides of the regulator", "pieces on the way", "IFGC 410 *m*", ""},
    {"gas.regulator.vent.<piece>", "Vent of <piece>", only_refers, Remedy::none,
     "the regulator has a listed vent limiter", "its catalogue row", "IFGC 410 *m*",
     "no limiter is named: inspector or gas fitter"},
    {"gas.regulator.lock-up.<piece>", "Lock-up pressure of <piece> within the heaters' greatest", may_fail,
     Remedy::none, "the regulator locks up at most at the heaters' greatest pressure", "its catalogue row", "its row",
     ""},
    {"gas.regulator.inlet.<piece>", "Delivery pressure within the greatest inlet of <piece>", may_fail, Remedy::none,
     "delivery pressure is at most the regulator's greatest inlet", "its catalogue row", "its row", "pressure assumed"},
    {"gas.regulator.capacity.<piece>", "Capacity of <piece>", may_fail, Remedy::none,
     "the regulator passes all heaters behind it at the inlet there is", "gas tree, its catalogue row", "its row",
     "pressure assumed"},
    {"gas.regulator.running-inlet.<piece>", "Pressure before <piece> stays above its outlet", may_fail,
     Remedy::gas_pipe, "with all heaters firing the inlet stays at least at the outlet's setting", "gas tree",
     "its row", "pressure assumed"},
    {"gas.regulator.second-device.<piece>", "Second device above 2 psi with <piece>", only_refers, Remedy::none,
     "above 2 psi a second device holds the outlet if the first fails", "survey", "IFGC 410 *m*",
     "always, above 2 psi: gas supplier or gas fitter"},
    {"gas.regulator.sudden.<piece>", "All burners shut at once: how soon <piece> must close", only_refers, Remedy::none,
     "how soon the regulator must close when every burner shuts at once", "pipe contents", "ideal gas",
     "always: the regulator's maker"},
    {"gas.size", "Gas pipe sized by the code", may_fail, Remedy::gas_pipe,
     "there only where the code's sizing does not reach: it says why", "gas tree", "IFGC 402.4", ""},
    {"gas.size.<line>", "Gas pipe size, <line>", may_fail, Remedy::gas_pipe,
     "longest-length method: the load is at most what the pipe carries (by the branch-length method where only that "
     "holds, on every line), by table where a cell is held, else by equation; pipe of a regulator's size within 2 ft "
     "of "
     "it is its own connection",
     "sections of the tree, longest way", "IFGC 402.4",
     "pressure assumed; beyond the table with gas-by-engineering: engineer of record"},
    {"gas.pressure.heater-<n>", "Gas pressure at heater <n> with all firing", may_fail, Remedy::gas_pipe,
     "running pressure is at least the heater's least with all firing",
     "every piece on its way, code equation, fitting equivalents", "IFGC 402.4 *r*, heater's data", "pressure assumed"},
    {"gas.static.heater-<n>", "Gas pressure at heater <n> with none firing", may_fail, Remedy::none,
     "delivery or lock-up pressure is at most the heater's greatest with none firing", "last regulator",
     "heater's data", "pressure assumed"},
    {"gas.drop", "Greatest drop from the point of connection to a regulator or heater", may_fail, Remedy::gas_pipe,
     "the greatest drop to a regulator or heater is at most the allowed", "the same", "IFGC 402.5 *m*",
     "pressure assumed"},
    {"gas.solved", "Lowest gas pressure at a heater, the pipe solved as a network", may_fail, Remedy::gas_pipe,
     "the lowest pressure at a heater with all firing is at least its least, the gas pieces solved as one network; the "
     "working has every heater's pressure with all, it alone and none firing",
     "network", "heater's data, Darcy-Weisbach", "pressure assumed"},
    {"gas.valve.heater-<n>", "Shut-off valve at heater <n>", may_fail, Remedy::none,
     "a listed shut-off of its own stands within 6 ft", "gas tree", "IFGC 409.5", ""},
    {"gas.union.heater-<n>", "Union after the shut-off valve of heater <n>", may_fail, Remedy::none,
     "a union stands after that valve", "gas tree", "IFGC 409.5", ""},
    {"gas.trap.heater-<n>", "Sediment trap at heater <n>", may_fail, Remedy::none,
     "after the valve stands a tee the gas turns in, its bottom opening closed by nipple and cap",
     "geometry of the tee's ports", "IFGC 408.4 *r*", ""},
    {"gas.connector.heater-<n>", "Gas connector of heater <n>", may_fail, Remedy::none,
     "one listed connector, no longer than allowed", "gas tree", "IFGC 411 *m*", ""},
};

}  // namespace

std::span<const CheckRow> gas_rows() { return rows; }

}  // namespace bw::reason
