// SPDX-License-Identifier: MIT
#include "spoilers.h"

namespace bw::tests {
namespace {

using namespace units;  // NOLINT
using text::Part;
using text::Service;

void loop_to_far_away(Job& job) {
    auto& far = job.survey.recirculation.branches.back();
    far.length = 1500.0 * foot;
    far.return_length = {1500.0 * foot, false};
    far.return_size = {Nominal{4}, false};
}

}  // namespace

std::span<const Spoiler> demand_spoilers() {
    static const Spoiler table[] = {
        {"demand.loop-alone", advised(hostel,
                                      [](Job& j) {
                                          j.survey.recirculation.flow = {0.05 * gallon_per_minute, false};
                                      })},
        {"demand.one-tap", advised(hostel,
                                   [](Job& j) {
                                       j.survey.recirculation.present = {false, false};
                                       heater(j).flow_least = 6.0 * gallon_per_minute;
                                   })},
        {"demand.loop-heat", advised(hostel,
                                     [](Job& j) {
                                         j.survey.recirculation.loss = {1.0 * kbtu_per_hour, false};
                                     })},
        {"demand.gas-quality", advised(hostel,
                                       [](Job& j) {
                                           j.survey.gas.heating_value = {850.0 * btu_per_cubic_foot, false};
                                       })},
        {"demand.store", advised(hostel, [](Job& j) { j.survey.preferences.tank = 100.0 * gallon; })},
        {"demand.scale", advised(hostel, [](Job&) {})},
        {"demand.scald", advised(hostel, [](Job&) {})},
        {"demand.germs", advised(hostel, [](Job&) {})},
        {"capacity.number", proved(wash_house, [](Job& j) { j.built.plant = without(j.built.plant, {"heater-3"}); })},
        {"capacity.flow", proved(wash_house, [](Job& j) { j.demand.peak = 40.0 * gallon_per_minute; })},
        {"capacity.flow-firm", proved(hostel, [](Job& j) { j.demand.peak = 0.99 * j.capacity.flow; })},
        {"capacity.group", proved(wash_house, [](Job& j) { heater(j).greatest_group = 7; })},
        {"capacity.groups", proved(wash_house,
                                   [](Job& j) {
                                       j.built.plant = without(j.built.plant, {"heater-3.link.cable"});
                                       heater(j).groups_together = 1;
                                   })},
        {"capacity.linked",
         proved(wash_house, [](Job& j) { j.built.plant = without(j.built.plant, {"heater-3.link.cable"}); })},
        {"capacity.altitude", proved(wash_house,
                                     [](Job& j) {
                                         j.survey.altitude = {12000.0 * foot, false};
                                     })},
    };
    return table;
}

std::span<const Spoiler> water_spoilers() {
    static const Spoiler table[] = {
        {"water.hardness", proved(wash_house,
                                  [](Job& j) {
                                      j.survey.supply.hardness = {500, false};
                                  })},
        {"water.analysis", as_built(wash_house)},
        {"water.temperature", proved(wash_house,
                                     [](Job& j) {
                                         j.survey.temperatures.distribution = {fahrenheit(200), false};
                                     })},
        {"water.reducer", proved(wash_house,
                                 [](Job& j) {
                                     j.survey.supply.pressure = {95.0 * psi, false};
                                 })},
        {"water.static", proved(wash_house, [](Job& j) { heater(j).water_pressure_greatest = 10.0 * psi; })},
        {"water.supply-pressure", proved(wash_house, [](Job& j) { heater(j).water_pressure_least = 200.0 * psi; })},
        {"water.backflow", as_built(wash_house)},
        {"water.expansion",
         proved(hostel, [](Job& j) { take_out(j, [](auto& p) { return p.part == Part::expansion_vessel; }); })},
        {"water.reached.<service>",
         proved(wash_house, [](Job& j) { j.built.plant = without(j.built.plant, {"heater-3"}); })},
        {"water.valves.heater-<n>",
         proved(wash_house, [](Job& j) { become(j, Part::service_valve_hot, Part::coupling); })},
        {"water.materials", proved(wash_house, [](Job& j) { piece(j, "main.cold.pipe-1").item = "pipe/steel-40/2"; })},
        {"water.dielectric", proved(wash_house, [](Job& j) { piece(j, "main.hot.pipe-1").item = "pipe/steel-40/2"; })},
        {"water.flow", proved(wash_house, [](Job& j) { heater(j).flow_greatest = 0.1 * gallon_per_minute; })},
        {"water.flow-least", proved(wash_house, [](Job& j) { heater(j).flow_least = 50.0 * gallon_per_minute; })},
        {"water.run.<service>",
         proved(wash_house, [](Job& j) { j.built.plant = without(j.built.plant, {"site.cold"}); })},
        {"water.velocity.<line>", proved(wash_house,
                                         [](Job& j) {
                                             for (auto& p : j.built.plant.pieces)
                                                 if (p.service == Service::cold && p.bank == 0) p.bore *= 0.7;
                                         })},
        {"water.pressure.heater-<n>", proved(wash_house, [](Job& j) { heater(j).water_pressure_least = 200.0 * psi; })},
        {"water.pressure.left", proved(wash_house,
                                       [](Job& j) {
                                           j.survey.supply.pressure = {18.0 * psi, false};
                                       })},
        {"water.pressure.building", as_built(wash_house)},
        {"water.balance", proved(wash_house,
                                 [](Job& j) {
                                     for (auto& p : j.built.plant.pieces)
                                         if (p.service == Service::cold && p.bank == 1 && p.heater == 0) p.bore *= 0.5;
                                 })},
        {"water.one-tap", proved(wash_house, [](Job& j) { heater(j).flow_least = 5.0 * gallon_per_minute; })},
        {"water.mixing", as_built(wash_house)},
        {"water.relief.heater-<n>",
         proved(wash_house, [](Job& j) { j.built.plant = without(j.built.plant, {"heater-1.relief.valve"}); })},
        {"water.relief-capacity.heater-<n>",
         proved(wash_house,
                [](Job& j) { each_item(j, Part::relief_valve, [](auto& row) { row.data["capacity"] = 1e3; }); })},
        {"water.relief-set.heater-<n>", proved(wash_house,
                                               [](Job& j) {
                                                   each_item(j, Part::relief_valve, [](auto& row) {
                                                       row.data["set-pressure"] = si_value(175.0 * psi);
                                                   });
                                               })},
        {"water.relief-discharge.heater-<n>",
         proved(wash_house, [](Job& j) { j.built.plant = without(j.built.plant, {"heater-6.relief.air-gap"}); })},
        {"water.relief-end.heater-<n>", proved(wash_house,
                                               [](Job& j) {
                                                   for (auto& port : piece(j, "heater-6.relief.air-gap").ports)
                                                       port.at.z += 0.05;
                                               })},
        {"water.relief-place", as_built(wash_house)},
        {"water.recirculation-way", proved(hostel,
                                           [](Job& j) {
                                               take_out(j, [](auto& p) {
                                                   return p.part == Part::pipe && p.service == Service::recirculation;
                                               });
                                           })},
        {"water.recirculation-pump", proved(hostel, [](Job& j) { become(j, Part::pump, Part::coupling); })},
        {"water.recirculation-check", proved(hostel, [](Job& j) { become(j, Part::check_valve, Part::coupling); })},
        {"water.insulation", proved(hostel, [](Job& j) { j.demand.hot = fahrenheit(900); })},
        {"water.recirculation-loss", proved(hostel, [](Job& j) { j.demand.recirculation_loss = 10.0 * watt; })},
        {"water.recirculation-duty", proved(hostel, loop_to_far_away)},
        {"water.recirculation-balance", proved(hostel, loop_to_far_away)},
        {"water.recirculation-velocity", proved(hostel,
                                                [](Job& j) {
                                                    j.survey.recirculation.branches.clear();
                                                    j.demand.recirculation_flow = 20.0 * gallon_per_minute;
                                                })},
        {"water.recirculation-open", as_built(hostel)},
        {"water.recirculation-return", proved(hostel,
                                              [](Job& j) {
                                                  j.survey.recirculation.branches.clear();
                                                  j.survey.recirculation.drop = {30.0 * degF_difference, false};
                                              })},
        {"water.recirculation-least", proved(hostel, [](Job& j) { j.demand.recirculation_loss = 10.0 * watt; })},
    };
    return table;
}

}  // namespace bw::tests
