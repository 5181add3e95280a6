// SPDX-License-Identifier: MIT
#include "reason/register/rows.h"

namespace bw::reason {
namespace {

using enum Ends;

constexpr CheckRow vent[] = {
    {"vent.way.heater-<n>", "Exhaust of heater <n> led outdoors", may_fail, Remedy::vent_pipe,
     "exhaust is led to a terminal outside the room", "walk from the port", "IFGC 501, 503 *m*", ""},
    {"vent.common.listing", "Common venting as wished is within the heater's listing", may_fail, Remedy::vent_pipe,
     "there only where a common vent is wished and the heater is not listed for it", "survey, heater", "heater's data",
     ""},
    {"vent.listing", "Common venting allowed by the heater's listing", may_fail, Remedy::vent_pipe,
     "heaters share a vent only where their listing allows it", "paths by terminal", "heater's data, IFGC 503.5 *m*",
     ""},
    {"vent.damper.heater-<n>", "Back-flow damper of heater <n>", may_fail, Remedy::vent_pipe,
     "a damper stands between the heater and the common vent", "path", "heater's data, IFGC 503.5 *m*", ""},
    {"vent.common-count.<terminal>", "Heaters on the common vent to <terminal>", may_fail, Remedy::vent_pipe,
     "heaters on it are no more than the listing's number", "paths by terminal", "heater's data, IFGC 503.5 *m*", ""},
    {"vent.length.heater-<n>", "Vent length of heater <n>", may_fail, Remedy::vent_pipe,
     "length with elbow equivalents is at most the listing's for the size", "path", "heater's data, IFGC 503 *m*", ""},
    {"vent.length.<terminal>", "Length of the common vent to <terminal>", may_fail, Remedy::vent_pipe,
     "length from the farthest collar is at most the listing's for the size", "path", "heater's data, IFGC 503 *m*",
     ""},
    {"vent.fan.<terminal>", "Pressure the heaters' fans meet on the vent to <terminal>", may_fail, Remedy::vent_pipe,
     "pressure at the collar of the heater that meets the most, all at full fire, is at most what its fan leaves for "
     "the "
     "vent at this air pressure",
     "network", "heater's data, IFGC 503.3 *m*, Darcy-Weisbach", "the catalogue has no fan pressure: heater's maker"},
    {"vent.idle", "No exhaust pushed back through an idle heater", only_refers, Remedy::none,
     "nothing is pushed back through an idle heater; its value is the greatest pressure behind a shut damper, the "
     "working "
     "has a damper failed open and one heater at least fire",
     "network", "heater's data, IFGC 503.5 *m*, Darcy-Weisbach", "always on a common vent: heater's maker"},
    {"vent.air-and-fan", "Air pipe and vent together against the heaters' fans", may_fail, Remedy::vent_pipe,
     "vent and air pipe together against the same fan", "networks", "heater's data, IFGC 503.3 *m*, Darcy-Weisbach",
     "always: the maker says whether its figure is for both"},
    {"vent.solved", "Pressures in the vents solved", may_fail, Remedy::vent_pipe,
     "there only where the vents could not be solved: it says why", "network", "heater's data, IFGC 503.3 *m*", ""},
    {"vent.materials", "Vent pipe of a kind the heater is listed for", may_fail, Remedy::vent_pipe,
     "exhaust pipe is of a listed material", "exhaust pipe", "heater's data, IFGC 503.4 *m*", ""},
    {"vent.temperature", "Exhaust no hotter than the vent pipe stands", may_fail, Remedy::vent_pipe,
     "flue gas at the warmest return is no hotter than the least heat-proof vent pipe stands", "survey, pieces",
     "heater's data, IFGC 503.4 *m*", ""},
    {"vent.velocity", "Exhaust's velocity at the terminal", only_refers, Remedy::none,
     "exhaust's velocity at the terminal, all at full fire and one at least", "survey, pieces", "conservation of mass",
     "always: makers of heater and terminal"},
    {"vent.cooling", "What condenses in the vent and may freeze at its end", may_fail, Remedy::none,
     "the coldest exhaust can come to its terminal, what then condenses in the vent, frost", "pipe heat, combustion",
     "ASTM C680 *m*", "always: installer"},
    {"vent.terminal", "Surroundings of the vent terminals", only_refers, Remedy::none,
     "distances to openings, ground and lot lines", "survey", "IFGC 503.8", "surroundings not surveyed"},
    {"vent.plume", "Wet plume and ice kept off walkways", only_refers, Remedy::none, "plume and ice off walkways",
     "terminals", "IFGC 503.8 *m*", "always: seen on site"},
    {"vent.apart", "Exhaust and intake terminals apart", only_refers, Remedy::none,
     "exhaust from intake, as far apart as the fall of the vent sets them out", "terminals", "heater's data",
     "always: mechanical contractor"},
    {"vent.fall.<vent>", "Fall of <vent> back to where it drains", may_fail, Remedy::vent_pipe,
     "the vent, drawn level, has room to be hung with 1/4 in in 12 in of fall back to its drain or heater; heights of "
     "its "
     "joints and supports, changed cuts",
     "solids, joints", "*p*, IFGC 503.6 *m*", ""},
};

constexpr CheckRow air[] = {
    {"air.room-air", "Air for burning is drawn from the room", only_refers, Remedy::none,
     "there only where room air is wished and cannot be used: outdoor air is piped instead", "survey, heater",
     "heater's data", "always: owner"},
    {"air.intake.heater-<n>", "Air to heater <n>", may_fail, Remedy::piped_air,
     "outdoor air is piped, or it burns room air that its listing allows", "walk from the port", "heater's data",
     "room air by assumption"},
    {"air.clean", "Air free of laundry, pool and salon chemistry", may_fail, Remedy::piped_air,
     "no laundry, pool or salon chemistry is in the air", "survey, intakes", "IFGC 303.5 *m*",
     "chemistry near the outdoor intakes"},
    {"air.volume", "Room volume for burning indoor air", only_refers, Remedy::piped_air,
     "the room alone gives enough air; room air only", "survey", "IFGC 304", "too small: mechanical contractor"},
    {"air.openings", "Openings for outdoor air, by each method", only_refers, Remedy::none,
     "openings by each method; room air only", "survey", "IFGC 304", "always: mechanical contractor and inspector"},
    {"air.mechanical", "Mechanical supply of outdoor air, the other way", only_refers, Remedy::none,
     "flow of a fan instead of openings; room air only", "survey", "IFGC 304", "always: mechanical contractor"},
};

constexpr CheckRow condensate[] = {
    {"condensate.trap.heater-<n>", "Condensate trap of heater <n>", may_fail, Remedy::none,
     "a trap stands before any shared drain, or is built in", "path", "IFGC 307 *m*", ""},
    {"condensate.neutraliser.heater-<n>", "Neutraliser for heater <n>", may_fail, Remedy::none,
     "there only where a heater's condensate reaches no neutraliser", "path", "IFGC 307 *m*", ""},
    {"condensate.neutraliser.<piece>", "<piece> against the heaters it serves", may_fail, Remedy::none,
     "rated input is at least that of the heaters it serves; condensate worked out", "paths", "its row", ""},
    {"condensate.bed.<piece>", "How long the medium in <piece> lasts", may_fail, Remedy::none,
     "hours at full fire and months of the reckoned day until half the medium is gone; pH before and, as an estimate, "
     "after",
     "its row, combustion, balance of calcite with carbon dioxide (`matter/neutralise.h`)",
     "Plummer and Busenberg 1982 *m*, *p*", "always, where it is found: service"},
    {"condensate.materials", "Condensate kept off copper and steel", may_fail, Remedy::none,
     "no copper or steel carries condensate", "pieces", "IFGC 307 *m*", ""},
    {"condensate.end", "Condensate ends over an open receptor", only_refers, Remedy::none, "it ends over an air gap",
     "path", "IPC 802.1 *m*", "none drawn: plumbing inspector"},
    {"condensate.freezing", "Drain that cannot freeze", only_refers, Remedy::none, "the drain cannot freeze", "survey",
     "IFGC 307 *m*", "it can, or that is assumed: contractor and inspector"},
    {"condensate.working-space.<line>", "Condensate pipe across the working space", only_refers, Remedy::none,
     "there only where the pipe must cross the working space in front of the heaters", "room", "IFGC 306 *m*",
     "always: mechanical inspector"},
    {"condensate.fall", "Fall of the condensate line to its drain", may_fail, Remedy::none,
     "the line, drawn level, has room to be hung with 1/4 in (else 1/8 in) in 12 in of fall to its drain; heights of "
     "its joints and supports, changed cuts; to its pump, where it has one",
     "solids, joints", "*p*, IMC 307.2.1 *m*", ""},
    {"condensate.fall.discharge", "Fall of the condensate pump's discharge from its highest point to the drain",
     may_fail, Remedy::none, "the same of a pump's discharge, from its highest point to the drain", "solids, joints",
     "*p*, IMC 307.2.1 *m*", ""},
    {"condensate.pump.flow", "Condensate pump against the heaters it empties", may_fail, Remedy::none,
     "the most condensate is at most what the pump gives at its lift and friction", "pieces, its row",
     "IFGC 307.6 *m*, Darcy-Weisbach", ""},
    {"condensate.pump.lift", "Lift of the condensate pump", may_fail, Remedy::none,
     "lift and friction at the condensate's own flow are at most the pump's head there", "pieces, its row",
     "IFGC 307.6 *m*, Darcy-Weisbach", ""},
    {"condensate.pump.check-valve", "Check valve after the condensate pump", may_fail, Remedy::none,
     "a check valve stands after the pump", "path", "*p*", ""},
    {"condensate.pump.overflow", "Overflow switch stops the heaters", may_fail, Remedy::none,
     "the overflow switch is wired to the stop that cuts every heater, the pump on a circuit of its own", "wires",
     "IFGC 307.6 *m*, *p*", "always: electrician, who proves it"},
};

}  // namespace

std::span<const CheckRow> vent_rows() { return vent; }
std::span<const CheckRow> air_rows() { return air; }
std::span<const CheckRow> condensate_rows() { return condensate; }

}  // namespace bw::reason
