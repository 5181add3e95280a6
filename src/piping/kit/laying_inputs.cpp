// SPDX-License-Identifier: MIT
#include "piping/kit/laying_inputs.h"

#include <fmt/format.h>

#include <algorithm>

#include "code/water.h"
#include "matter/water.h"
#include "network/loop_pump.h"
#include "network/regulator.h"

namespace bw::piping {

using catalogue::Item;

units::VolumeFlow gas_load(const SizingInputs& brief, const catalogue::Heater& heater, int heaters) {
    return static_cast<double>(heaters) * heater.input_greatest / *brief.survey.gas.heating_value;
}

namespace {

/// The smallest that holds the delivery pressure and passes the load at what is left of it once the pipe before it has
/// lost all it may; else the one that passes most. None where no row passes the load.
const Item* regulator_for(const survey::GasSupply& gas, const catalogue::Catalogue& catalogue, units::VolumeFlow load) {
    const auto left = *gas.delivery_pressure - *gas.allowed_drop;
    const auto preferred = [&](const Item& one, const Item& other) {
        const auto passes = network::regulator_passes(one, left), passed = network::regulator_passes(other, left);
        if ((passes >= load) != (passed >= load)) return passes >= load;
        return passes >= load ? *one.size < *other.size : passes > passed;
    };
    const Item* best = nullptr;
    for (const Item* row : catalogue.of(text::Part::regulator)) {
        if (row->gas != gas.kind.value || !row->size) continue;
        if (row->number("inlet-greatest").value_or(0) < gas.delivery_pressure->value() ||
            row->number("capacity").value_or(0) < load.value())
            continue;
        if (!best || preferred(*row, *best)) best = row;
    }
    return best;
}

/// One in the main, else one before each bank.
Result<void> choose_regulator(const SizingInputs& brief, LayingInputs& ground) {
    const auto& gas = brief.survey.gas;
    const auto* inlet = ground.heater->inlet(*gas.kind);
    if (!inlet || *gas.delivery_pressure <= inlet->greatest) return {};
    const auto load = [&](int heaters) { return gas_load(brief, *ground.heater, heaters); };
    ground.regulator = regulator_for(gas, *ground.catalogue, load(ground.heaters));
    if (ground.regulator) return {};
    std::size_t most = 0;
    for (const auto& bank : ground.layout.banks) most = std::max(most, bank.stands.size());
    const auto largest = load(static_cast<int>(most));
    ground.regulator = regulator_for(gas, *ground.catalogue, largest);
    ground.regulator_each_bank = ground.regulator != nullptr;
    if (ground.regulator) return {};
    return fail(fmt::format("gas main: the catalogue has no {} line regulator for {} at {}", text::name(*gas.kind),
                            print(units::amount(*gas.delivery_pressure, units::Kind::pressure), units::System::us),
                            print(units::amount(largest, units::Kind::gas_flow), units::System::us)),
                "a row for one, or gas delivered within the heater's limits");
}

/// By the loop's flow and what is known of its head: the building's by its designer, one heater's own, and what a plant
/// laid before was found to lack. Where none reaches it, the one for the flow alone: the proof then says what is short.
const Item* loop_pump(const SizingInputs& brief, const catalogue::Catalogue& catalogue,
                      const catalogue::Heater& heater) {
    const auto flow = brief.demand.recirculation_flow;
    const int open = network::heaters_open_to_loop(brief.demand, brief.capacity, heater);
    const auto lost = catalogue::pressure_drop(heater, flow / static_cast<double>(open));
    const auto water = matter::water(brief.demand.hot);
    units::Length head = brief.survey.recirculation.head.value_or(units::Length{});
    constexpr double gravity = units::standard_gravity;
    if (lost && water) head += units::Length::from_value(lost->value() / (water->density.value() * gravity));
    head = std::max(head, brief.loop_head);
    const Item* best = network::pump_for(catalogue, flow, head);
    return best ? best : network::pump_for(catalogue, flow, {});
}

}  // namespace

Result<LayingInputs> laying_inputs(const SizingInputs& brief, const catalogue::Catalogue& catalogue,
                                   const catalogue::Heater& heater, const plant::Layout& layout) {
    const auto& survey = brief.survey;
    const auto& preferences = survey.preferences;
    LayingInputs ground;
    ground.catalogue = &catalogue;
    ground.heater = &heater;
    ground.layout = layout;
    ground.heaters = brief.capacity.installed;
    ground.room = survey.room;
    ground.gas_pipe = *preferences.gas_pipe;
    ground.water_pipe = *preferences.water_pipe;
    ground.vent_pipe = *preferences.vent_pipe;
    ground.vent = *preferences.vent;
    ground.room_air = *preferences.room_air;
    ground.chemistry_in_air = survey.use.chemistry_in_air;
    ground.header_serves = std::max(1, *preferences.header_serves);
    ground.recirculates = *survey.recirculation.present;
    ground.reduces = *survey.supply.pressure > code::water_pressure_limit().value;
    ground.closed = *survey.supply.closed;
    ground.emergency_stop = *survey.emergency_stop_required;
    ground.co_alarm = *survey.co_alarm_required;
    if (auto chosen = choose_regulator(brief, ground); !chosen) return tl::unexpected(chosen.error());
    ground.pump = ground.recirculates ? loop_pump(brief, catalogue, heater) : nullptr;
    return ground;
}

}  // namespace bw::piping
