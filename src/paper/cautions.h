// SPDX-License-Identifier: MIT
#pragma once
// The usual cautions of this work, in our own words: common practice, no source. They replace no maker's instruction,
// code or training.

#include <array>
#include <string_view>

namespace bw::paper {

struct Caution {
    std::string_view hazard, says;
};

inline constexpr std::array<Caution, 9> cautions{{
    {"Gas",
     "Only a licensed gas fitter connects, tests, purges and lights. Test with the heaters shut off and disconnected; "
     "never "
     "look for leaks with a flame. Purge large pipe outdoors. If gas is smelled: no switch, no flame, leave, and call "
     "the supplier "
     "from outside."},
    {"Combustion products",
     "A vent that leaks, blocks or is pushed back by its neighbours fills the room with carbon monoxide. Use only vent "
     "the "
     "heater's listing names, support it, keep its fall, and measure CO at start-up. Keep an alarm in and beside the "
     "room."},
    {"Scalding",
     "Water above 120 degF burns, and at 140 degF within seconds. Nobody opens the plant to users before mixing valves "
     "are "
     "set and the temperature is measured at the taps."},
    {"Pressure",
     "Never plug, valve or reduce a relief valve or its discharge. Relieve and drain before opening any joint; stand "
     "clear of a "
     "discharge when testing."},
    {"Electricity",
     "Circuits are run and connected by a licensed electrician, locked out and proved dead before work. Water and live "
     "parts share "
     "this room: test ground-fault protection and bonding."},
    {"Lifting",
     "A heater or a made-up header is more than one person's lift. Plan each lift, keep hands from pinch points, and "
     "hang nothing on "
     "a wall or rack before its anchors are set and checked."},
    {"Overturning",
     "A one-sided rack tips forward as soon as it is loaded, and a two-sided one when only one side is hung. Bolt "
     "every foot first."},
    {"Earthquake",
     "Where earthquakes count, anchors, bracing and flexible connections are the structural engineer's to design and "
     "the special "
     "inspector's to see."},
    {"Germs in water",
     "Flush and disinfect new pipe before use. Warm standing water breeds Legionella: keep the loop hot, and follow "
     "the building's "
     "water management plan."},
}};

}  // namespace bw::paper
