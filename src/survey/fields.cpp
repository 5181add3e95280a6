// SPDX-License-Identifier: MIT
#include "survey/fields.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <vector>

#include "units/parse.h"

namespace bw::survey {
namespace {

constexpr std::array all_sections{
    Section{"job", Shape::table, "What the job is called.", true},
    Section{"building", Shape::table, "Who uses the hot water.", true},
    Section{"building.block", Shape::list, "Loads that run together at full flow: gang showers, washers, filling."},
    Section{"building.occupancy", Shape::list, "People or dwellings served, for the methods that count them."},
    Section{"supply", Shape::table, "The cold water that comes in."},
    Section{"gas", Shape::table, "The fuel gas that comes in.", true},
    Section{"gas.other", Shape::list, "Other appliances on the same meter; an empty list states that there are none."},
    Section{"site", Shape::table, "Where the building stands."},
    Section{"water", Shape::table, "Temperatures the water must have."},
    Section{"recirculation", Shape::table, "The loop that keeps the hot main warm."},
    Section{"recirculation.branch", Shape::list, "The building's loop: each way out and back, in parallel."},
    Section{"room", Shape::table, "The plant room.", true},
    Section{"room.ceiling-slope", Shape::table,
            "A ceiling that slopes: it falls evenly from `ceiling`, over the corner farthest off, towards one wall."},
    Section{"room.wall", Shape::list, "Walls, by number: wall 1 runs from the plan's first corner to the second."},
    Section{"room.door", Shape::list, "Doors into the room; at least one.", true},
    Section{"room.way-in", Shape::table, "The way from the street to the room."},
    Section{"room.obstacle", Shape::list, "Things that stand in the room: columns, ducts, other plant."},
    Section{"connections", Shape::table, "Where the plant meets the building."},
    Section{"codes", Shape::list,
            "Adopted codes; without them code checks refer. An empty list states that none is known."},
    Section{"safety", Shape::table, "What the jurisdiction asks for."},
    Section{"preferences", Shape::table, "How you would like it built."},
};

std::vector<Field> gathered() {
    std::vector<Field> all;
    for (const auto part :
         {detail::building_fields(), detail::service_fields(), detail::room_fields(), detail::preference_fields()})
        all.insert(all.end(), part.begin(), part.end());
    return all;
}

double limit(const Field& field, std::string_view written, double otherwise) {
    if (written.empty()) return otherwise;
    const auto kind = field.form == Form::whole || field.form == Form::number ? units::Kind::number : field.kind;
    const auto amount = units::parse(written, kind);
    assert(amount);
    return amount->si;
}

}  // namespace

std::span<const Section> sections() { return all_sections; }

std::span<const Field> fields() {
    static const std::vector<Field> all = gathered();
    return all;
}

const Field& field(std::string_view path) {
    const auto all = fields();
    const auto at = std::find_if(all.begin(), all.end(), [path](const Field& f) { return f.path == path; });
    assert(at != all.end());
    return *at;
}

text::Range range(const Field& field) {
    const text::Range open;
    return {limit(field, field.least, open.least), limit(field, field.greatest, open.greatest)};
}

}  // namespace bw::survey
