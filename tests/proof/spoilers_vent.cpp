// SPDX-License-Identifier: MIT
#include "spoilers.h"

namespace bw::tests {
namespace {

using namespace units;  // NOLINT
using text::Part;
using text::Service;

constexpr shape::Vec in_the_room{3, 1.5, 2};

void move_in(Job& job, Part part) {
    for (auto& p : job.built.plant.pieces)
        if (p.part == part)
            for (auto& port : p.ports) port.at = in_the_room;
}

void room_air(Job& job) { move_in(job, Part::intake_terminal); }

void vent_pipe(Job& job, const std::function<void(catalogue::Pipe&)>& change) {
    for (auto& row : job.catalogue.pipes)
        if (row.key.starts_with("pipe/vent") || row.key.starts_with("vent")) change(row);
}

void vents(Job& job, Service service, const std::function<void(plant::Piece&)>& change) {
    for (auto& p : job.built.plant.pieces)
        if (p.service == service) change(p);
}

/// Boxes close under and over a line, so that it can be hung neither lower nor higher.
void shut_in(Job& job, Service service) {
    for (const auto& p : job.built.plant.pieces) {
        if (p.service != service || p.part != Part::pipe || p.heater != 0 || p.solids.empty()) continue;
        const auto box = shape::bounds(p.solids);
        constexpr double gap = 0.002, thick = 0.05;
        auto over = box, under = box;
        over.min.z = box.max.z + gap, over.max.z = over.min.z + thick;
        under.max.z = box.min.z - gap, under.min.z = under.max.z - thick;
        job.survey.room.obstacles.push_back({"a beam", over});
        job.survey.room.obstacles.push_back({"a shelf", under});
    }
}

void weak_pump(Job& job) {
    each_item(job, Part::condensate_pump, [](auto& row) {
        for (int i = 1; i <= 4; ++i) row.data["head-" + std::to_string(i)] *= 0.3;
    });
}

}  // namespace

std::span<const Spoiler> vent_spoilers() {
    static const Spoiler table[] = {
        {"vent.way.heater-<n>", proved(wash_house, [](Job& j) { move_in(j, Part::vent_terminal); })},
        {"vent.common.listing", laid(wash_house,
                                     [](Job& j) {
                                         j.survey.preferences.vent = {survey::VentPreference::common, false};
                                         heater(j).common_vents.clear();
                                     })},
        {"vent.listing", proved(wash_house, [](Job& j) { heater(j).common_vents.clear(); })},
        {"vent.damper.heater-<n>",
         proved(wash_house, [](Job& j) { piece(j, "heater-4.exhaust.damper").part = Part::coupling; })},
        {"vent.common-count.<terminal>", proved(wash_house,
                                                [](Job& j) {
                                                    for (auto& limit : heater(j).common_vents) limit.most = 7;
                                                })},
        {"vent.length.heater-<n>", proved(single_vents,
                                          [](Job& j) {
                                              for (auto& limit : heater(j).vents) limit.longest = 0.5 * foot;
                                          })},
        {"vent.length.<terminal>", proved(wash_house,
                                          [](Job& j) {
                                              for (auto& limit : heater(j).common_vents) limit.longest = 5.0 * foot;
                                          })},
        {"vent.fan.<terminal>", proved(wash_house, [](Job& j) { heater(j).fan = 1.0 * pascal; })},
        {"vent.idle", as_built(wash_house)},
        {"vent.air-and-fan",
         proved(wash_house, [](Job& j) { vents(j, Service::intake, [](auto& p) { p.bore = 0; }); })},
        {"vent.solved", proved(wash_house, [](Job& j) { vents(j, Service::exhaust, [](auto& p) { p.bore = 0; }); })},
        {"vent.materials", proved(wash_house, [](Job& j) { heater(j).vent_materials.clear(); })},
        {"vent.temperature",
         proved(wash_house, [](Job& j) { vent_pipe(j, [](auto& row) { row.greatest = fahrenheit(60); }); })},
        {"vent.velocity", as_built(wash_house)},
        {"vent.cooling", proved(wash_house, [](Job& j) { vent_pipe(j, [](auto& row) { row.outside = Length{}; }); })},
        {"vent.terminal", proved(wash_house,
                                 [](Job& j) {
                                     j.survey.room.terminal_clear = {false, false};
                                 })},
        {"vent.plume", as_built(wash_house)},
        {"vent.apart", as_built(wash_house)},
        {"vent.fall.<vent>", proved(wash_house, [](Job& j) { j.survey.room.ceiling.value = 4.0 * foot; })},
        {"air.room-air", laid(wash_house,
                              [](Job& j) {
                                  j.survey.preferences.room_air = {true, false};
                                  j.survey.use.chemistry_in_air = true;
                              })},
        {"air.intake.heater-<n>", proved(wash_house,
                                         [](Job& j) {
                                             room_air(j);
                                             heater(j).room_air_allowed = false;
                                         })},
        {"air.clean", proved(wash_house,
                             [](Job& j) {
                                 room_air(j);
                                 j.survey.use.chemistry_in_air = true;
                             })},
        {"air.volume", proved(wash_house, room_air)},
        {"air.openings", proved(wash_house, room_air)},
        {"air.mechanical", proved(wash_house, room_air)},
        {"condensate.trap.heater-<n>",
         proved(wash_house, [](Job& j) { become(j, Part::condensate_trap, Part::coupling); })},
        {"condensate.neutraliser.heater-<n>",
         proved(wash_house, [](Job& j) { become(j, Part::neutraliser, Part::coupling); })},
        {"condensate.neutraliser.<piece>",
         proved(wash_house,
                [](Job& j) { each_item(j, Part::neutraliser, [](auto& row) { row.data["rated-input"] = 1; }); })},
        {"condensate.bed.<piece>",
         proved(wash_house,
                [](Job& j) { each_item(j, Part::neutraliser, [](auto& row) { row.data["medium-mass"] = 0; }); })},
        {"condensate.materials",
         proved(wash_house,
                [](Job& j) { vents(j, Service::condensate, [](auto& p) { p.item = "pipe/copper-l/3/4"; }); })},
        {"condensate.end", proved(wash_house,
                                  [](Job& j) {
                                      vents(j, Service::condensate, [](auto& p) {
                                          if (p.part == Part::air_gap) p.part = Part::coupling;
                                      });
                                  })},
        {"condensate.freezing", proved(wash_house,
                                       [](Job& j) {
                                           j.survey.room.freezing = {true, false};
                                       })},
        {"condensate.working-space.<line>", laid(wash_house,
                                                 [](Job& j) {
                                                     const auto& space = j.layout.working_space.front();
                                                     const auto middle = 0.5 * (space.min + space.max);
                                                     j.survey.room.drain.at = {middle.x, middle.y, 0};
                                                     j.survey.room.drain.facing = shape::up;
                                                 })},
        {"condensate.fall", proved(wash_house, [](Job& j) { shut_in(j, Service::condensate); })},
        {"condensate.fall.discharge", proved(pumped, [](Job& j) { shut_in(j, Service::condensate); })},
        {"condensate.pump.flow", proved(pumped, weak_pump)},
        {"condensate.pump.lift", proved(pumped, weak_pump)},
        {"condensate.pump.check-valve",
         proved(pumped, [](Job& j) { piece(j, "main.condensate.discharge.check").part = Part::coupling; })},
        {"condensate.pump.overflow", proved(pumped, [](Job& j) { become(j, Part::overflow_switch, Part::coupling); })},
    };
    return table;
}

}  // namespace bw::tests
