// SPDX-License-Identifier: MIT
// The condensate pump, where there is one: flow, lift, check valve.
#include "code/water.h"
#include "matter/combustion.h"
#include "matter/pipe_flow.h"
#include "network/loop_pump.h"
#include "proof/checks.h"

namespace bw::proof {
namespace {

using namespace bw::units;  // NOLINT: quantity names

constexpr Length rise_back = Length::from_value(0.25 / 12);  ///< a metre of level discharge: its usual fall

/// From the pump's outlet to the first piece that lies no higher: what the pump fills.
struct Discharge {
    std::vector<int> pieces;
    double highest = 0, level = 0;  ///< metres above the floor, and of level pipe beyond the riser
    int check_valve = -1;
};

Discharge discharge_of(const View& view, int pump) {
    Discharge found;
    const int out = view.plant.port(pump, "b");
    for (const auto& s : view.outward({pump, out}, [](int, int) { return true; })) {
        const auto& piece = view.piece(s.piece);
        if (piece.part == Part::connection) break;
        found.pieces.push_back(s.piece);
        if (piece.part == Part::check_valve) found.check_valve = s.piece;
        for (const auto& port : piece.ports)
            if (port.service == Service::condensate) found.highest = std::max(found.highest, port.at.z);
        if (network::is_level(piece)) found.level += shape::distance(piece.ports[0].at, piece.ports[1].at);
    }
    return found;
}

/// Head lost by friction at a flow, in all of the discharge; nullopt where the method does not reach.
std::optional<Length> friction(const View& view, const Discharge& discharge, VolumeFlow flow) {
    const auto water = matter::water(view.demand.cold);
    if (!water) return std::nullopt;
    Pressure lost{};
    for (const int i : discharge.pieces) {
        const auto& piece = view.piece(i);
        const auto* row = view.pipe(i);
        if (piece.bore <= 0) continue;
        const auto drop = matter::pipe_drop(flow, piece.bore * metre, row ? row->roughness : Length::from_value(1.5e-6),
                                            piece.cut * metre, piece.loss_run, *water);
        if (!drop) return std::nullopt;
        lost += drop->drop;
    }
    return Length::from_value(lost.value() / (water->density.value() * 9.80665));
}

/// The flow at which the pump's head is what the discharge asks.
VolumeFlow delivered(const View& view, const Discharge& discharge, const network::PumpCurve& curve, Length lift) {
    double low = 0, high = curve.flow.back().value();
    for (int i = 0; i < 40; ++i) {
        const double middle = (low + high) / 2;
        const auto flow = VolumeFlow::from_value(middle);
        const auto lost = friction(view, discharge, flow);
        (lost && curve.at(flow) >= lift + *lost ? low : high) = middle;
    }
    return VolumeFlow::from_value(low);
}

void duty(const View& view, int pump, const Discharge& discharge, Checks& checks) {
    const auto* item = view.item(pump);
    auto check = new_check("condensate.pump.flow", item ? item->sources : Sources{});
    check.sources.push_back(ifgc("307.6"));
    about(check, view, {pump});
    const auto curve = item ? network::pump_curve(*item) : network::PumpCurve{};
    const auto made =
        matter::condensate(*view.survey.gas.kind, static_cast<double>(view.heaters()) * view.heater.input_greatest,
                           *view.survey.gas.heating_value, view.heater.excess_air, view.demand.cold);
    if (curve.flow.size() < 2 || !made) {
        checks.push_back(holds(std::move(check), false, {}, "the condensate pump names no curve of flow and head."));
        return;
    }
    check.derivation = made->derivation;
    const Length lift = discharge.highest * metre + discharge.level * rise_back;
    const auto gives = delivered(view, discharge, curve, lift);
    const auto lost = friction(view, discharge, gives).value_or(Length{});
    step(check,
         "Lift from the floor to the discharge's highest point as drawn, and its usual fall of 1/4 in a foot back from "
         "the drain.",
         "h = z + i L",
         {{"z", "highest above the floor", amount(discharge.highest * metre)},
          {"L", "level", amount(discharge.level * metre)}},
         Term{"h", "lift", amount(lift)});
    step(check, "Where the pump's curve meets lift and friction (Darcy-Weisbach).", {},
         {{"hf", "friction at that flow", amount(lost)}},
         Term{"Q", "the pump gives", amount(gives, Kind::hourly_flow)});
    auto reaches = new_check("condensate.pump.lift", check.sources);
    about(reaches, view, {pump});
    reaches.says = "Lift and friction at the condensate's own flow, against the pump's head there.";
    const auto need = friction(view, discharge, made->flow);
    checks.push_back(at_most(std::move(reaches), amount(lift + need.value_or(Length{})), amount(curve.at(made->flow))));
    check.says = "The most condensate there can be, against what the pump gives at its lift.";
    checks.push_back(
        at_most(std::move(check), amount(made->flow, Kind::hourly_flow), amount(gives, Kind::hourly_flow)));
}

void check_valve(const View& view, int pump, const Discharge& discharge, Checks& checks) {
    auto check = new_check("condensate.pump.check-valve", {practice()});
    about(check, view, {discharge.check_valve >= 0 ? discharge.check_valve : pump});
    checks.push_back(holds(std::move(check), discharge.check_valve >= 0,
                           "What stands in the discharge does not run back into the tank.",
                           "the discharge runs back into the tank: no check valve stands after the pump."));
}

}  // namespace

void check_drain_pump(const View& view, Checks& checks) {
    for (const int pump : view.of(Part::condensate_pump)) {
        const auto discharge = discharge_of(view, pump);
        duty(view, pump, discharge, checks);
        check_valve(view, pump, discharge, checks);
    }
}

}  // namespace bw::proof
