// SPDX-License-Identifier: MIT
#include "demand/methods.h"
#include "matter/water.h"

namespace bw::demand {

namespace {

/// Heat one unit of flow gives up between supply and return.
Result<decltype(Power() / VolumeFlow())> heat_by_flow(Temperature supply, TemperatureDifference drop) {
    auto heat = matter::heat_to_warm(1.0 * cubic_metre_per_second, supply - drop, supply);
    if (!heat) return tl::unexpected(heat.error());
    return *heat / (1.0 * cubic_metre_per_second);
}

}  // namespace

Result<LoopLoad> loop_load(const survey::Survey& survey) {
    LoopLoad out;
    const auto& loop = survey.recirculation;
    if (!*loop.present) {
        out.derivation.push_back({"No recirculation loop"});
        return out;
    }
    out.loss = *loop.loss;
    auto hot = *survey.temperatures.distribution;
    reason::Term loss{"H", "heat lost by the loop", units::amount(out.loss)};
    if (loop.flow->value() > 0) {
        out.flow = *loop.flow;
        out.derivation.push_back({"Recirculation as the survey gives it",
                                  "",
                                  {loss},
                                  reason::Term{"Vr", "recirculation flow", units::amount(out.flow)}});
        return out;
    }
    if (!(loop.drop->value() > 0))
        return fail("recirculation has neither a flow nor a drop from supply to return", "one of them above zero");
    auto each = heat_by_flow(hot, *loop.drop);
    if (!each) return tl::unexpected(each.error());
    out.flow = out.loss / *each;
    out.derivation.push_back({"Recirculation flow that carries the loop's loss at the allowed drop",
                              "Vr = H / (rho c dt)",
                              {loss,
                               {"dt", "supply to return", units::amount(*loop.drop)},
                               {"th", "distribution temperature", units::amount(hot)}},
                              reason::Term{"Vr", "recirculation flow", units::amount(out.flow)}});
    return out;
}

}  // namespace bw::demand
