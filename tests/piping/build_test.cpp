// SPDX-License-Identifier: MIT
// Whole plants built from the examples, in every layout that fits.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "clash.h"
#include "jobs.h"
#include "network/regulator.h"
#include "network/service_tree.h"
#include "piping/kit/builder.h"

namespace bw::tests {
namespace {

using plant::Piece;
using plant::Plant;
using text::Part;
using text::Service;

struct Whole {
    std::string name;
    const plant::Layout* layout = nullptr;
    piping::Built built;
    int heaters = 0;
};

struct Tried {
    std::vector<Whole> built;
    std::vector<std::string> refused;  ///< what each layout that could not be built failed for
};

const std::vector<Job>& jobs() {
    static const std::vector<Job> all = [] {
        std::vector<Job> made;
        for (const auto& name : example_names()) made.push_back(job_of(name));
        return made;
    }();
    return all;
}

const Tried& plants() {
    static const Tried tried = [] {
        Tried all;
        for (const auto& job : jobs()) {
            for (const auto& layout : job.layouts.candidates) {
                auto built = piping::build(job.survey, demo_catalogue(), job.demand, job.capacity, layout);
                const std::string name = job.name + " " + layout.id;
                if (built)
                    all.built.push_back({name, &layout, std::move(*built), job.capacity.installed});
                else
                    all.refused.push_back(name + ": " + built.error().what);
            }
        }
        return all;
    }();
    return tried;
}

bool water_or_gas(Service service) {
    return service == Service::gas || service == Service::cold || service == Service::hot ||
           service == Service::recirculation;
}

TEST(Build, EveryExampleHasALayoutThatIsBuilt) {
    for (const auto& job : jobs()) {
        const bool any = std::ranges::any_of(
            plants().built, [&](const Whole& whole) { return whole.name.starts_with(job.name + " "); });
        EXPECT_TRUE(any) << job.name << "\n" << testing::PrintToString(plants().refused);
    }
}

TEST(Build, LayoutsThatCannotBeBuiltSayWhatIsInTheWay) {
    for (const auto& text : plants().refused)
        EXPECT_THAT(text,
                    testing::AnyOf(testing::HasSubstr("route"), testing::HasSubstr("place"), testing::HasSubstr("room"),
                                   testing::HasSubstr("leg"), testing::HasSubstr("pipe")));
}

TEST(Build, EveryPlantKeepsTheLaws) {
    for (const auto& whole : plants().built)
        EXPECT_THAT(plant::unlawful(whole.built.plant), testing::IsEmpty()) << whole.name;
}

TEST(Build, NoTwoPiecesOfGasAndWaterShareRoom) {
    for (const auto& whole : plants().built) {
        Plant pipes = whole.built.plant;  // joints and indices stay; other services lose their bodies
        for (auto& piece : pipes.pieces)
            if (!water_or_gas(piece.service) && piece.part != Part::heater) piece.solids.clear();
        EXPECT_THAT(clashes(pipes), testing::IsEmpty()) << whole.name;
    }
}

TEST(Build, EveryHeaterIsReachedByGasColdAndHot) {
    for (const auto& whole : plants().built) {
        for (Service service : {Service::gas, Service::cold, Service::hot}) {
            const int root = whole.built.plant.find("site." + std::string(text::name(service)));
            const auto tree = network::trace_service(whole.built.plant, service, root);
            ASSERT_TRUE(tree) << whole.name << ": " << tree.error().what;
            ASSERT_EQ(static_cast<int>(tree->leaf.size()), whole.heaters) << whole.name;
            for (int leaf : tree->leaf) EXPECT_GE(leaf, 0) << whole.name;
            EXPECT_EQ(tree->traversals.front().heaters, whole.heaters) << whole.name;
        }
    }
}

TEST(Build, GasPassesValveUnionAndTrapInThatOrder) {
    for (const auto& whole : plants().built) {
        const Plant& plant = whole.built.plant;
        const auto tree = network::trace_service(plant, Service::gas, plant.find("site.gas"));
        ASSERT_TRUE(tree);
        for (int heater = 1; heater <= whole.heaters; ++heater) {
            std::vector<std::string> met;
            for (int at : network::path_to(*tree, heater)) {
                const auto& passage = tree->traversals[static_cast<std::size_t>(at)];
                const Piece& piece = plant.pieces[static_cast<std::size_t>(passage.piece)];
                if (piece.heater != heater) continue;
                if (piece.id.ends_with(".trap")) {
                    const auto& out = piece.ports[static_cast<std::size_t>(passage.out)];
                    EXPECT_EQ(piece.ports[static_cast<std::size_t>(passage.in)].name, "branch") << piece.id;
                    EXPECT_EQ(out.facing, shape::up) << piece.id;
                }
                const auto dot = piece.id.rfind('.');
                const std::string last = piece.id.substr(dot + 1);
                if (last == "valve" || last == "union" || last == "trap" || last == "flexible") met.push_back(last);
            }
            EXPECT_THAT(met, testing::ElementsAre("valve", "union", "trap", "flexible"))
                << whole.name << " heater " << heater;
        }
    }
}

TEST(Build, PocketOfEachTrapIsCappedAndLowest) {
    for (const auto& whole : plants().built) {
        const Plant& plant = whole.built.plant;
        for (int heater = 1; heater <= whole.heaters; ++heater) {
            const std::string name = "heater-" + std::to_string(heater) + ".gas.";
            const int pocket = plant.find(name + "trap-pocket"), cap = plant.find(name + "trap-cap");
            ASSERT_GE(pocket, 0) << whole.name;
            ASSERT_GE(cap, 0) << whole.name;
            EXPECT_GE(plant.pieces[static_cast<std::size_t>(pocket)].cut, 3 * 0.0254 - 1e-9);
            const double bottom = plant.pieces[static_cast<std::size_t>(cap)].ports[0].at.z;
            for (const auto& piece : plant.pieces) {
                if (!piece.id.starts_with(name)) continue;
                for (const auto& port : piece.ports) EXPECT_GE(port.at.z, bottom - 1e-9) << piece.id;
            }
        }
    }
}

TEST(Build, NoPieceOfPipeIsTooShortToMakeUp) {
    for (const auto& whole : plants().built) {
        for (const auto& piece : whole.built.plant.pieces) {
            if (piece.part != Part::pipe || !water_or_gas(piece.service)) continue;
            const auto* row = demo_catalogue().pipe(piece.item);
            ASSERT_NE(row, nullptr) << piece.item;
            EXPECT_GE(piece.cut, piping::shortest(row->material, row->size) - 1e-6) << whole.name << " " << piece.id;
            EXPECT_LE(piece.cut, row->stock.value() + 1e-6) << whole.name << " " << piece.id;
        }
    }
}

TEST(Build, GasPipeNeverGrowsAwayFromTheConnection) {
    for (const auto& whole : plants().built) {
        const Plant& plant = whole.built.plant;
        const auto tree = network::trace_service(plant, Service::gas, plant.find("site.gas"));
        ASSERT_TRUE(tree);
        const auto size_of = [&](std::string_view prefix) {
            for (const auto& piece : plant.pieces)
                if (piece.part == Part::pipe && piece.id.starts_with(prefix)) return piece.size;
            return units::Nominal{};
        };
        for (const auto& bank : whole.layout->banks) {
            const auto header = size_of("bank-" + std::to_string(bank.number) + ".gas.header.pipe");
            EXPECT_LE(size_of("heater-" + std::to_string(bank.stands.front().number) + ".gas.pipe"), header)
                << whole.name;
        }
    }
}

TEST(Build, MoreBanksThanOneEachHaveTheirValves) {
    for (const auto& whole : plants().built) {
        if (whole.layout->banks.size() < 2) continue;
        for (const auto& bank : whole.layout->banks)
            for (const char* service : {"gas", "cold", "hot"}) {
                const std::string id =
                    std::string("main.") + service + ".bank-" + std::to_string(bank.number) + "-valve";
                const std::string missing =
                    std::string("parts.main.") + service + ".bank-" + std::to_string(bank.number) + "-valve";
                const bool told = std::ranges::any_of(whole.built.findings,
                                                      [&](const reason::Check& check) { return check.id == missing; });
                EXPECT_TRUE(whole.built.plant.find(id) >= 0 || told) << whole.name << " " << id;
            }
    }
}

TEST(Build, SameInputGivesTheSamePieces) {
    const Job& job = jobs().front();
    const auto& tried = plants();
    ASSERT_FALSE(tried.built.empty());
    const Whole& first = tried.built.front();
    ASSERT_TRUE(first.name.starts_with(job.name));
    const auto again = piping::build(job.survey, demo_catalogue(), job.demand, job.capacity, *first.layout);
    ASSERT_TRUE(again);
    ASSERT_EQ(again->plant.pieces.size(), first.built.plant.pieces.size());
    for (std::size_t i = 0; i < again->plant.pieces.size(); ++i) {
        EXPECT_EQ(again->plant.pieces[i].id, first.built.plant.pieces[i].id);
        EXPECT_EQ(again->plant.pieces[i].cut, first.built.plant.pieces[i].cut);
    }
}

TEST(Build, ElevatedGasPressureGetsARegulatorBetweenShutOffAndHeaters) {
    Job job = jobs().front();
    job.survey.gas.delivery_pressure.value = 2.0 * units::psi;
    job.survey.gas.allowed_drop.value = 1.0 * units::psi;
    for (const auto& layout : job.layouts.candidates) {
        const auto built = piping::build(job.survey, demo_catalogue(), job.demand, job.capacity, layout);
        if (!built) continue;
        const Plant& plant = built->plant;
        const auto tree = network::trace_service(plant, Service::gas, plant.find("site.gas"));
        ASSERT_TRUE(tree);
        std::vector<Part> met;
        for (int at : network::path_to(*tree, 1)) {
            const Part part =
                plant.pieces[static_cast<std::size_t>(tree->traversals[static_cast<std::size_t>(at)].piece)].part;
            if (part == Part::regulator || part == Part::heater || (part == Part::gas_valve && met.empty()))
                met.push_back(part);
        }
        EXPECT_THAT(met, testing::ElementsAre(Part::gas_valve, Part::regulator, Part::heater));
        return;
    }
    FAIL() << "no layout could be built";
}

/// A little over what the heaters take, a regulator has little to work with and passes a part of what it states.
TEST(Build, LittlePressureBeforeTheRegulatorGetsALargerOne) {
    const auto size_at = [](units::Pressure delivery) -> std::optional<units::Nominal> {
        Job job = jobs().front();
        job.survey.gas.delivery_pressure.value = delivery;
        job.survey.gas.allowed_drop.value = 0.5 * units::inch_water;
        for (const auto& layout : job.layouts.candidates) {
            const auto built = piping::build(job.survey, demo_catalogue(), job.demand, job.capacity, layout);
            if (!built) continue;
            for (const auto& piece : built->plant.pieces) {
                if (piece.part != Part::regulator) continue;
                const auto* row = demo_catalogue().item(piece.item);
                const auto load = static_cast<double>(job.capacity.installed) *
                                  demo_catalogue().heater(job.capacity.heater)->input_greatest /
                                  *job.survey.gas.heating_value;
                EXPECT_GE(network::regulator_passes(*row, delivery - 0.5 * units::inch_water), load);
                return piece.size;
            }
        }
        return std::nullopt;
    };
    const auto ample = size_at(2.0 * units::psi), little = size_at(12.0 * units::inch_water);
    ASSERT_TRUE(ample && little);
    EXPECT_GT(*little, *ample);
}

TEST(Regulator, PassesWithTheRootOfThePressureAcrossIt) {
    for (const auto* row : demo_catalogue().of(Part::regulator)) {
        const auto at = [&](double inlet) {
            return network::regulator_passes(*row, units::Pressure::from_value(inlet)).value();
        };
        const double stated = *row->number("capacity-inlet"), outlet = *row->number("outlet"),
                     most = *row->number("capacity");
        EXPECT_DOUBLE_EQ(at(stated), most);
        EXPECT_DOUBLE_EQ(at(2 * stated), most);
        EXPECT_NEAR(at(outlet + (stated - outlet) / 4), most / 2, most * 1e-9);
        EXPECT_EQ(at(outlet), 0);
        EXPECT_EQ(at(outlet / 2), 0);
    }
}

TEST(Build, MaterialThatMayNotCarryGasIsRefused) {
    Job job = jobs().front();
    job.survey.preferences.gas_pipe.value = text::Material::cpvc;
    const auto built =
        piping::build(job.survey, demo_catalogue(), job.demand, job.capacity, job.layouts.candidates.front());
    ASSERT_FALSE(built);
    EXPECT_THAT(built.error().what, testing::HasSubstr("cpvc"));
}

}  // namespace
}  // namespace bw::tests
