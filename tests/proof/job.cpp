// SPDX-License-Identifier: MIT
#include "job.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <iostream>

#include "layout/layout.h"

namespace bw::tests {
namespace {

template <class T>
T take(Result<T> result) {
    if (result) return std::move(*result);
    std::cerr << units::describe(result.error()) << "\n";
    std::abort();
}

using Change = void (*)(survey::Survey&);

/// In the first place where nothing fails.
Job first_built(
    const std::string& name, Change change = [](survey::Survey&) {}) {
    Job job;
    job.survey = take(survey::read(std::string(BANKWRIGHT_SOURCE) + "/examples/" + name + ".toml"));
    change(job.survey);
    job.catalogue = take(catalogue::load());
    job.demand = take(demand::peak_demand(job.survey));
    job.capacity = take(demand::capacity(job.survey, job.demand, job.catalogue));
    const auto& heater = *job.catalogue.heater(job.capacity.heater);
    for (const auto& layout : layout::candidates(job.survey, heater, job.capacity.installed).candidates) {
        auto built = piping::build(job.survey, job.catalogue, job.demand, job.capacity, layout);
        if (!built) continue;
        job.layout = layout;
        job.built = std::move(*built);
        const auto fails = [](const auto& check) { return check.status == reason::Status::fail; };
        if (std::ranges::none_of(job.prove(), fails)) return job;
    }
    std::cerr << name << ": no layout could be built without a failing check\n";
    std::abort();
}

}  // namespace

const Job& hostel() {
    static const Job job = first_built("hostel");
    return job;
}

std::vector<reason::Check> Job::prove() const {
    const auto& heater = *catalogue.heater(capacity.heater);
    const auto hydraulics = network::solve(built.plant, catalogue, {survey, heater, demand, capacity});
    return proof::prove({survey, catalogue, heater, demand, capacity, layout, built, hydraulics});
}

const Job& wash_house() {
    // machines enough for eight heaters, in one bank with a common vent
    static const Job job = first_built("wash-house", [](survey::Survey& s) {
        s.use.blocks.front().count = 6;
        s.preferences.heater = "demo-199";
        s.preferences.place = "wall-1-at-40.5";
    });
    return job;
}

const Job& racked() {
    static const Job job = first_built("sports-hall", [](survey::Survey& s) {
        s.preferences.arrangement = {survey::ArrangementPreference::rack_one_sided, false};
    });
    return job;
}

const Job& single_vents() {
    static const Job job = first_built("sports-hall", [](survey::Survey& s) {
        s.preferences.vent = {survey::VentPreference::single, false};
    });
    return job;
}

const Job& pumped() {
    static const Job job = first_built("wash-house", [](survey::Survey& s) {
        s.room.drain.at = {20 * 0.3048, 8 * 0.3048, 60 * 0.0254};
        s.room.drain.facing = {-1, 0, 0};
    });
    return job;
}

reason::Check check(const std::vector<reason::Check>& checks, const std::string& id) {
    for (const auto& c : checks)
        if (c.id == id) return c;
    ADD_FAILURE() << "no check " << id;
    return {};
}

reason::Check check(const Job& job, const std::string& id) { return check(job.prove(), id); }

plant::Piece& piece(Job& job, const std::string& id) {
    const int at = job.built.plant.find(id);
    if (at < 0) std::cerr << "no piece " << id << "\n", std::abort();
    return job.built.plant.pieces[static_cast<std::size_t>(at)];
}

plant::Plant without(const plant::Plant& plant, const std::vector<std::string>& ids) {
    plant::Plant left;
    std::vector<int> now(plant.pieces.size(), -1);
    for (std::size_t i = 0; i < plant.pieces.size(); ++i)
        if (std::find(ids.begin(), ids.end(), plant.pieces[i].id) == ids.end()) now[i] = left.add(plant.pieces[i]);
    for (const auto& joint : plant.joints) {
        const int a = now[static_cast<std::size_t>(joint.a.piece)], b = now[static_cast<std::size_t>(joint.b.piece)];
        if (a >= 0 && b >= 0) left.join({a, joint.a.port}, {b, joint.b.port}, joint.kind);
    }
    return left;
}

void insert_after(Job& job, const std::string& id, const std::string& port, text::Part part, const std::string& item) {
    const auto& old = job.built.plant;
    const int at = old.find(id);
    const plant::PortRef from{at, old.port(at, port)}, to = old.mate(from);
    plant::Plant made;
    for (const auto& p : old.pieces) made.add(p);
    for (const auto& joint : old.joints)
        if (joint.a != from && joint.b != from) made.join(joint.a, joint.b, joint.kind);
    plant::Piece added = old.pieces[static_cast<std::size_t>(at)];
    added.id = "added";
    added.part = part;
    added.item = item;
    added.solids.clear();
    const auto near = old.at(from), far = old.at(to);
    added.ports = {far, near};
    added.ports[0].name = "a";
    added.ports[1].name = "b";
    const int index = made.add(added);
    made.join(from, {index, 0}, plant::JointKind::threaded);
    made.join({index, 1}, to, plant::JointKind::threaded);
    job.built.plant = std::move(made);
}

}  // namespace bw::tests
