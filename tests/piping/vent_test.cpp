// SPDX-License-Identifier: MIT
#include "piping/vent/vent.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <numeric>
#include <set>

#include "services.h"

namespace bw::piping {
namespace {

using namespace tests;
using testing::HasSubstr;

constexpr double in = 0.0254;

survey::Room room_20_by_14() {
    survey::Room room;
    const double x = 240 * in, y = 168 * in;
    room.plan = {{0, 0}, {x, 0}, {x, y}, {0, y}};
    room.walls.resize(4);
    for (int i = 0; i < 4; ++i) room.walls[static_cast<std::size_t>(i)].number = i + 1;
    room.ceiling.value = 120.0 * units::inch;
    return room;
}
survey::Connection in_wall_2(double y) {
    survey::Connection outlet;
    outlet.given = true;
    outlet.at = {240 * in, y, 108 * in};
    outlet.facing = {-1, 0, 0};
    return outlet;
}

TEST(Vent, RowsArePartedEvenlyAndNobodyIsLost) {
    for (int total = 1; total <= 16; ++total)
        for (int parts = 1; parts <= total; ++parts) {
            const auto sizes = parted(total, parts);
            EXPECT_EQ(std::accumulate(sizes.begin(), sizes.end(), 0), total);
            EXPECT_LE(*std::ranges::max_element(sizes) - *std::ranges::min_element(sizes), 1);
        }
}

TEST(Vent, TerminalsStandInARowAboutTheOutlet) {
    const auto room = room_20_by_14();
    const auto row = terminal_row(room, in_wall_2(84 * in), 4, 12 * in, 6 * in);
    ASSERT_TRUE(row.has_value());
    ASSERT_EQ(row->size(), 4U);
    for (int i = 0; i < 4; ++i) {
        EXPECT_NEAR((*row)[static_cast<std::size_t>(i)].y, (84 - 18 + 12 * i) * in, 1e-9);
        EXPECT_NEAR((*row)[static_cast<std::size_t>(i)].x, 240 * in, 1e-9);
    }
}

TEST(Vent, ARowNearACornerMovesAlongTheWall) {
    const auto row = terminal_row(room_20_by_14(), in_wall_2(160 * in), 3, 12 * in, 8 * in);
    ASSERT_TRUE(row.has_value());
    EXPECT_NEAR(row->back().y, (168 - 8) * in, 1e-9);
    EXPECT_NEAR(row->front().y, (168 - 8 - 24) * in, 1e-9);
}

TEST(Vent, TooManyTerminalsForAWallAreRefusedWithItsNumber) {
    const auto row = terminal_row(room_20_by_14(), in_wall_2(84 * in), 15, 12 * in, 6 * in);
    ASSERT_FALSE(row.has_value());
    EXPECT_THAT(row.error().what, HasSubstr("wall 2 is 168 in long"));
}

TEST(Vent, EveryHeaterBreathesOutOutdoors) {
    for (const auto& name : example_names()) {
        const auto& p = plant_of(name);
        const auto& plant = p.built.plant;
        for (int n = 1; n <= p.job.capacity.installed; ++n) {
            const auto port = heater_port_of(plant, n, "exhaust");
            const auto way = way_to(plant, port, text::Part::vent_terminal);
            ASSERT_FALSE(way.empty()) << name << " heater " << n;
            const auto at = plant.pieces[static_cast<std::size_t>(way.back())].ports.front().at;
            EXPECT_FALSE(shape::inside(p.job.survey.room.plan, {at.x, at.y}) &&
                         at.z < p.job.survey.room.ceiling->value())
                << name << " heater " << n;
        }
    }
}

TEST(Vent, ACommonVentKeepsToTheListing) {
    int commons = 0;
    for (const auto& name : example_names()) {
        const auto& p = plant_of(name);
        const auto& plant = p.built.plant;
        std::map<int, int> on_terminal;
        for (int n = 1; n <= p.job.capacity.installed; ++n)
            ++on_terminal[way_to(plant, heater_port_of(plant, n, "exhaust"), text::Part::vent_terminal).back()];
        for (const auto& [terminal, heaters] : on_terminal) {
            if (heaters < 2) continue;
            ++commons;
            const auto size = plant.pieces[static_cast<std::size_t>(terminal)].size;
            const auto& limits = heater_of(p).common_vents;
            const auto limit = std::ranges::find(limits, size, &catalogue::CommonVentLimit::size);
            ASSERT_NE(limit, limits.end()) << name;
            EXPECT_LE(heaters, limit->most) << name;
        }
    }
    EXPECT_GT(commons, 0) << "no example has a common vent: this test proves nothing";
}

TEST(Vent, ADamperStandsBetweenEachHeaterAndTheCommonPipe) {
    const auto& p = plant_of("hostel");
    const auto& plant = p.built.plant;
    for (int n = 1; n <= p.job.capacity.installed; ++n) {
        const auto way = way_to(plant, heater_port_of(plant, n, "exhaust"), text::Part::vent_tee);
        ASSERT_FALSE(way.empty());
        const bool damped = std::ranges::any_of(
            way, [&](int i) { return plant.pieces[static_cast<std::size_t>(i)].part == text::Part::vent_damper; });
        EXPECT_TRUE(damped) << "heater " << n;
    }
}

TEST(Vent, PlannedLengthsAreThoseOfThePieces) {
    for (const auto& name : example_names()) {
        const auto& p = plant_of(name);
        for (const auto& sizing : p.built.sizes) {
            if (sizing.service != text::Service::exhaust) continue;
            const auto step = std::ranges::find_if(sizing.derivation,
                                                   [](const auto& s) { return s.result && s.result->symbol == "L"; });
            ASSERT_NE(step, sizing.derivation.end()) << name << " " << sizing.what;
            double pipe = 0;
            for (const auto& piece : p.built.plant.pieces)
                if (piece.part == text::Part::vent_pipe && piece.id.starts_with(sizing.what + ".")) pipe += piece.cut;
            // fittings take the rest of the centre line; equivalents of elbows come on top where single
            EXPECT_GT(step->result->amount.si, pipe * 0.9) << name << " " << sizing.what;
        }
    }
}

TEST(Vent, ChemistryInTheAirForbidsRoomAir) {
    const auto p = plant_with("wash-house", [](auto& survey) {
        survey.use.chemistry_in_air = true;
        survey.preferences.room_air.value = true;
    });
    for (const auto& piece : p.built.plant.pieces) {
        if (piece.part != text::Part::intake_terminal) continue;
        const auto at = piece.ports.front().at;
        EXPECT_FALSE(shape::inside(p.job.survey.room.plan, {at.x, at.y})) << piece.id;
    }
    EXPECT_TRUE(std::ranges::any_of(p.built.findings, [](const auto& c) { return c.id == "air.room-air"; }));
}

TEST(Vent, AHeaterWithoutAListingNeverSharesAVent) {
    auto survey = job_of("sports-hall").survey;
    survey.use.fixtures.clear();
    survey.use.blocks.front().count = 4;
    survey.preferences.heater = "demo-120";
    survey.preferences.vent.value = survey::VentPreference::any;
    const auto job = job_from("sports-hall", survey);
    ASSERT_FALSE(job.layouts.candidates.empty());
    // capacity refuses a preference the listing forbids; the choice holds to the listing by itself all the same
    survey.preferences.vent.value = survey::VentPreference::common;
    const auto ground = laying_inputs({survey, job.demand, job.capacity}, demo_catalogue(),
                                      *demo_catalogue().heater("demo-120"), job.layouts.candidates.front());
    Builder b(std::make_shared<LayingInputs>(ground.value()));
    EXPECT_EQ(choose_vents(b).style, VentStyle::single);
    const auto& findings = b.built.findings;
    const auto finding = std::ranges::find(findings, std::string("vent.common.listing"), &reason::Check::id);
    ASSERT_NE(finding, findings.end());
    EXPECT_EQ(finding->status, reason::Status::fail);
}

TEST(Vent, HolesInARatedWallAreStopped) {
    const auto p = plant_with("hostel", [](auto& survey) {
        for (auto& wall : survey.room.walls) wall.rated.value = true;
    });
    const auto& plant = p.built.plant;
    EXPECT_EQ(count(plant, text::Part::firestop),
              count(plant, text::Part::vent_terminal) + count(plant, text::Part::intake_terminal));
}

}  // namespace
}  // namespace bw::piping
