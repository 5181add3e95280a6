// SPDX-License-Identifier: MIT
// Headers and branches of every bank.

#include "piping/bank/banks.h"

#include <fmt/format.h>

#include <algorithm>

namespace bw::piping {
namespace {

const plant::stations::Level& level_of(const plant::Bank& bank, Service service) {
    switch (service) {
        case Service::gas: return bank.section.gas;
        case Service::cold: return bank.section.cold;
        default: return bank.section.hot;
    }
}

BranchSpec recipe_of(Builder& b, const plant::Bank& bank, Service service) {
    const bool gas = service == Service::gas;
    BranchSpec recipe;
    recipe.header.service = recipe.line.service = service;
    recipe.header.material = recipe.line.material = b.ground.pipe(service);
    recipe.lengths = b.sizes.banks[static_cast<std::size_t>(bank.number) - 1].of(service);
    recipe.header.size = recipe.lengths.front();
    recipe.joint_after = static_cast<std::size_t>(b.ground.header_serves);
    recipe.line.size = gas ? b.sizes.gas_branch : b.sizes.water_branch;
    recipe.header.name = fmt::format("bank-{}.{}.header", bank.number, text::name(service));
    recipe.header.bank = recipe.line.bank = bank.number;
    recipe.flexible = gas ? Part::flexible_gas : Part::flexible_water;
    const auto& level = level_of(bank, service);
    recipe.axis = bank.back_plane > 0 ? 0 : level.out;  // in the middle of a two-sided rack
    const auto* port = b.heater.port(text::name(service));
    recipe.toward = bank.back_plane <= 0 && port && recipe.axis > port->at.y ? -1 : 1;
    recipe.level = snap(bank.bottom - level.below);
    recipe.trap = gas;
    const auto take = [&](Part part, std::string name) {
        return std::pair(b.item(part, recipe.line), std::move(name));
    };
    if (gas) {
        recipe.arm = {take(Part::gas_valve, "valve"), take(Part::union_joint, "union")};
    } else if (service == Service::cold) {
        if (!b.heater.closes_when_idle) recipe.arm = {take(Part::check_valve, "check")};
        recipe.riser = {take(Part::strainer, "strainer"), take(Part::service_valve_cold, "valve")};
    } else {
        recipe.riser = {take(Part::service_valve_hot, "valve")};
    }
    return recipe;
}

/// Least distance from a header length's axis to a riser in front of it.
double least_reach(const Builder& b, const BranchSpec& recipe, Nominal length_size) {
    Line header = recipe.header;
    header.size = length_size;
    const Item *tee = b.seek_tee(header, recipe.line.size), *bend = b.seek(Part::elbow, recipe.line);
    if (!tee || !bend) return 0;
    double reach = tee->stem.value() + shortest(recipe.line.material, recipe.line.size) + bend->run.value();
    const Nominal outlet = tee->branch.value_or(header.size);
    if (outlet != recipe.line.size) {
        Line larger = header;
        larger.size = outlet;
        if (const Item* reducer = b.seek(Part::reducer, larger, recipe.line.size))
            reach += shortest(larger.material, larger.size) + 2 * reducer->run.value();
    }
    return reach;
}

std::vector<Branch> branches_of(const Builder& b, const plant::Bank& bank, const BranchSpec& recipe) {
    std::vector<Branch> branches;
    double reach = 0;
    for (const Nominal size : recipe.lengths) reach = std::max(reach, least_reach(b, recipe, size));
    const auto* model_port = b.heater.port(text::name(recipe.line.service));
    for (const auto& stand : bank.stands) {
        Branch branch;
        branch.stand = &stand;
        branch.port = b.port(fmt::format("heater-{}", stand.number), text::name(recipe.line.service));
        branch.side = stand.side == 0 ? 1 : -1;
        const double width = b.heater.width.value();
        branch.riser = snap(stand.u + (stand.side == 0 ? model_port->at.x : width - model_port->at.x));
        const double port_out = snap(bank.back_plane + model_port->at.y);
        branch.out = recipe.toward > 0 ? std::max(snap_up(branch.side * recipe.axis + reach), port_out)
                                       : std::min(snap(recipe.axis - reach), port_out);
        branches.push_back(branch);
    }
    return branches;
}

/// Brings the header out to the bank's feed end, past the first heater.
PortRef feed_stub(Builder& b, const plant::Bank& bank, const Line& line, PortRef back) {
    double edge = bank.mirrored ? -1e9 : 1e9;
    for (const auto& stand : bank.stands)
        edge = bank.mirrored ? std::max(edge, stand.u + b.heater.width.value()) : std::min(edge, stand.u);
    const Vec end = bank.place({snap(edge), 0, 0});
    const Vec facing = b.at(back).facing;
    const double inside = shape::dot(end - b.at(back).at, facing);
    if (inside <= 0) return back;
    return b.pipe(line, back, std::max(snap_up(inside), shortest(line.material, line.size)));
}

/// The pipe and joint from one header length's last tee to the next length, in the size of that.
PortRef next_length(Builder& b, const Line& from, const Line& to, PortRef open, PortRef back) {
    const Item* joint = b.item(Part::union_joint, from);
    if (!joint) return nowhere;
    const double reducing = from.size == to.size ? 0 : b.reducing(from, to.size) - shortest(to.material, to.size);
    const double gap = span_between(b.at(open), b.at(back)).ahead - 2 * joint->run.value() - reducing;
    open = b.attach(from, b.pipe(from, open, snap(gap / 2)), joint);
    return from.size == to.size ? open : b.reduce(from, open, to.size);
}

void lay_header(Builder& b, const plant::Bank& bank, const BranchSpec& recipe, const std::vector<Branch>& branches) {
    Line line = recipe.header;
    const Vec along = bank.place.turn({bank.mirrored ? -1.0 : 1.0, 0, 0});
    const auto middle = [&](const Branch& branch) { return bank.place({branch.tee, recipe.axis, recipe.level}); };
    const auto facing = [&](const Branch& branch) { return bank.place.turn({0, recipe.toward * branch.side, 0}); };
    PortRef open = nowhere;
    for (std::size_t i = 0; i < branches.size() && b.ok(); ++i) {
        const Line before = line;
        line.size = recipe.lengths[i / recipe.joint_after];
        const auto made = b.free_tee(line, middle(branches[i]), along, facing(branches[i]), recipe.line.size,
                                     fmt::format("tee-{}", i + 1));
        if (!b.ok()) return;
        if (i > 0) {
            if (i % recipe.joint_after == 0) open = next_length(b, before, line, open, made.back);
            b.close(line, open, made.back);
        }
        if (i == 0) b.feeds[{bank.number, line.service}] = feed_stub(b, bank, line, made.back);
        open = made.on;
        lay_branch(b, bank, recipe, branches[i], made.branch);
    }
    b.cap(line, b.nipple(line, open), "cap");
}

}  // namespace

void add_banks(Builder& b) {
    for (const auto& bank : b.layout.banks) {
        for (Service service : {Service::gas, Service::cold, Service::hot}) {
            if (!b.ok()) return;
            const auto* port = b.heater.port(text::name(service));
            if (!port) {
                b.give_up(fmt::format("{}: the heater has no {} port", b.heater.key, text::name(service)),
                          "gas, cold and hot ports in its catalogue row");
                return;
            }
            const BranchSpec recipe = recipe_of(b, bank, service);
            if (!b.ok()) return;
            auto branches = branches_of(b, bank, recipe);
            choose_stations(b, bank, recipe, branches);
            lay_header(b, bank, recipe, branches);
        }
    }
}

}  // namespace bw::piping
