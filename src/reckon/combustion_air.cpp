// SPDX-License-Identifier: MIT
#include "code/combustion_air.h"

#include <fmt/format.h>

#include "reckon/topic.h"

namespace bw::reckon {

namespace {

using units::Kind;

struct Method {
    code::Openings openings;
    std::string_view name, says;
};
constexpr Method methods[] = {
    {code::Openings::indoors_same_storey, "opening-same-storey", "free area each, to rooms on the same storey"},
    {code::Openings::indoors_other_storey, "opening-other-storey", "free area in all, to rooms on another storey"},
    {code::Openings::outdoors_two_direct, "opening-outdoors-two",
     "free area each, outdoors directly or by vertical ducts"},
    {code::Openings::outdoors_two_horizontal, "opening-outdoors-ducts", "free area each, outdoors by horizontal ducts"},
    {code::Openings::outdoors_one, "opening-outdoors-one", "free area, outdoors, and no less than the vents together"},
};

template <class T>
T taken(const code::Ruled<T>& ruled, Findings& into) {
    into.derivation.insert(into.derivation.end(), ruled.derivation.begin(), ruled.derivation.end());
    add(into.sources, ruled.sources);
    return ruled.value;
}

Result<units::Volume> required_volume(const Inputs& in, Findings& out) {
    const auto input = in.get<units::Power>("input");
    if (!in.has("air-changes")) return taken(code::indoor_air_volume(input), out);
    const auto draft = in.word("appliance") == "fan" ? code::Draft::fan_assisted : code::Draft::natural;
    const auto known = code::indoor_air_volume(input, in.number("air-changes"), draft);
    if (!known) return tl::unexpected(known.error());
    return taken(*known, out);
}

Result<Findings> run(const Inputs& in, const catalogue::Catalogue&) {
    Findings out;
    const auto volume = required_volume(in, out);
    if (!volume) return tl::unexpected(volume.error());
    out.result.push_back({"required-volume", units::amount(*volume, Kind::room_volume),
                          in.has("air-changes") ? "of the room, known infiltration" : "of the room, standard method"});
    if (in.has("room-volume"))
        out.result.push_back({"room-is-enough", in.get<units::Volume>("room-volume") >= *volume,
                              "whether the room alone supplies the air"});
    const auto input = in.get<units::Power>("input");
    for (const auto& method : methods) {
        const auto opening = taken(code::air_opening(input, method.openings), out);
        out.result.push_back(
            {std::string(method.name), units::amount(opening.each),
             fmt::format("{} opening{}, {}", opening.number, opening.number == 1 ? "" : "s", method.says)});
    }
    const auto supply = taken(code::mechanical_air(input), out);
    out.result.push_back({"mechanical-air", units::amount(supply, Kind::air_flow), "supplied by a fan, interlocked"});
    return out;
}

}  // namespace

Entry combustion_air() {
    return {{"combustion-air",
             "Room volume and openings that gas appliances need for their air",
             {{.name = "input", .says = "of all appliances in the room", .kind = Kind::heat_rate},
              {.name = "room-volume", .says = "of the room", .kind = Kind::room_volume, .required = false},
              {.name = "air-changes",
               .says = "an hour, where the infiltration is known",
               .kind = Kind::number,
               .required = false},
              {.name = "appliance",
               .says = "how it draws its air",
               .form = Form::word,
               .required = false,
               .fallback = "fan",
               .choices = {"fan", "draft"}}}},
            run};
}

}  // namespace bw::reckon
