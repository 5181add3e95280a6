// SPDX-License-Identifier: MIT
#include "catalogue/fields.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace bw::catalogue {

namespace {

template <auto Member>
void put(auto& row, double si) {
    using T = std::remove_reference_t<decltype(row.*Member)>;
    if constexpr (std::is_same_v<T, double>)
        row.*Member = si;
    else
        row.*Member = T::from_value(si);
}

constexpr double in = 0.0254, psi_si = 6894.757;
constexpr text::Range any_length{0, 30}, pressures{0, 5000 * psi_si};

constexpr std::array pipe_table{
    Number<Pipe>{"outside", Kind::small_length, false, {0.1 * in, 40 * in}, put<&Pipe::outside>},
    Number<Pipe>{"inside", Kind::small_length, false, {0.1 * in, 40 * in}, put<&Pipe::inside>},
    Number<Pipe>{"roughness", Kind::small_length, false, {0, 0.01}, put<&Pipe::roughness>},
    Number<Pipe>{"mass", Kind::mass_per_length, false, {0, 500}, put<&Pipe::mass>},
    Number<Pipe>{"stock", Kind::long_length, false, {0.1, 200}, put<&Pipe::stock>},
    Number<Pipe>{"price", Kind::number, true, {0, 1e5}, put<&Pipe::price_per_metre>},
    Number<Pipe>{"labour", Kind::time, true, {0, 1e5}, put<&Pipe::labour_per_metre>},
    Number<Pipe>{"greatest", Kind::temperature, false, {273.15, 1000}, put<&Pipe::greatest>},
    Number<Pipe>{"rating", Kind::pressure, false, pressures, put<&Pipe::rating>, false},
};

constexpr std::array item_table{
    Number<Item>{"outside", Kind::small_length, false, {0.01 * in, 5}, put<&Item::outside>},
    Number<Item>{"mass", Kind::mass, false, {0, 5000}, put<&Item::mass>},
    Number<Item>{"price", Kind::number, false, {0, 1e6}, put<&Item::price>},
    Number<Item>{"labour", Kind::time, false, {0, 1e6}, put<&Item::labour>},
    Number<Item>{"run", Kind::length, false, {0, 5}, put<&Item::run>, false},
    Number<Item>{"stem", Kind::length, false, {0, 5}, put<&Item::stem>, false},
    Number<Item>{"loss", Kind::number, false, {0, 1e4}, put<&Item::loss_run>, false},
    Number<Item>{"loss-stem", Kind::number, false, {0, 1e4}, put<&Item::loss_stem>, false},
};

constexpr std::array relief{Part::relief_valve};
constexpr std::array regulators{Part::regulator};
constexpr std::array reducers{Part::pressure_reducer};
constexpr std::array reducing{Part::regulator, Part::pressure_reducer};
constexpr std::array flexibles{Part::flexible_gas, Part::flexible_water};
constexpr std::array lengths{Part::flexible_gas, Part::flexible_water, Part::link_cable,
                             Part::frame_post,   Part::frame_rail,     Part::strut,
                             Part::anchor,       Part::neutraliser,    Part::rod};
constexpr std::array cables{Part::cable};
constexpr std::array supports{Part::frame_post, Part::frame_rail, Part::strut, Part::foot,
                              Part::hanger,     Part::bracket,    Part::rod};
constexpr std::array brackets{Part::bracket};
constexpr std::array circuits{Part::panel_feed, Part::disconnect,      Part::emergency_stop,
                              Part::pump,       Part::condensate_pump, Part::cable};
constexpr std::array throttles{Part::mixing_valve, Part::backflow_preventer};
constexpr std::array mixers{Part::mixing_valve};
constexpr std::array vessels{Part::expansion_vessel, Part::tank};
constexpr std::array bladders{Part::expansion_vessel};
constexpr std::array standing{Part::expansion_vessel, Part::tank, Part::foot};
constexpr std::array neutralisers{Part::neutraliser};
constexpr std::array pumps{Part::pump, Part::condensate_pump};
constexpr std::array sockets{Part::elbow,    Part::elbow_45, Part::tee,    Part::cap,
                             Part::coupling, Part::reducer,  Part::adapter};
constexpr std::array terminals{Part::vent_terminal, Part::intake_terminal};
constexpr text::Range flows{0, 1}, forces{0, 1e6};

constexpr std::array data_table{
    DataField{"set-pressure", Kind::pressure, pressures, relief},
    DataField{"capacity", Kind::heat_rate, {0, 1e8}, relief},
    DataField{"capacity", Kind::gas_flow, {0, 10}, regulators},
    DataField{"capacity-inlet", Kind::pressure, pressures, regulators, false},
    DataField{"capacity", Kind::water_flow, flows, reducers},
    DataField{"inlet-greatest", Kind::pressure, pressures, reducing},
    DataField{"outlet", Kind::pressure, pressures, reducing},
    DataField{"lock-up", Kind::pressure, pressures, regulators},
    DataField{"length", Kind::length, any_length, lengths},
    DataField{"length", Kind::length, any_length, cables, false},
    DataField{"offset-greatest", Kind::length, any_length, flexibles},
    DataField{"load", Kind::force, forces, supports},
    DataField{"lift", Kind::length, any_length, brackets, false},
    DataField{"rating", Kind::current, {0, 1e4}, circuits},
    DataField{"flow-greatest", Kind::water_flow, flows, throttles},
    DataField{"flow-least", Kind::water_flow, flows, mixers},
    DataField{"pressure-loss", Kind::pressure, pressures, throttles},
    DataField{"volume", Kind::volume, {0, 100}, vessels},
    DataField{"acceptance", Kind::volume, {0, 100}, bladders},
    DataField{"pressure-greatest", Kind::pressure, pressures, vessels},
    DataField{"height", Kind::length, any_length, standing},
    DataField{"medium-mass", Kind::mass, {0, 5000}, neutralisers},
    DataField{"rated-input", Kind::heat_rate, {0, 1e8}, neutralisers},
    DataField{"spacing", Kind::length, any_length, terminals, false},
    DataField{"socket", Kind::length, any_length, sockets, false},
    DataField{"flow-1", Kind::water_flow, flows, pumps},
    DataField{"head-1", Kind::long_length, {0, 500}, pumps},
    DataField{"flow-2", Kind::water_flow, flows, pumps},
    DataField{"head-2", Kind::long_length, {0, 500}, pumps},
    DataField{"flow-3", Kind::water_flow, flows, pumps, false},
    DataField{"head-3", Kind::long_length, {0, 500}, pumps, false},
    DataField{"flow-4", Kind::water_flow, flows, pumps, false},
    DataField{"head-4", Kind::long_length, {0, 500}, pumps, false},
    DataField{"flow-5", Kind::water_flow, flows, pumps, false},
    DataField{"head-5", Kind::long_length, {0, 500}, pumps, false},
};

}  // namespace

std::span<const Number<Pipe>> pipe_numbers() { return pipe_table; }
std::span<const Number<Item>> item_numbers() { return item_table; }
std::span<const DataField> data_fields() { return data_table; }

bool belongs(const DataField& field, Part part) {
    return std::find(field.parts.begin(), field.parts.end(), part) != field.parts.end();
}

Needs needs(Part part) {
    switch (part) {
        case Part::tee:
        case Part::vent_tee:
        case Part::condensate_trap:
        case Part::condensate_pump:
        case Part::air_gap: return {true, true, true, true};
        case Part::service_valve_hot: return {true, true, true, true};
        case Part::service_valve_cold:
        case Part::relief_valve:
        case Part::mixing_valve: return {true, true, true, false};
        case Part::reducer:
        case Part::vent_adapter: return {true, true, false, true};
        case Part::elbow:
        case Part::elbow_45:
        case Part::cap:
        case Part::coupling:
        case Part::union_joint:
        case Part::adapter:
        case Part::nipple:
        case Part::ball_valve:
        case Part::gas_valve:
        case Part::check_valve:
        case Part::balancing_valve:
        case Part::pressure_reducer:
        case Part::backflow_preventer:
        case Part::strainer:
        case Part::regulator:
        case Part::flexible_gas:
        case Part::flexible_water:
        case Part::test_port:
        case Part::thermometer:
        case Part::pump:
        case Part::dielectric:
        case Part::vent_elbow:
        case Part::vent_collar:
        case Part::vent_damper:
        case Part::vent_terminal:
        case Part::intake_terminal:
        case Part::neutraliser: return {true, true, false, false};
        case Part::expansion_vessel:
        case Part::tank:
        case Part::hanger:
        case Part::rod:
        case Part::firestop: return {true, false, false, false};
        default: return {};
    }
}

Result<Scale> scale_of(Kind kind, std::string_view unit, bool per_length) {
    double per = 1;
    if (per_length) {
        const auto slash = unit.rfind('/');
        const auto length =
            units::parse(fmt::format("1 {}", slash == unit.npos ? unit : unit.substr(slash + 1)), Kind::long_length);
        if (!length) return tl::unexpected(length.error());
        per = 1 / length->si;
        unit = slash == unit.npos ? std::string_view{} : unit.substr(0, slash);
    }
    const auto one = units::parse(fmt::format("1 {}", unit), kind);
    if (!one) return tl::unexpected(one.error());
    const auto none = units::parse(fmt::format("0 {}", unit), kind);
    const double offset = none ? none->si : 0;
    return Scale{(one->si - offset) * per, offset * per};
}

}  // namespace bw::catalogue
