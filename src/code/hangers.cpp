// SPDX-License-Identifier: MIT
#include "code/hangers.h"

#include <array>
#include <optional>
#include <span>

#include "code/sources.h"
#include "text/material.h"
#include "text/spoken.h"

namespace bw::code {

namespace {

using text::Family;
using text::family;

constexpr Standing read = Standing::published;
constexpr Standing memory = Standing::memory;

Clause<Length> spaced(double feet, const std::string& what, Standing standing) {
    return {feet * foot, fmt::format("{} is held every {:g} ft", what, feet), ipc("Table 308.5", standing)};
}

tl::unexpected<Error> lacks(Material material) {
    return fail("the hanger table has no row for " + std::string(text::spoken(material)),
                "copper, cpvc, steel or stainless");
}

struct Spacing {
    int eighths;
    double feet;
    bool read;
};
// Water-filled, MSS SP-58 type table as handbooks print it.
constexpr std::array steel{Spacing{4, 7, true},   Spacing{6, 7, true},   Spacing{8, 7, true},    Spacing{10, 7, false},
                           Spacing{12, 9, true},  Spacing{16, 10, true}, Spacing{20, 11, false}, Spacing{24, 12, true},
                           Spacing{32, 14, true}, Spacing{48, 17, false}};
constexpr std::array copper{Spacing{4, 5, false},   Spacing{6, 5, true},  Spacing{8, 6, false},  Spacing{10, 7, false},
                            Spacing{12, 8, true},   Spacing{16, 8, true}, Spacing{20, 9, false}, Spacing{24, 10, true},
                            Spacing{32, 12, false}, Spacing{48, 14, true}};

bool is_copper(Material m) { return family(m) == Family::copper; }
bool is_steel(Material m) { return family(m) == Family::steel || family(m) == Family::stainless; }

}  // namespace

Result<Clause<Length>> hanger_spacing(Material material, Nominal size) {
    auto what = std::string(text::spoken(material)) + " of " + print(size) + " in";
    if (is_copper(material)) return size < Nominal{12} ? spaced(6, what, memory) : spaced(10, what, read);
    if (is_steel(material)) return spaced(12, what, memory);
    if (family(material) == Family::cpvc) return size <= Nominal{8} ? spaced(3, what, read) : spaced(4, what, memory);
    if (family(material) == Family::drain) return spaced(4, what, memory);
    return lacks(material);
}

Result<Clause<Length>> hanger_spacing_vertical(Material material, Nominal size) {
    auto what = std::string(text::spoken(material)) + " of " + print(size) + " in, upright,";
    if (is_copper(material)) return spaced(10, what, memory);
    if (is_steel(material)) return spaced(15, what, memory);
    if (family(material) == Family::cpvc || family(material) == Family::drain) return spaced(10, what, memory);
    return lacks(material);
}

Result<Clause<Length>> support_spacing(Material material, Nominal size) {
    std::span<const Spacing> table;
    if (is_copper(material))
        table = copper;
    else if (is_steel(material))
        table = steel;
    else
        return lacks(material);
    for (const auto& row : table)
        if (row.eighths == size.eighths)
            return Clause<Length>{row.feet * foot,
                                  fmt::format("water-filled {} of {} in is supported every {:g} ft",
                                              text::spoken(material), print(size), row.feet),
                                  {"MSS SP-58", "", "support spacing as printed in handbooks",
                                   row.read && family(material) != Family::stainless ? read : memory}};
    return fail("the support table has no row for " + print(size) + " in", "1/2 to 6 in");
}

Clause<Length> vent_support_spacing() { return {48.0 * inch, "plastic vent is held every 4 ft", practice()}; }

Result<Clause<Nominal>> hanger_rod(Nominal pipe) {
    struct Row {
        int up_to, rod;  // eighths
    };
    for (const Row row : {Row{16, 3}, Row{28, 4}, Row{40, 5}, Row{48, 6}, Row{96, 7}})
        if (pipe.eighths <= row.up_to)
            return Clause<Nominal>{
                {row.rod},
                fmt::format("{} in pipe hangs on rod of {} in at least", print(pipe), print(Nominal{row.rod})),
                {"MSS SP-58", "", "least rod diameter by pipe size", memory}};
    return fail("the rod table has no row for " + print(pipe) + " in", "up to 12 in");
}

Result<Clause<Force>> rod_load(Nominal rod) {
    struct Row {
        int eighths;
        double pounds;
    };
    // The lower of two printings of the table: later ones allow about a fifth more.
    for (const Row row : {Row{3, 610}, Row{4, 1130}, Row{5, 1810}, Row{6, 2710}, Row{7, 3770}, Row{8, 4960}})
        if (row.eighths == rod.eighths)
            return Clause<Force>{row.pounds * pound_force,
                                 fmt::format("threaded rod of {} in carries {:g} lbf", print(rod), row.pounds),
                                 {"MSS SP-58", "", "load ratings of threaded rod", memory}};
    return fail("the rod table has no row for " + print(rod) + " in", "3/8 to 1 in");
}

}  // namespace bw::code
