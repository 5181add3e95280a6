// SPDX-License-Identifier: MIT
#include "piping/size/reaches.h"

#include <algorithm>
#include <set>

namespace bw::piping {
namespace {

class Cutter {
public:
    Cutter(const Builder& b, const network::Tree& tree)
        : b_(b), tree_(tree), bank_(tree.traversals.size()), reach_(tree.traversals.size()) {
        for (const auto& bank : b.layout.banks) {
            stands_.push_back(static_cast<int>(bank.stands.size()));
            for (const auto& stand : bank.stands) bank_of_[stand.number] = bank.number;
        }
        mark_banks();
        for (std::size_t i = tree.traversals.size(); i-- > 0;)
            if (piece(i).part == Part::regulator)
                for (int up = tree.traversals[i].before; up >= 0;
                     up = tree.traversals[static_cast<std::size_t>(up)].before)
                    before_regulator_.insert(up);
    }

    std::vector<Reach> cut() {
        std::vector<Reach> out;
        for (std::size_t i = 0; i < tree_.traversals.size(); ++i) {
            const auto& passage = tree_.traversals[i];
            const int before = passage.before < 0 ? -1 : reach_[static_cast<std::size_t>(passage.before)];
            const Group group = group_of(i);
            const int heater = piece(i).heater;
            const bool on = before >= 0 && out[static_cast<std::size_t>(before)].group == group &&
                            out[static_cast<std::size_t>(before)].heaters == passage.heaters &&
                            out[static_cast<std::size_t>(before)].heater == heater;
            if (on) {
                reach_[i] = before;
            } else {
                reach_[i] = static_cast<int>(out.size());
                out.push_back({group, before, passage.heaters, heater, {}});
            }
            out[static_cast<std::size_t>(reach_[i])].traversals.push_back(passage);
        }
        return out;
    }

private:
    [[nodiscard]] const Piece& piece(std::size_t passage) const {
        return b_.built.plant.pieces[static_cast<std::size_t>(tree_.traversals[passage].piece)];
    }
    /// Heaters fed through what leads into a passage's piece.
    [[nodiscard]] int entering(std::size_t i) const {
        const int before = tree_.traversals[i].before;
        return before < 0 ? tree_.traversals[i].heaters : tree_.traversals[static_cast<std::size_t>(before)].heaters;
    }

    /// The one bank all heaters behind a passage stand in, else 0.
    void mark_banks() {
        std::vector<std::set<int>> banks(tree_.traversals.size());
        for (std::size_t i = tree_.traversals.size(); i-- > 0;) {
            if (piece(i).part == Part::heater) banks[i].insert(bank_of_[piece(i).heater]);
            if (tree_.traversals[i].before >= 0)
                banks[static_cast<std::size_t>(tree_.traversals[i].before)].insert(banks[i].begin(), banks[i].end());
            bank_[i] = banks[i].size() == 1 ? *banks[i].begin() : 0;
        }
    }

    Group group_of(std::size_t i) const {
        if (piece(i).heater > 0) return {Group::Role::branch};
        if (before_regulator_.contains(static_cast<int>(i))) return {Group::Role::service};
        const int before = tree_.traversals[i].before;
        // a header's dead end belongs to its last length
        if (entering(i) == 0 && before >= 0) return group_of(static_cast<std::size_t>(before));
        const bool header = piece(i).bank > 0;
        const bool feeds_one = stands_.size() > 1 && bank_[i] > 0 && !splits(i);
        if (!header && !feeds_one) return {Group::Role::main};
        const int bank = header ? piece(i).bank : bank_[i];
        const int passed = stands_[static_cast<std::size_t>(bank) - 1] - entering(i);
        return {Group::Role::header, bank, static_cast<std::size_t>(std::max(0, passed) / b_.ground.header_serves)};
    }
    /// A tee of the main, whose own size is the main's.
    [[nodiscard]] bool splits(std::size_t i) const {
        return piece(i).part == Part::tee && entering(i) > tree_.traversals[i].heaters && piece(i).bank == 0;
    }

    const Builder& b_;
    const network::Tree& tree_;
    std::vector<int> stands_;  ///< heaters by bank number - 1
    std::map<int, int> bank_of_;
    std::vector<int> bank_, reach_;  ///< by passage
    std::set<int> before_regulator_;
};

}  // namespace

std::vector<Reach> reaches_of(const Builder& b, const network::Tree& tree) { return Cutter(b, tree).cut(); }

std::map<Group, std::vector<int>> pieces_by_group(const std::vector<Reach>& reaches) {
    std::map<Group, std::vector<int>> out;
    std::set<int> seen;
    for (const auto& reach : reaches)
        for (const auto& passage : reach.traversals)
            if (seen.insert(passage.piece).second) out[reach.group].push_back(passage.piece);
    return out;
}

std::vector<Group> groups_of(const Sizes& sizes, Service service) {
    std::vector<Group> out{{Group::Role::main}, {Group::Role::branch}};
    if (service == Service::gas) out.push_back({Group::Role::service});
    for (std::size_t i = 0; i < sizes.banks.size(); ++i)
        for (std::size_t k = 0; k < sizes.banks[i].of(service).size(); ++k)
            out.push_back({Group::Role::header, static_cast<int>(i) + 1, k});
    return out;
}

Nominal size_of(const Sizes& sizes, Service service, const Group& group) {
    switch (group.role) {
        case Group::Role::service: return sizes.gas_service;
        case Group::Role::main:
            return service == Service::gas   ? sizes.gas_main
                   : service == Service::hot ? sizes.hot_main
                                             : sizes.cold_main;
        case Group::Role::branch: return service == Service::gas ? sizes.gas_branch : sizes.water_branch;
        case Group::Role::header: break;
    }
    return sizes.banks[static_cast<std::size_t>(group.bank) - 1].of(service)[group.length];
}

void set_size(Sizes& sizes, Service service, const Group& group, Nominal size) {
    switch (group.role) {
        case Group::Role::service: sizes.gas_service = size; return;
        case Group::Role::main:
            (service == Service::gas   ? sizes.gas_main
             : service == Service::hot ? sizes.hot_main
                                       : sizes.cold_main) = size;
            return;
        case Group::Role::branch: (service == Service::gas ? sizes.gas_branch : sizes.water_branch) = size; return;
        case Group::Role::header: break;
    }
    sizes.banks[static_cast<std::size_t>(group.bank) - 1].of(service)[group.length] = size;
}

}  // namespace bw::piping
