// SPDX-License-Identifier: MIT
// Where along a header its tees stand.

#include <algorithm>
#include <cmath>

#include "piping/bank/banks.h"
#include "piping/size/sizing.h"

namespace bw::piping {
namespace {

/// Tee shifts up to this are left to the flexible connector (common practice, no source).
constexpr double shift_most = 2.5 * inch_m;

}  // namespace

double arm_length(const Builder& b, const BranchSpec& recipe) {
    const Item* elbow = b.seek(Part::elbow, recipe.line);
    const Item* trap = b.seek(Part::tee, recipe.line, recipe.line.size);
    if (!elbow || !trap) return 0;
    double length = elbow->run.value() + shortest(recipe.line.material, recipe.line.size) +
                    (recipe.trap ? trap->stem.value() : elbow->run.value());
    for (const auto& [item, name] : recipe.arm) length += b.taken(recipe.line, item);
    return length;
}

double riser_length(const Builder& b, const BranchSpec& recipe) {
    double length = 0;
    for (std::size_t i = 0; i < recipe.riser.size(); ++i)
        length += b.taken(recipe.line, recipe.riser[i].first, i + 1 == recipe.riser.size());
    return recipe.riser.empty() ? shortest(recipe.line.material, recipe.line.size) : length;
}

namespace {

double joint_between(const Builder& b, Line line, Nominal to) {
    const Item* joint = b.seek(Part::union_joint, line);
    if (!joint) return 0;
    const double own = 2 * joint->run.value() + shortest(line.material, line.size);
    return own + (line.size == to ? 0 : b.reducing(line, to) - shortest(line.material, to));
}

}  // namespace

double joint_length(const Builder& b, const BranchSpec& recipe, std::size_t i) {
    if (i == 0 || i % recipe.joint_after != 0) return 0;
    Line line = recipe.header;
    line.size = recipe.lengths[i / recipe.joint_after - 1];
    return joint_between(b, line, recipe.lengths[i / recipe.joint_after]);
}

bool may_change(const Builder& b, const plant::Bank& bank, Service service, std::size_t length, Nominal from,
                Nominal to) {
    const auto* port = b.heater.port(text::name(service));
    if (!port) return false;
    std::vector<double> risers;
    for (const auto& stand : bank.stands)
        risers.push_back(stand.side == 0 ? stand.u + port->at.x : stand.u + b.heater.width.value() - port->at.x);
    std::ranges::sort(risers);
    if (bank.mirrored) std::ranges::reverse(risers);
    const std::size_t after = length * static_cast<std::size_t>(b.ground.header_serves);
    if (length == 0 || after >= risers.size()) return length == 0;
    Line line{service, b.ground.pipe(service), from, {}};
    const Nominal branch = service == Service::gas ? b.sizes.gas_branch : b.sizes.water_branch;
    BranchSpec recipe;
    recipe.header = recipe.line = line;
    recipe.line.size = std::min(branch, from);
    const Item* tee = b.seek_tee(recipe.header, recipe.line.size);
    if (!tee) return false;
    const double needed = 2 * tee->run.value() + shortest(line.material, from) + joint_between(b, line, to);
    return std::abs(risers[after] - risers[after - 1]) >= needed - 1e-6;
}

void choose_stations(const Builder& b, const plant::Bank& bank, const BranchSpec& recipe,
                     std::vector<Branch>& branches) {
    const Item* tee = b.seek_tee(recipe.header, recipe.line.size);
    if (!tee || branches.empty()) return;
    const double sign = bank.mirrored ? -1 : 1;
    const double spacing = 2 * tee->run.value() + shortest(recipe.header.material, recipe.header.size);
    const bool must_arm = recipe.trap || !recipe.arm.empty();
    const double arm = must_arm ? snap_up(arm_length(b, recipe)) : 0;
    const auto away = [&](const Branch& branch) { return sign * branch.riser; };  // rises away from the feed end
    std::ranges::stable_sort(branches, [&](const Branch& x, const Branch& y) { return away(x) < away(y) - 1e-9; });
    const auto gap_before = [&](std::size_t i) { return spacing + joint_length(b, recipe, i); };
    const std::size_t n = branches.size();
    std::vector<double> late(n), early(n);  // latest and earliest sequences that keep the spacing
    for (std::size_t i = n; i-- > 0;) {
        late[i] = away(branches[i]) - arm;
        if (i + 1 < n) late[i] = std::min(late[i], late[i + 1] - gap_before(i + 1));
    }
    for (std::size_t i = 0; i < n; ++i) {
        early[i] = away(branches[i]) - arm;
        if (i > 0) early[i] = std::max(early[i], early[i - 1] + gap_before(i));
    }
    const double shortest_arm = snap_up(arm_length(b, recipe));
    for (std::size_t i = 0; i < n; ++i) {
        const double station = must_arm ? snap_down(late[i]) : snap_down((late[i] + early[i]) / 2);
        branches[i].tee = snap(sign * station);
        const double shift = std::abs(branches[i].tee - branches[i].riser);
        branches[i].arm = must_arm || shift > shift_most;
        if (!branches[i].arm) {
            branches[i].riser = branches[i].tee;
        } else if (shift < shortest_arm) {  // the riser gives way so that the arm can be made up
            const double way = branches[i].riser >= branches[i].tee ? 1 : -1;
            branches[i].riser = snap(branches[i].tee + way * shortest_arm);
        }
    }
}

}  // namespace bw::piping
