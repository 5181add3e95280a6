// SPDX-License-Identifier: MIT
#include "spoilers.h"

#include <gtest/gtest.h>

#include "layout/layout.h"

namespace bw::tests {
std::function<Checks()> proved(const Job& (*base)(), Spoil spoil) {
    return [=] {
        Job job = base();
        spoil(job);
        if (!job.catalogue.index()) ADD_FAILURE() << "the catalogue cannot be spoiled so";
        return job.prove();
    };
}

std::function<Checks()> as_built(const Job& (*base)()) {
    return [=] { return base().prove(); };
}

std::function<Checks()> laid(const Job& (*base)(), Spoil spoil) {
    return [=] {
        Job job = base();
        spoil(job);
        if (!job.catalogue.index()) ADD_FAILURE() << "the catalogue cannot be spoiled so";
        auto layouts = layout::candidates(job.survey, heater(job), job.capacity.installed).candidates;
        layouts.insert(layouts.begin(), job.layout);
        std::string refused;
        for (const auto& layout : layouts) {
            auto built = piping::build(job.survey, job.catalogue, job.demand, job.capacity, layout);
            if (built) return built->findings;
            refused = units::describe(built.error());
        }
        ADD_FAILURE() << "no plant can be laid so: " << refused;
        return Checks{};
    };
}

std::function<Checks()> advised(const Job& (*base)(), Spoil spoil) {
    return [=] {
        Job job = base();
        spoil(job);
        const auto demand = demand::peak_demand(job.survey);
        const auto capacity = demand ? demand::capacity_of(job.survey, *demand, job.catalogue, heater(job))
                                     : Result<demand::Capacity>(tl::unexpected(demand.error()));
        if (capacity) return capacity->advice;
        ADD_FAILURE() << units::describe(capacity.error());
        return Checks{};
    };
}

catalogue::Heater& heater(Job& job) {
    for (auto& one : job.catalogue.heaters)
        if (one.key == job.capacity.heater) return one;
    std::abort();
}

void each_item(Job& job, text::Part part, const std::function<void(catalogue::Item&)>& change) {
    for (auto& item : job.catalogue.items)
        if (item.part == part) change(item);
}

void become(Job& job, text::Part part, text::Part other) {
    for (auto& piece : job.built.plant.pieces)
        if (piece.part == part) piece.part = other;
}

void take_out(Job& job, const std::function<bool(const plant::Piece&)>& which) {
    std::vector<std::string> ids;
    for (const auto& piece : job.built.plant.pieces)
        if (which(piece)) ids.push_back(piece.id);
    EXPECT_FALSE(ids.empty()) << "nothing to take out";
    job.built.plant = without(job.built.plant, ids);
}

}  // namespace bw::tests
