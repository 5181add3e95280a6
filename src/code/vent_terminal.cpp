// SPDX-License-Identifier: MIT
#include "code/vent_terminal.h"

#include "code/sources.h"

namespace bw::code {

namespace {

TerminalDistance keep(const char* from, Length least, const char* says, Standing standing,
                      const char* clause = "503.8") {
    return {from, {least, says, ifgc(clause, standing)}};
}

}  // namespace

std::vector<TerminalDistance> mechanical_draft_distances() {
    return {
        keep("forced-air inlet within 10 ft", 3.0 * foot, "the terminal stands 3 ft above it", Standing::published),
        keep("door, operable window or gravity air inlet: below or beside", 4.0 * foot,
             "the terminal keeps 4 ft below or horizontally from it", Standing::memory),
        keep("door, operable window or gravity air inlet: above", 1.0 * foot, "the terminal stands 1 ft above it",
             Standing::published),
        keep("finished ground", 12.0 * inch, "the bottom of the terminal is 12 in above it", Standing::published),
        keep("public walkway", 7.0 * foot, "a terminal beside a public walkway is 7 ft above it", Standing::memory),
    };
}

std::vector<TerminalDistance> direct_vent_distances(Power input) {
    double btu = input / btu_per_hour;
    Length opening = 12.0 * inch;
    const char* says = "12 in from any air opening into the building, above 50,000 Btu/h";
    if (btu <= 10'000) {
        opening = 6.0 * inch;
        says = "6 in from any air opening into the building, up to 10,000 Btu/h";
    } else if (btu <= 50'000) {
        opening = 9.0 * inch;
        says = "9 in from any air opening into the building, above 10,000 to 50,000 Btu/h";
    } else if (btu > 65'000) {
        says = "12 in from any air opening at least; above 65,000 Btu/h the appliance's instructions may ask for more";
    }
    return {keep("air opening into the building", opening, says, Standing::memory, "Table 503.8"),
            keep("finished ground", 12.0 * inch, "bottom of vent terminal and air inlet 12 in above it",
                 Standing::published)};
}

Clause<bool> condensing_terminal_walkway() {
    return {true,
            "a through-wall vent of a condensing appliance does not end over a public walkway or where wet, freezing "
            "exhaust does harm",
            ifgc("503.8", Standing::memory)};
}

Clause<bool> penetration_firestop() {
    return {true, "a pipe or vent through a fire-rated wall is firestopped to the wall's rating",
            ibc("714.4", Standing::memory)};
}

}  // namespace bw::code
