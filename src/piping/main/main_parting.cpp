// SPDX-License-Identifier: MIT
#include "piping/main/main_parting.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "piping/main/inline_lengths.h"

namespace bw::piping {

std::vector<Vec> MainParting::Parting::before_tee(Vec from) const {
    std::vector<Vec> corners(path.begin(), path.begin() + static_cast<std::ptrdiff_t>(tee.leg));
    const Vec corner = corners.empty() ? from : corners.back();
    const Vec along = (1 / shape::distance(corner, path[tee.leg])) * (path[tee.leg] - corner);
    corners.push_back(tee.middle - tee.tee->run.value() * along);
    return corners;
}

std::vector<Vec> MainParting::Parting::beyond_tee() const {
    return {path.begin() + static_cast<std::ptrdiff_t>(tee.leg), path.end()};
}

/// The trunk where its own things lie behind.
Line MainParting::before_bank(const Line& trunk) const { return resized(trunk, parts_.size_last); }

/// From a tee's outlet to a bank: of its header's size, or the main's where that is smaller.
Line MainParting::branch_to(int bank, const Line& trunk) const {
    return resized(trunk, std::min(bank_size(b_, trunk.service, bank), parts_.size_last));
}

void MainParting::lay_to_all(const Trunk& trunk, const std::vector<int>& banks) {
    if (!b_.ok()) return;
    std::optional<Error> why;
    const auto parting = choose(trunk, banks, why);
    if (!b_.ok()) return;
    if (!parting)
        return main_.refuse(
            why.value_or(Error{"no place for the tee between the banks", "a longer way from the connection", {}}));
    const Line line = resized(trunk.line, size_after(trunk.line, trunk.things)),
               branch = branch_to(parting->other, trunk.line);
    const bool only_two = banks.size() == 2;
    const PortRef end =
        main_.lay_along(trunk.line, trunk.from, parting->before_tee(b_.at(trunk.from).at), trunk.things);
    if (!b_.ok()) return;
    const Fork fork =
        b_.tee(line, end, parting->tee.side, branch.size, only_two ? "split" : fmt::format("split-{}", parting->other));
    if (!b_.ok()) return;
    if (only_two)
        main_.lay_along(line, fork.on, parting->beyond_tee(), things_of(parting->one, before_bank(trunk.line)),
                        bank_feed(b_, line.service, parting->one));
    lay_branch_to(fork.branch, parting->other, branch);
    if (only_two) return;
    auto rest = banks;
    std::erase(rest, parting->other);
    lay_to_all({line, fork.on, {}}, rest);
}

/// The first two banks whose ways leave both room for everything, else the best two. `why` becomes the failure of two
/// that no way was found for.
std::optional<MainParting::Parting> MainParting::choose(const Trunk& trunk, const std::vector<int>& banks,
                                                        std::optional<Error>& why) {
    const auto fed = [&](int bank) { return bank_feed(b_, trunk.line.service, bank) != nowhere; };
    std::optional<Parting> best;
    for (const int one : banks)
        for (const int other : banks) {
            if (one == other || !fed(one) || !fed(other)) continue;
            auto parting = part_two(trunk, one, other, why);
            if (!b_.ok()) return std::nullopt;
            if (parting && (!best || parting->fits > best->fits)) best = std::move(parting);
            if (best && best->fits == Fits::all) return best;
        }
    return best;
}

/// The first way to one bank with a tee to another that leaves both room for their valves and changes of size, else the
/// best there is.
std::optional<MainParting::Parting> MainParting::part_two(const Trunk& trunk, int one, int other,
                                                          std::optional<Error>& why) {
    const auto& router = main_.router();
    const auto ends = ends_to_try(trunk, one, other);
    const PortRef to = bank_feed(b_, trunk.line.service, one);
    const Nominal largest = largest_size(b_, trunk.line, parts_, one);
    const double all_ahead = length_with_tee(b_, trunk.line, trunk.things, branch_to(other, trunk.line).size);
    const auto find = [&](std::size_t i) {
        return i < ends.size() ? router.find(trunk.from, to, largest, ends[i])
                               : router.find_aside(trunk.from, to, largest, all_ahead, ends.front());
    };
    std::optional<Parting> best;
    for (std::size_t i = 0; i <= ends.size(); ++i) {
        auto path = find(i);
        if (!path) {
            why = path.error();
            if (i == 0) return std::nullopt;
            continue;
        }
        auto parting = with_tee(trunk, one, other, std::move(*path));
        if (parting && (!best || parting->fits > best->fits)) best = std::move(parting);
        if (best && best->fits == Fits::all) break;
    }
    return best;
}

/// Straight lengths to ask for at the ends of a way: everything and the tee on the first leg, or the tee on the last,
/// where no way found without asking leaves the tee a place.
std::array<WayEnds, 4> MainParting::ends_to_try(const Trunk& trunk, int one, int other) {
    const Line before = before_bank(trunk.line);
    const Nominal outlet = branch_to(other, trunk.line).size;
    const auto here = things_of(one, before);
    const double last = length_of(b_, before, here), last_changes = length_of_changes(b_, before, here),
                 first_changes = length_of_first_changes(b_, trunk.line, trunk.things);
    const double ahead = length_to_first_item(b_, trunk.line, trunk.things),
                 all_ahead = length_with_tee(b_, trunk.line, trunk.things, outlet),
                 behind = std::max(last, main_.router().stagger()),
                 all_behind = std::max(behind, last + length_with_tee(b_, trunk.line, {}, outlet));
    return {{{ahead, behind, first_changes, last_changes},
             {all_ahead, behind, first_changes, last_changes},
             {ahead, all_behind, first_changes, last_changes},
             {all_ahead, all_behind, first_changes, last_changes}}};
}

std::optional<MainParting::Parting> MainParting::with_tee(const Trunk& trunk, int one, int other,
                                                          std::vector<Vec> path) {
    const Line before = before_bank(trunk.line);
    const TeeWanted wanted{before.size, branch_to(other, trunk.line).size,
                           length_of_changes(b_, before, things_of(one, before))};
    auto tee = choose_tee(b_, main_.router(), trunk, path, b_.at(bank_feed(b_, before.service, other)), wanted);
    if (!tee) return std::nullopt;
    Parting parting{one, other, std::move(path), std::move(*tee)};
    parting.fits = fits_beyond_tee(parting, trunk.line);
    return parting;
}

MainParting::Fits MainParting::fits_beyond_tee(const Parting& parting, const Line& trunk) {
    const auto& router = main_.router();
    const Line on = before_bank(trunk), aside = branch_to(parting.other, trunk);
    const auto fits = [&](Wanted wanted) {
        return router.fit(on, parting.tee.middle, parting.beyond_tee(), things_of(parting.one, on), wanted) &&
               router.fit(aside, parting.tee.outlet(), parting.tee.path, things_of(parting.other, aside), wanted);
    };
    return fits(Wanted::all) ? Fits::all : fits(Wanted::sizes) ? Fits::sizes : Fits::none;
}

/// From a tee's outlet to a bank, once more, now that the first way stands in the room.
void MainParting::lay_branch_to(PortRef outlet, int bank, const Line& branch) {
    if (!b_.ok()) return;
    const auto things = things_of(bank, branch);
    const double last = std::max(length_of(b_, branch, things), main_.router().stagger());
    main_.lay_between(branch, outlet, bank_feed(b_, branch.service, bank),
                      std::max(branch.size, bank_size(b_, branch.service, bank)), things,
                      {0, last, 0, length_of_changes(b_, branch, things)});
}

}  // namespace bw::piping
