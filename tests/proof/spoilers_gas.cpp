// SPDX-License-Identifier: MIT
#include "spoilers.h"

namespace bw::tests {
namespace {

using namespace units;  // NOLINT
using text::Part;
using text::Service;

void gas_pipe(Job& job, const std::function<void(plant::Piece&)>& change) {
    for (auto& p : job.built.plant.pieces)
        if (p.service == Service::gas && p.part == Part::pipe) change(p);
}

std::function<Checks()> regulator(std::string_view number, double value) {
    return proved(wash_house, [=](Job& j) {
        each_item(j, Part::regulator, [=](auto& row) { row.data[std::string(number)] = value; });
    });
}

}  // namespace

std::span<const Spoiler> gas_spoilers() {
    static const Spoiler table[] = {
        {"gas.delivery",
         proved(wash_house,
                [](Job& j) {
                    j.survey.assumed.push_back({"gas.delivery-pressure", "2 psi", "for this test", true});
                })},
        {"gas.indoor-pressure", proved(wash_house,
                                       [](Job& j) {
                                           j.survey.gas.delivery_pressure = {6.0 * psi, false};
                                       })},
        {"gas.meter", proved(wash_house,
                             [](Job& j) {
                                 j.survey.gas.meter = {2000.0 * cubic_foot_per_hour, false};
                             })},
        {"gas.materials", proved(wash_house, [](Job& j) { gas_pipe(j, [](auto& p) { p.item = "pipe/cpvc/1"; }); })},
        {"gas.bond", proved(wash_house, [](Job& j) { take_out(j, [](auto& p) { return p.part == Part::bond; }); })},
        {"gas.test", proved(wash_house,
                            [](Job& j) {
                                for (auto& p : j.built.plant.pieces)
                                    if (p.service == Service::gas) p.cut = 0;
                            })},
        {"gas.regulator", proved(wash_house, [](Job& j) { become(j, Part::regulator, Part::coupling); })},
        {"gas.regulator.shut-off.<piece>", proved(wash_house,
                                                  [](Job& j) {
                                                      for (auto& p : j.built.plant.pieces)
                                                          if (p.service == Service::gas && p.heater == 0 &&
                                                              (p.part == Part::gas_valve || p.part == Part::ball_valve))
                                                              p.part = Part::coupling;
                                                  })},
        {"gas.regulator.test-ports.<piece>",
         proved(wash_house, [](Job& j) { become(j, Part::test_port, Part::coupling); })},
        {"gas.regulator.vent.<piece>", regulator("vent-limiter", 0)},
        {"gas.regulator.lock-up.<piece>", regulator("lock-up", 14000)},
        {"gas.regulator.inlet.<piece>", regulator("inlet-greatest", 1000)},
        {"gas.regulator.capacity.<piece>", regulator("capacity", 1e-4)},
        {"gas.regulator.running-inlet.<piece>", regulator("outlet", 20000)},
        {"gas.regulator.second-device.<piece>", proved(wash_house,
                                                       [](Job& j) {
                                                           j.survey.gas.delivery_pressure = {3.0 * psi, false};
                                                       })},
        {"gas.regulator.sudden.<piece>", as_built(wash_house)},
        {"gas.size", proved(wash_house, [](Job& j) { j.built.plant = without(j.built.plant, {"site.gas"}); })},
        {"gas.size.<line>",
         proved(wash_house, [](Job& j) { gas_pipe(j, [](auto& p) { p.item = "pipe/steel-40/3/4"; }); })},
        {"gas.pressure.heater-<n>", proved(wash_house, [](Job& j) { gas_pipe(j, [](auto& p) { p.bore *= 0.4; }); })},
        {"gas.static.heater-<n>", regulator("lock-up", 14000)},
        {"gas.drop", proved(wash_house,
                            [](Job& j) {
                                j.survey.gas.allowed_drop = {0.001 * inch_water, false};
                            })},
        {"gas.solved", proved(wash_house, [](Job& j) { gas_pipe(j, [](auto& p) { p.bore *= 0.4; }); })},
        {"gas.valve.heater-<n>",
         proved(wash_house, [](Job& j) { piece(j, "heater-2.gas.valve").part = Part::coupling; })},
        {"gas.union.heater-<n>",
         proved(wash_house, [](Job& j) { piece(j, "heater-7.gas.union").part = Part::coupling; })},
        {"gas.trap.heater-<n>",
         proved(wash_house, [](Job& j) { j.built.plant = without(j.built.plant, {"heater-3.gas.trap-cap"}); })},
        {"gas.connector.heater-<n>",
         proved(wash_house,
                [](Job& j) { each_item(j, Part::flexible_gas, [](auto& row) { row.data["length"] = 10; }); })},
    };
    return table;
}

}  // namespace bw::tests
