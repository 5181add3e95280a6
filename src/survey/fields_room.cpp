// SPDX-License-Identifier: MIT
#include <array>

#include "survey/fields.h"
#include "survey/words.h"

namespace bw::survey::detail {

using units::Kind;

namespace {

std::span<const Field> plain() {
    static const std::array list{
        Field{.path = "room.ceiling",
              .form = Form::quantity,
              .says = "Clear height; where the ceiling slopes, the greatest.",
              .kind = Kind::length,
              .least = "5 ft",
              .greatest = "100 ft",
              .required = true},
        Field{.path = "room.ceiling-slope.wall",
              .form = Form::whole,
              .says = "Number of the wall it falls towards.",
              .least = "1",
              .greatest = "64",
              .required = true},
        Field{.path = "room.ceiling-slope.low",
              .form = Form::quantity,
              .says = "Clear height along that wall.",
              .kind = Kind::length,
              .least = "1 ft",
              .greatest = "100 ft",
              .required = true},
        Field{.path = "room.air-changes",
              .form = Form::number,
              .says = "Air leaking in and out, changes an hour.",
              .least = "0",
              .greatest = "20",
              .fallback = "0.2",
              .why = "a tight room; counts only where heaters burn room air",
              .safety = true},
        Field{.path = "room.freezing",
              .form = Form::flag,
              .says = "The room or its drain can freeze.",
              .fallback = "false",
              .why = "a heated building",
              .safety = true},
        Field{.path = "room.terminal-clear",
              .form = Form::flag,
              .says = "The vent outlet's surroundings were surveyed and are clear by code.",
              .fallback = "false",
              .why = "windows, inlets, walkways and lot lines near the vent outlet were not surveyed",
              .safety = true},

        Field{.path = "room.wall.number",
              .form = Form::whole,
              .says = "Counted from the plan's first corner, from 1.",
              .least = "1",
              .greatest = "64",
              .required = true},
        Field{.path = "room.wall.build",
              .form = Form::word,
              .says = "What it is built of.",
              .words = own_words<WallBuild>(),
              .fallback = "wood-stud",
              .why = "the weakest usual wall, so that supports are not too few",
              .safety = true},
        Field{.path = "room.wall.combustible",
              .form = Form::flag,
              .says = "Face or frame that can burn, within the heaters' clearance.",
              .safety = true},
        Field{.path = "room.wall.outside", .form = Form::flag, .says = "The far side is outdoors.", .safety = true},
        Field{.path = "room.wall.rated",
              .form = Form::flag,
              .says = "Fire-rated: penetrations are firestopped.",
              .safety = true},

        Field{.path = "room.door.wall",
              .form = Form::whole,
              .says = "Number of its wall.",
              .least = "1",
              .greatest = "64",
              .required = true},
        Field{.path = "room.door.offset",
              .form = Form::quantity,
              .says = "From the wall's first corner to the near jamb.",
              .kind = Kind::length,
              .least = "0 ft",
              .greatest = "300 ft",
              .required = true},
        Field{.path = "room.door.width",
              .form = Form::quantity,
              .says = "Clear width.",
              .kind = Kind::length,
              .least = "16 in",
              .greatest = "20 ft",
              .required = true},
        Field{.path = "room.door.height",
              .form = Form::quantity,
              .says = "Clear height.",
              .kind = Kind::length,
              .least = "4 ft",
              .greatest = "20 ft",
              .fallback = "6 ft 8 in",
              .why = "usual door"},
        Field{.path = "room.door.swings-in",
              .form = Form::flag,
              .says = "Opens into the room.",
              .fallback = "true",
              .why = "the side that takes more room"},
        Field{.path = "room.door.hinge-far",
              .form = Form::flag,
              .says = "Hinge on the jamb farther from the wall's first corner.",
              .fallback = "false",
              .why = "either side; matters only to what stands beside the door"},
    };
    return list;
}

std::span<const Field> around() {
    static const std::array list{
        Field{.path = "room.way-in.corridor",
              .form = Form::quantity,
              .says = "Clear width of the corridor.",
              .kind = Kind::length,
              .least = "16 in",
              .greatest = "100 ft",
              .fallback = "36 in",
              .why = "narrowest usual corridor, so that what fits here fits"},
        Field{.path = "room.way-in.corridor-after-turn",
              .form = Form::quantity,
              .says = "Clear width after its turn; 0 in where it does not turn.",
              .kind = Kind::length,
              .least = "0 in",
              .greatest = "100 ft"},
        Field{.path = "room.way-in.ceiling",
              .form = Form::quantity,
              .says = "Clear height of the corridor.",
              .kind = Kind::length,
              .least = "4 ft",
              .greatest = "100 ft",
              .fallback = "7 ft",
              .why = "lowest usual corridor"},

        Field{.path = "room.obstacle.name", .form = Form::text, .says = "What it is.", .required = true},
        Field{.path = "room.obstacle.from",
              .form = Form::place,
              .says = "A corner: x, y and height above the floor.",
              .required = true},
        Field{.path = "room.obstacle.to", .form = Form::place, .says = "The opposite corner.", .required = true},

        Field{.path = "connections.at",
              .form = Form::place,
              .says = "x, y and height above the floor; on a wall, the floor or the ceiling, or inside the room.",
              .required = true},
        Field{.path = "connections.size", .form = Form::size, .says = "Nominal size of what is there, inches."},
        Field{.path = "connections.facing",
              .form = Form::word,
              .says =
                  "Out of the building's pipe, into the room; left out, square to the nearest wall, floor or ceiling.",
              .words = facing_words()},
    };
    return list;
}

std::vector<Field> both() {
    std::vector<Field> all(plain().begin(), plain().end());
    all.insert(all.end(), around().begin(), around().end());
    return all;
}

}  // namespace

std::span<const Field> room_fields() {
    static const std::vector<Field> list = both();
    return list;
}

}  // namespace bw::survey::detail
