// SPDX-License-Identifier: MIT
// What carries the plant, over a bank that stands in an empty room with headers of its own.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <map>
#include <set>

#include "code/gas_rules.h"
#include "jobs.h"
#include "piping/kit/builder.h"

using namespace bw;
using testing::IsEmpty;
using text::Part;

namespace {

struct Raised {
    plant::Plant plant;
    std::vector<reason::Check> findings;
    std::string error;
};

/// Heaters and headers of one layout with what carries them.
Raised raise(const tests::Job& job, const plant::Layout& layout) {
    const auto& catalogue = tests::demo_catalogue();
    const auto ground = piping::laying_inputs({job.survey, job.demand, job.capacity}, catalogue,
                                              *catalogue.heater(job.capacity.heater), layout);
    piping::Builder b(std::make_shared<piping::LayingInputs>(ground.value()));
    piping::add_heaters(b);
    // a gas line along every bank stands for its headers
    for (const auto& bank : layout.banks) {
        piping::Line line{.service = text::Service::gas,
                          .material = text::Material::steel_40,
                          .size = {16},
                          .name = "bank-" + std::to_string(bank.number) + ".gas.header",
                          .bank = bank.number};
        const auto start = bank.place({0, bank.back_plane > 0 ? 0 : 4 * 0.0254, bank.bottom - 34 * 0.0254});
        const auto along = bank.place.turn({1, 0, 0});
        const auto open = b.site("site.gas-" + std::to_string(bank.number), line.service, start, along, line.size);
        b.cap(line, b.pipe(line, open, piping::snap(bank.length - 6 * 0.0254)));
    }
    piping::add_structure(b);
    Raised out{b.built.plant, b.built.findings, ""};
    if (b.error()) out.error = units::describe(*b.error());
    return out;
}

/// Every layout of the examples, one of each family.
std::vector<std::pair<tests::Job, plant::Layout>> cases() {
    std::vector<std::pair<tests::Job, plant::Layout>> out;
    for (const auto& name : tests::example_names()) {
        const auto job = tests::job_of(name);
        std::set<std::string> families;
        for (const auto& layout : job.layouts.candidates)
            if (families.insert(layout.id.substr(0, layout.id.find('.'))).second) out.emplace_back(job, layout);
    }
    return out;
}

/// Laws but for what this partial plant leaves open: heater ports of other services.
std::vector<std::string> structural_faults(const plant::Plant& plant) {
    std::vector<std::string> out;
    for (auto& fault : plant::unlawful(plant))
        if (!(fault.starts_with("heater-") && fault.find("joined to nothing") != std::string::npos &&
              fault.find("'mount'") == std::string::npos && fault.find("bracket") == std::string::npos))
            out.push_back(std::move(fault));
    return out;
}

}  // namespace

TEST(Structure, KeepsTheLawsOnEveryArrangement) {
    std::set<plant::Arrangement> seen;
    for (const auto& [job, layout] : cases()) {
        const Raised raised = raise(job, layout);
        ASSERT_EQ(raised.error, "") << job.name << " " << layout.id;
        EXPECT_THAT(structural_faults(raised.plant), IsEmpty()) << job.name << " " << layout.id;
        seen.insert(layout.arrangement);
    }
    EXPECT_EQ(seen.size(), 3u);
}

TEST(Structure, EveryHeaterHangsOnABracketTiedToTheBuilding) {
    for (const auto& [job, layout] : cases()) {
        const auto plant = raise(job, layout).plant;
        for (int n = 1; n <= job.capacity.installed; ++n) {
            const int heater = plant.find("heater-" + std::to_string(n));
            ASSERT_GE(heater, 0);
            const auto mate = plant.mate({heater, plant.port(heater, "mount")});
            ASSERT_GE(mate.piece, 0) << layout.id;
            EXPECT_EQ(plant.pieces[static_cast<std::size_t>(mate.piece)].part, Part::bracket);
        }
    }
}

TEST(Structure, EveryFootOfARackIsAnchoredAndCarriesItsPost) {
    for (const auto& [job, layout] : cases()) {
        const auto plant = raise(job, layout).plant;
        int feet = 0;
        for (int i = 0; i < static_cast<int>(plant.pieces.size()); ++i) {
            const auto& foot = plant.pieces[static_cast<std::size_t>(i)];
            if (foot.part != Part::foot) continue;
            ++feet;
            std::multiset<Part> carried;
            for (int p = 0; p < static_cast<int>(foot.ports.size()); ++p)
                carried.insert(plant.pieces[static_cast<std::size_t>(plant.mate({i, p}).piece)].part);
            EXPECT_EQ(carried, (std::multiset<Part>{Part::frame_post, Part::anchor, Part::anchor}));
            EXPECT_GT(foot.mass_dry, 0);
        }
        const bool rack = layout.arrangement != plant::Arrangement::wall;
        if (rack) {
            int posts = 0;  // a frame that its feet hold stands on two rows of them, a tied one on one
            for (const auto& bank : layout.banks) posts += bank.rack.tied == plant::stations::Tied::feet ? 4 : 2;
            EXPECT_GE(feet, posts);
        } else {
            EXPECT_EQ(feet, 0);
        }
    }
}

TEST(Structure, HeadersAreHeldNoFartherApartThanTheGasCodeAllows) {
    const double limit = code::gas_support_spacing({16}).value.value();
    for (const auto& [job, layout] : cases()) {
        const Raised raised = raise(job, layout);
        EXPECT_THAT(std::count_if(raised.findings.begin(), raised.findings.end(),
                                  [](const auto& f) { return f.id.starts_with("structure.hang."); }),
                    0);
        for (const auto& bank : layout.banks) {
            const auto along = bank.place.turn({1, 0, 0});
            std::vector<double> held{0, bank.length - 6 * 0.0254};
            for (const auto& piece : raised.plant.pieces)
                if (piece.part == Part::hanger && piece.bank == bank.number)
                    held.push_back(shape::dot(piece.ports[0].at - bank.place.origin, along));
            EXPECT_GT(held.size(), bank.stands.size() > 1 ? 3u : 2u) << layout.id;
            std::sort(held.begin(), held.end());
            for (std::size_t i = 1; i < held.size(); ++i) EXPECT_LE(held[i] - held[i - 1], limit + 1e-9) << layout.id;
        }
    }
}

TEST(Structure, PostsAndArmsStandClearOfHeatersAndPipe) {
    for (const auto& [job, layout] : cases()) {
        const auto plant = raise(job, layout).plant;
        for (const auto& a : plant.pieces) {
            if (a.part != Part::frame_post && a.part != Part::strut && a.part != Part::frame_rail) continue;
            for (const auto& c : plant.pieces) {
                if (c.part != Part::heater && c.part != Part::pipe) continue;
                for (const auto& s : a.solids)
                    for (const auto& t : c.solids)
                        EXPECT_FALSE(shape::overlap(shape::bounds(s), shape::bounds(t), 1e-4))
                            << layout.id << " " << a.id << " " << c.id;
            }
        }
    }
}
