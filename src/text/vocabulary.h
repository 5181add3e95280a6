// SPDX-License-Identifier: MIT
#pragma once
// The one vocabulary of identifiers: what the survey, the catalogue, `reckon`, the result and the code all call things.

#include <span>
#include <string>
#include <string_view>

#include "units/error.h"

namespace bw::text {

enum class Service { gas, cold, hot, recirculation, exhaust, intake, condensate, relief, power, link, structure };

enum class Part {
    heater, pipe, elbow, elbow_45, tee, cap, coupling, union_joint, reducer, adapter, nipple,
    ball_valve, gas_valve, service_valve_cold, service_valve_hot, check_valve, balancing_valve, mixing_valve,
    relief_valve, pressure_reducer, backflow_preventer, strainer, regulator, flexible_gas, flexible_water,
    test_port, thermometer, pump, expansion_vessel, tank, dielectric,
    vent_pipe, vent_elbow, vent_tee, vent_collar, vent_damper, vent_terminal, vent_adapter, intake_terminal,
    condensate_trap, neutraliser, condensate_pump, overflow_switch, air_gap,
    panel_feed, cable, disconnect, emergency_stop, link_cable, link_plug,
    frame_post, frame_rail, strut, foot, anchor, hanger, rod, bracket, bond, firestop, co_alarm,
    connection,  ///< a point where the plant meets the building; a boundary, never bought
};

enum class Material {
    steel_40, steel_80, stainless_10s, copper_k, copper_l, copper_m, cpvc, csst,
    vent_polypropylene, vent_cpvc, vent_pvc, pvc_drain, cable, strut,
};

enum class Gas { natural, propane };

/// Building kinds of the hourly-demand table.
enum class Building { apartment, club, gymnasium, hospital, hotel, industrial, office, residence, school };

/// Fixtures of the survey. Every demand method maps them to its own, coarser kinds.
enum class Fixture {
    bar_sink, basin_private, basin_public, bath_shower, bathtub, bidet, clothes_washer, clothes_washer_public,
    dishwasher, foot_basin, kitchen_sink, kitchen_sink_commercial, laundry_tub, pantry_sink, service_sink,
    shower, shower_public, urinal, water_closet,
};

/// Identifier as written in files: `steel-40`, `vent-collar`, `union-joint`, `basin-public`.
[[nodiscard]] std::string_view name(Service value);
[[nodiscard]] std::string_view name(Part value);
[[nodiscard]] std::string_view name(Material value);
[[nodiscard]] std::string_view name(Gas value);
[[nodiscard]] std::string_view name(Building value);
[[nodiscard]] std::string_view name(Fixture value);

/// The identifiers of one enumeration, in its order, and what such a thing is called in messages.
struct Words {
    std::string_view kind;  ///< "part"
    std::span<const std::string_view> list;
};

/// The words of an enumeration whose values count up from 0. A room with an enumeration of its own specialises this for
/// it, in namespace bw::text, and then `named` and TableReader read it too.
template <class Enum> [[nodiscard]] Words words_of();
template <> Words words_of<Service>();
template <> Words words_of<Part>();
template <> Words words_of<Material>();
template <> Words words_of<Gas>();
template <> Words words_of<Building>();
template <> Words words_of<Fixture>();

/// Position of an identifier in a list; fails with the nearest one and all choices.
[[nodiscard]] Result<std::size_t> index_of(std::string_view identifier, const Words& words);
/// "one of natural, propane".
[[nodiscard]] std::string one_of(std::span<const std::string_view> choices);

/// The value an identifier names; fails with the nearest names.
template <class Enum> [[nodiscard]] Result<Enum> named(std::string_view identifier) {
    return index_of(identifier, words_of<Enum>()).map([](std::size_t i) { return static_cast<Enum>(i); });
}
/// All identifiers of an enumeration, in order.
template <class Enum> [[nodiscard]] std::span<const std::string_view> names() { return words_of<Enum>().list; }

/// The nearest of `choices` to a mistyped word, or empty when none is near.
[[nodiscard]] std::string nearest(std::string_view word, std::span<const std::string_view> choices);

}  // namespace bw::text
