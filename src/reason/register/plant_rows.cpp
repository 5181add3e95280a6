// SPDX-License-Identifier: MIT
#include "reason/register/rows.h"

namespace bw::reason {
namespace {

using enum Ends;

constexpr CheckRow electric[] = {
    {"electric.load.<piece>", "Load on <piece>", may_fail, Remedy::none, "the load is at most 80 % of the breaker",
     "circuits followed from each breaker", "NEC 210.19, 210.20 *m*", ""},
    {"electric.split", "One trip leaves half the plant", may_fail, Remedy::none,
     "one trip takes at most half the heaters", "the same", "*p*", "one heater"},
    {"electric.disconnect.heater-<n>", "Disconnect in sight of heater <n>", may_fail, Remedy::none,
     "a disconnect stands on its circuit within 50 ft", "the same", "NEC 422.31 *m*", ""},
    {"electric.link.heater-<n>", "Link cable reaches from heater <n> to the next", may_fail, Remedy::none,
     "there only where the catalogue has no link cable long enough", "heaters, catalogue", "heater's data", ""},
    {"electric.panel-space", "Working space in front of the panel", may_fail, Remedy::none,
     "30 in wide, 36 in deep and 78 in high is clear before the panel", "solids, obstacles", "NEC 110.26(A) *m*",
     "no panel surveyed, or what stands there was there before: electrician"},
    {"electric.panel-dedicated", "Space over the panel", may_fail, Remedy::none,
     "no pipe or vent runs over the panel's footprint", "solids", "NEC 110.26(E) *m*", ""},
    {"electric.panel", "Room in the panel, conductors, grounding", only_refers, Remedy::none,
     "the panel's capacity, conductors and grounding", "", "NEC *m*", "always: electrician"},
    {"plant.clearance.cables", "Cables kept off hot pipe and vents", only_refers, Remedy::none,
     "cables keep 1 in off hot pipe's insulation and off vents", "solids", "NEC 310.15 *m*, *p*",
     "nearer: electrician"},
};

constexpr CheckRow structure[] = {
    {"structure.bracket.heater-<n>", "Bracket of heater <n>", may_fail, Remedy::none,
     "the filled heater weighs at most its brackets' load", "brackets", "its row", ""},
    {"structure.feet.bank-<b>", "Load on each foot of bank <b>", may_fail, Remedy::none,
     "racks: the load on a foot is at most its own", "feet, masses", "its row, *p*", ""},
    {"structure.bolted.bank-<b>", "Every foot of bank <b> bolted down", may_fail, Remedy::none,
     "racks: an anchor holds every foot", "feet", "*p*", ""},
    {"structure.tie.bank-<b>", "Top of the rack of bank <b> tied", may_fail, Remedy::none,
     "racks whose heaters hang before the posts: every post is tied to the wall or the ceiling; the pull on each tie",
     "posts, ties, masses", "statics, *p*", "always, where every post is tied: structural engineer"},
    {"structure.fixing.bank-<b>", "Fixing of bank <b> to wall <w>", only_refers, Remedy::none,
     "there only where a wall does not take concrete anchors", "survey", "*p*", "always: structural engineer"},
    {"structure.wall.bank-<b>", "Wall <w> carries bank <b>", only_refers, Remedy::none, "what the wall carries",
     "masses", "IBC 1604 *m*", "always: structural engineer"},
    {"structure.floor", "Floor carries the plant", only_refers, Remedy::none, "what the floor carries", "masses",
     "IBC 1604, 1607 *m*", "always: structural engineer"},
    {"structure.anchors", "Capacity of the anchors", only_refers, Remedy::none, "the capacity of the anchors", "",
     "ACI 318 *m*", "always: engineer"},
    {"structure.seismic", "Earthquake forces on heaters, racks and pipe", only_refers, Remedy::none,
     "there only without the site's figures", "survey", "ASCE 7, IBC *m*", "always: structural engineer"},
    {"structure.seismic.bank-<b>", "Earthquake force on what holds bank <b>", may_fail, Remedy::none,
     "pull and shear on each anchor of a rack, or the force on a wall, by ASCE 7-16 13.3.1 with the site figures of "
     "`[site] seismic-...`",
     "masses and places of the pieces", "ASCE 7, IBC *m*", "always, where it is found: structural engineer"},
    {"structure.seismic.pipe", "Bracing of pipe and vents in an earthquake", only_refers, Remedy::none,
     "which pipe is braced, and where", "survey", "ASCE 7, IBC *m*", "always: structural engineer"},
    {"structure.hangers.<service>", "Support spacing of <service> pipe", may_fail, Remedy::freer_place,
     "the longest stretch without support on straight level runs is within the spacing", "support ports on pieces",
     "IFGC Table 415.1, IPC Table 308.5, *p* for vents", "no table for the material"},
    {"structure.hang.<piece>", "Hangers along the run of <piece>", may_fail, Remedy::freer_place,
     "there only where nothing above, beside or below a run is free to carry it", "space", "*p*", ""},
    {"structure.hanger-load.<service>", "Load on each support of <service> pipe", may_fail, Remedy::freer_place,
     "the hardest loaded support bears at most the lesser of its own load and its rod's; each support's place along "
     "its "
     "run, what it hangs from and what it carries full",
     "masses, water, support ports, rods", "rows, MSS SP-58 *m*", ""},
    {"structure.turns", "A support near each turn of long runs", only_refers, Remedy::none,
     "runs of 4 ft and more are held within 24 in of each turn", "support ports", "*p*",
     "nothing free near by: fitter"},
    {"structure.movement.<service>", "Growth of long <service> runs, and where it is taken up", only_refers,
     Remedy::none, "the leg a run turns into takes the run's growth within its bending stress", "runs, legs, free ends",
     "Copper Tube Handbook, ASME B31.9 *m*", "it does not: piping engineer"},
    {"structure.movement.branches", "Heaters' connectors against the hot header's growth", may_fail, Remedy::none,
     "a heater's connector has offset left for its header's growth", "connectors, tees",
     "rows, Copper Tube Handbook, ASME B31.9 *m*", ""},
    {"structure.movement.exhaust", "Growth of vent pipe, and the joints that take it up", only_refers, Remedy::none,
     "the longest vent pipe grows no more than a gasketed joint slides, 3/8 in", "vent pipe, joints, hottest flue gas",
     "ASTM D696 *m*, *p*", "it grows more, or is cemented: vent maker"},
};

constexpr CheckRow room[] = {
    {"layout.fit", "A place in the room for the heaters", may_fail, Remedy::fewer_heaters,
     "there only where no layout fits the room: the nearest and what it lacks", "survey", "given", ""},
    {"room.working-space.heater-<n>", "Working space in front of heater <n>", may_fail, Remedy::freer_place,
     "the depth in front is clear over 30 in, floor to 78 in", "solids, obstacles, walls, sloping ceiling",
     "IFGC 306.2 *m*, heater's data", ""},
    {"room.side.heater-<n>", "Side clearance of heater <n>", may_fail, Remedy::none,
     "the heater's own clearance at its sides", "the same", "heater's data", ""},
    {"room.above", "Clearance above the heaters to the ceiling", may_fail, Remedy::none,
     "the heater's own clearance above, by the lowest ceiling over each heater", "the same", "heater's data",
     "ceiling assumed"},
    {"room.below", "Clearance below the heaters to the floor", may_fail, Remedy::none,
     "the heater's own clearance below", "the same", "heater's data", ""},
    {"room.lift.heater-<n>", "Heater <n> comes off its bracket", may_fail, Remedy::none,
     "there only where a heater meets something as it is raised by its bracket's lift, then drawn out to the front by "
     "its "
     "own depth; its own branches up to their unions or valves, its own vent and cables are off; what it meets and by "
     "how "
     "much",
     "solids, room", "rows, *p*", ""},
    {"room.lift", "Heaters come off their brackets", only_passes, Remedy::none,
     "heaters raised and drawn out meet nothing that stays; those that do are named by `room.lift.heater-<n>`",
     "solids, room", "rows, *p*", ""},
    {"room.lift.unknown", "Heaters come off their brackets", only_refers, Remedy::none,
     "there only where the catalogue gives no lift", "catalogue", "*p*", "always: bracket's maker, fitter"},
    {"room.slope", "Everything stands under the sloping ceiling", may_fail, Remedy::none,
     "under a sloping ceiling no solid reaches through its plane, by exact distance; what passes through the ceiling, "
     "anchors and cables are left out",
     "solids, survey", "pieces", ""},
    {"room.combustible.wall-<w>", "Heaters clear of wall <w> where it can burn", may_fail, Remedy::none,
     "the distance to a wall that can burn", "survey, solids", "IFGC 305.8 *m*, heater's data",
     "heaters hang on such a wall; build assumed"},
    {"plant.clearance.combustible", "Hot pipe and vents off combustible walls", only_refers, Remedy::none,
     "hot pipe and vents keep 1/2 in off combustible walls", "solids, survey", "*p*",
     "nearer: the vent's listing, inspector"},
    {"room.pressure-vessel", "One heater against the pressure-vessel rules", only_refers, Remedy::none,
     "one heater is at most 200 kBtu/h, 210 °F and 120 gal", "heater", "ASME BPVC IV *m*", "past it: boiler inspector"},
    {"room.input", "All heaters in one room against the rules for boiler rooms", only_refers, Remedy::none,
     "all heaters are at most 400 kBtu/h in one room", "heaters", "IBC Table 509, IMC 1004, 1006 *m*",
     "past it: building official, boiler inspector"},
    {"room.firestop.wall-<w>", "Holes through wall <w> firestopped", may_fail, Remedy::piped_air,
     "the plant's holes through a rated wall are firestopped", "terminals, firestops", "IBC 714 *m*",
     "rated: inspector; rating assumed"},
    {"room.rating", "Fire rating of the room's walls, floor and ceiling", only_refers, Remedy::none,
     "the rating of the room itself", "", "IBC *m*", "always: building official"},
};

constexpr CheckRow safety[] = {
    {"safety.emergency-stop", "Emergency stop at the door", may_fail, Remedy::none,
     "a stop cuts every heater, within 3 ft of a door", "circuits", "ASME CSD-1 *m*", "not asked for, or assumed"},
    {"safety.co-alarm", "Carbon monoxide detection", may_fail, Remedy::none,
     "an alarm is there, where one is asked for", "pieces", "IFC 915 *m*",
     "always, where there is one or none is asked for: fire official"},
    {"safety.codes", "Codes the jurisdiction adopted", only_refers, Remedy::none, "what is adopted", "survey", "survey",
     "always: local authority"},
    {"safety.amendments", "Local amendments", only_refers, Remedy::none, "what is amended", "survey", "survey",
     "always: permit office"},
};

constexpr CheckRow parts[] = {
    {"plant.lawful", "Every port joined, every joint true", may_fail, Remedy::none,
     "the laws every plant keeps (`src/plant/laws.cpp`)", "pieces, joints", "pieces", ""},
    {"plant.clash", "No two pieces share room unless joined", may_fail, Remedy::freer_place,
     "no two unjoined bodies, and no body and obstacle, share room beyond a fit of 1/16 in, by exact distance; how "
     "deep "
     "they do; cables, firestops, bonds and anchors are left out",
     "solids", "pieces", ""},
    {"plant.clearance.insulation", "Room for the insulation of hot and cold pipe", only_refers, Remedy::none,
     "bodies of other lines keep clear of hot, return and cold pipe by its insulation", "solids",
     "ASHRAE 90.1 *m*, *p* for cold", "less: fitter and energy inspector"},
    {"plant.clearance.hand", "Room for a hand at valves, unions, strainers and traps", may_fail, Remedy::none,
     "3 in is free on one side at least of what is turned, opened or cleaned; below 1 in it fails", "solids, room",
     "*p*", "less than 3 in: fitter"},
    {"parts.main.<service>.<thing>", "Room for the <thing> in the <service> main", may_fail, Remedy::freer_place,
     "there only where no straight leg of a main has room for what must stand in it", "room", "*p*", ""},
};

}  // namespace

std::span<const CheckRow> electric_rows() { return electric; }
std::span<const CheckRow> structure_rows() { return structure; }
std::span<const CheckRow> room_rows() { return room; }
std::span<const CheckRow> safety_rows() { return safety; }
std::span<const CheckRow> parts_rows() { return parts; }

}  // namespace bw::reason
