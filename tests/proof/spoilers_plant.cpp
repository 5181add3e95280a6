// SPDX-License-Identifier: MIT
#include "design/design.h"
#include "spoilers.h"

namespace bw::tests {
namespace {

using namespace units;  // NOLINT
using shape::Box;
using shape::Vec;
using text::Part;
using text::Service;

/// One breaker feeds what two did.
void on_one_breaker(Job& job) {
    plant::Plant made;
    for (const auto& p : job.built.plant.pieces) made.add(p);
    std::vector<int> breakers;
    for (std::size_t i = 0; i < made.pieces.size(); ++i)
        if (made.pieces[i].part == Part::panel_feed) breakers.push_back(static_cast<int>(i));
    const auto moved = [&](plant::PortRef at) -> plant::PortRef {
        if (at.piece == breakers.front() || std::find(breakers.begin(), breakers.end(), at.piece) == breakers.end())
            return at;
        auto& ports = made.pieces[static_cast<std::size_t>(breakers.front())].ports;
        if (job.built.plant.at(at).service != Service::power) return at;
        ports.push_back(job.built.plant.at(at));
        return {breakers.front(), static_cast<int>(ports.size()) - 1};
    };
    plant::Plant again;
    std::vector<plant::Joint> joints;
    for (const auto& joint : job.built.plant.joints) joints.push_back({moved(joint.a), moved(joint.b), joint.kind});
    for (const auto& p : made.pieces) again.add(p);
    for (const auto& joint : joints) again.join(joint.a, joint.b, joint.kind);
    job.built.plant = std::move(again);
}

/// A box about a place.
Box about(Vec at, Vec half) { return {at - half, at + half}; }

Vec panel_at(const Job& job) { return job.survey.room.panel.at; }

void walls(Job& job, const std::function<void(survey::Wall&)>& change) {
    for (auto& wall : job.survey.room.walls) change(wall);
}

/// Walls of slabs half an inch off a valve on every side.
void wall_in_a_valve(Job& job) {
    const auto box = shape::bounds(piece(job, "heater-2.gas.valve").solids);
    const auto off = shape::grown(box, 0.0127), wide = shape::grown(box, 0.05);
    auto& slabs = piece(job, "heater-7.bracket-1").solids;
    slabs.push_back(Box{wide.min, {off.min.x, wide.max.y, wide.max.z}});
    slabs.push_back(Box{{off.max.x, wide.min.y, wide.min.z}, wide.max});
    slabs.push_back(Box{wide.min, {wide.max.x, off.min.y, wide.max.z}});
    slabs.push_back(Box{{wide.min.x, off.max.y, wide.min.z}, wide.max});
    slabs.push_back(Box{wide.min, {wide.max.x, wide.max.y, off.min.z}});
    slabs.push_back(Box{{wide.min.x, wide.min.y, off.max.z}, wide.max});
}

/// A beam an inch over a heater.
void beam_over(Job& job, const std::string& heater) {
    auto beam = shape::bounds(piece(job, heater).solids.front());
    beam.min.z = beam.max.z + 0.005, beam.max.z += 0.1;
    job.survey.room.obstacles.push_back({"the beam", beam});
}

/// Nothing can be hung from the ceiling.
void floored_over(Job& job) {
    auto& room = job.survey.room;
    const auto low = shape::bounds(room.plan);
    const double top = room.ceiling->value();
    room.obstacles.push_back({"a false ceiling", Box{{low.min.x, low.min.y, top - 0.02}, {low.max.x, low.max.y, top}}});
}

std::function<Checks()> designed(const std::function<void(survey::Survey&)>& change) {
    return [=] {
        auto survey = wash_house().survey;
        change(survey);
        const auto result = design::run(survey, wash_house().catalogue);
        return result ? result->checks : Checks{};
    };
}

}  // namespace

std::span<const Spoiler> plant_spoilers() {
    static const Spoiler table[] = {
        {"electric.load.<piece>",
         proved(wash_house,
                [](Job& j) { each_item(j, Part::panel_feed, [](auto& row) { row.data["rating"] = 10; }); })},
        {"electric.split", proved(wash_house, on_one_breaker)},
        {"electric.disconnect.heater-<n>",
         proved(wash_house, [](Job& j) { become(j, Part::disconnect, Part::cable); })},
        {"electric.link.heater-<n>",
         laid(wash_house,
              [](Job& j) { each_item(j, Part::link_cable, [](auto& row) { row.data["length"] = 0.01; }); })},
        {"electric.panel-space", proved(wash_house,
                                        [](Job& j) {
                                            const Vec at = panel_at(j) + 0.4 * j.survey.room.panel.facing;
                                            piece(j, "heater-4").solids = {about(at, {0.3, 0.3, 0.5})};
                                        })},
        {"electric.panel-dedicated",
         proved(wash_house,
                [](Job& j) {
                    const Vec at = panel_at(j);
                    piece(j, "main.hot.pipe-1").solids = {about({at.x, at.y, 2.2}, {0.3, 0.3, 0.1})};
                })},
        {"electric.panel", as_built(wash_house)},
        {"plant.clearance.cables", proved(wash_house,
                                          [](Job& j) {
                                              const auto hot = piece(j, "bank-1.hot.header.pipe-2").solids;
                                              for (auto& p : j.built.plant.pieces)
                                                  if (p.part == Part::cable) p.solids = hot;
                                          })},
        {"structure.bracket.heater-<n>",
         proved(wash_house, [](Job& j) { each_item(j, Part::bracket, [](auto& row) { row.data["load"] = 100; }); })},
        {"structure.feet.bank-<b>",
         proved(racked, [](Job& j) { each_item(j, Part::foot, [](auto& row) { row.data["load"] = 1; }); })},
        {"structure.bolted.bank-<b>",
         proved(racked, [](Job& j) { take_out(j, [](auto& p) { return p.part == Part::anchor; }); })},
        {"structure.tie.bank-<b>",
         proved(racked, [](Job& j) { take_out(j, [](auto& p) { return p.part == Part::anchor; }); })},
        {"structure.fixing.bank-<b>",
         laid(wash_house, [](Job& j) { walls(j, [](auto& w) {
                                           w.build = {survey::WallBuild::steel_stud, false};
                                       }); })},
        {"structure.wall.bank-<b>", as_built(wash_house)},
        {"structure.floor", as_built(wash_house)},
        {"structure.anchors", as_built(wash_house)},
        {"structure.seismic", proved(wash_house, [](Job& j) { j.survey.seismic.sds.reset(); })},
        {"structure.seismic.bank-<b>", proved(racked,
                                              [](Job& j) {
                                                  j.survey.seismic.sds = 0.5;
                                                  j.layout.banks.front().rack = plant::stations::free_standing;
                                                  take_out(j, [](auto& p) { return p.part == Part::anchor; });
                                              })},
        {"structure.seismic.pipe", proved(wash_house, [](Job& j) { j.survey.seismic.sds = 0.5; })},
        {"structure.hangers.<service>",
         proved(wash_house, [](Job& j) { take_out(j, [](auto& p) { return p.part == Part::hanger; }); })},
        {"structure.hang.<piece>", laid(wash_house, floored_over)},
        {"structure.hanger-load.<service>",
         proved(wash_house, [](Job& j) { piece(j, "bank-1.cold.header.pipe-3").water = 2; })},
        {"structure.turns",
         proved(hostel, [](Job& j) { take_out(j, [](auto& p) { return p.part == Part::hanger; }); })},
        {"structure.movement.<service>", proved(hostel,
                                                [](Job& j) {
                                                    j.survey.temperatures.distribution = {fahrenheit(900), false};
                                                })},
        {"structure.movement.branches", proved(wash_house,
                                               [](Job& j) {
                                                   each_item(j, Part::flexible_water,
                                                             [](auto& row) { row.data["offset-greatest"] = 0; });
                                               })},
        {"structure.movement.exhaust", proved(wash_house,
                                              [](Job& j) {
                                                  for (auto& joint : j.built.plant.joints)
                                                      joint.kind = plant::JointKind::solvent;
                                              })},
        {"layout.fit", designed([](survey::Survey& s) {
             s.room.plan = {{0, 0}, {1.5, 0}, {1.5, 1.2}, {0, 1.2}};
             s.preferences.place.reset();
         })},
        {"room.working-space.heater-<n>",
         proved(wash_house,
                [](Job& j) {
                    const auto box = shape::bounds(piece(j, "heater-4").solids.front());
                    j.survey.room.obstacles.push_back(
                        {"crate", Box{{box.min.x, box.max.y + 0.3, 0}, {box.max.x, box.max.y + 0.8, 1}}});
                })},
        {"room.side.heater-<n>", proved(wash_house, [](Job& j) { heater(j).gap_side = 2.0 * metre; })},
        {"room.above", proved(wash_house, [](Job& j) { heater(j).gap_top = 5.0 * metre; })},
        {"room.below", proved(wash_house, [](Job& j) { heater(j).gap_bottom = 5.0 * metre; })},
        {"room.lift.heater-<n>", proved(wash_house, [](Job& j) { beam_over(j, "heater-3"); })},
        {"room.lift", proved(wash_house,
                             [](Job& j) {
                                 for (int n = 1; n <= 8; ++n) beam_over(j, "heater-" + std::to_string(n));
                             })},
        {"room.lift.unknown",
         proved(wash_house, [](Job& j) { each_item(j, Part::bracket, [](auto& row) { row.data.erase("lift"); }); })},
        {"room.slope", proved(wash_house,
                              [](Job& j) {
                                  j.survey.room.slope = survey::CeilingSlope{0, 1.5 * metre};
                              })},
        {"room.combustible.wall-<w>", proved(racked,
                                             [](Job& j) {
                                                 walls(j, [](auto& w) { w.combustible = {true, false}; });
                                                 heater(j).combustible = 0.899 * metre;
                                             })},
        {"plant.clearance.combustible",
         proved(wash_house,
                [](Job& j) {
                    walls(j, [](auto& w) { w.combustible = {true, false}; });
                    piece(j, "main.hot.pipe-1").solids = {shape::Cylinder{{2, 0.03, 1.5}, {3, 0.03, 1.5}, 0.025}};
                })},
        {"room.pressure-vessel", proved(wash_house, [](Job& j) { heater(j).input_greatest = 250.0 * kbtu_per_hour; })},
        {"room.input", as_built(wash_house)},
        {"room.firestop.wall-<w>",
         proved(wash_house, [](Job& j) { walls(j, [](auto& w) {
                                             w.rated = {true, false};
                                         }); })},
        {"room.rating", as_built(wash_house)},
        {"safety.emergency-stop",
         proved(wash_house, [](Job& j) { become(j, Part::emergency_stop, Part::disconnect); })},
        {"safety.co-alarm", proved(wash_house,
                                   [](Job& j) {
                                       j.survey.co_alarm_required = {true, false};
                                       become(j, Part::co_alarm, Part::coupling);
                                   })},
        {"safety.codes", as_built(wash_house)},
        {"safety.amendments", as_built(wash_house)},
        {"plant.lawful",
         proved(wash_house, [](Job& j) { j.built.plant = without(j.built.plant, {"bank-1.gas.header.cap"}); })},
        {"plant.clash",
         proved(wash_house, [](Job& j) { piece(j, "heater-2.gas.valve").solids = piece(j, "heater-5").solids; })},
        {"plant.clearance.insulation", as_built(wash_house)},
        {"plant.clearance.hand", proved(wash_house, wall_in_a_valve)},
        {"parts.main.<service>.<thing>",
         laid(wash_house, [](Job& j) { each_item(j, Part::ball_valve, [](auto& row) { row.run = 8.0 * metre; }); })},
    };
    return table;
}

}  // namespace bw::tests
