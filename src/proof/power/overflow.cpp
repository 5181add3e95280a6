// SPDX-License-Identifier: MIT
// What stops the heaters when a condensate pump's tank overfills.
#include "proof/checks.h"
#include "proof/power/power_run.h"

namespace bw::proof {
namespace {

/// Whether a switch's wires lead to a stop that cuts every heater.
bool cuts_all(const View& view, int guard) {
    const int alarm = view.plant.port(guard, "alarm");
    bool wired = false;
    for (const auto& s :
         view.outward({guard, alarm}, [&](int piece, int) { return view.piece(piece).part == Part::cable; }))
        wired |= view.piece(s.piece).part == Part::emergency_stop;
    int stopped = 0;
    for (const auto& circuit : circuits_of(view))
        for (const auto& fed : circuit.fed) stopped += fed.stopped;
    return wired && stopped >= view.heaters();
}

void overflow(const View& view, int pump, Checks& checks) {
    auto check = new_check("condensate.pump.overflow", {ifgc("307.6"), practice()});
    const auto& guards = view.of(Part::overflow_switch);
    about(check, view, guards.empty() ? std::vector{pump} : guards);
    const auto circuits = circuits_of(view);
    const auto own = std::find_if(circuits.begin(), circuits.end(), [&](const auto& c) { return c.pump == pump; });
    std::string wrong;
    if (guards.empty())
        wrong = "the condensate pump has no overflow switch: a full tank would flood the room while heaters fire.";
    else if (!cuts_all(view, guards.front()))
        wrong = "the overflow switch's wires do not lead to a stop that cuts every heater.";
    else if (own == circuits.end())
        wrong = "the condensate pump is on no circuit.";
    else if (own->pump_stopped || !own->fed.empty())
        wrong = "the condensate pump's circuit is cut together with heaters: it could not empty its tank.";
    if (!wrong.empty()) {
        checks.push_back(holds(std::move(check), false, {}, wrong));
        return;
    }
    step(check,
         "The switch opens the coil of the stop's contactor, through which every heater is fed; the pump has a "
         "circuit of its own that no stop cuts.");
    checks.push_back(reason::referred(
        std::move(check),
        "CAUTION: when the pump fails its tank overfills, and the heaters must stop. Drawn so: the switch opens the "
        "emergency stop's contactor. A licensed electrician wires it, and before hand-over lifts the float and sees "
        "every heater stop."));
}

}  // namespace

void check_overflow(const View& view, Checks& checks) {
    for (const int pump : view.of(Part::condensate_pump)) overflow(view, pump, checks);
}

}  // namespace bw::proof
