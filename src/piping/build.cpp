// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>

#include "piping/builder.h"
#include "piping/economy.h"

namespace bw::piping {
namespace {

constexpr int most_rounds = 6;

using Order = std::array<Service, 3>;

/// Heaters, banks and mains. Where a main finds no way past those laid before it, it goes first the next time, and with
/// other sizes too.
template <class Begin>
void lay_mains(std::optional<Builder>& b, Order& order, const Begin& begin) {
    for (int tries = 1; tries <= static_cast<int>(order.size()); ++tries) {
        const bool last = tries == static_cast<int>(order.size());
        begin();
        add_heaters(*b);
        add_banks(*b);
        if (!b->ok()) return;
        const auto shut = add_mains(*b, order, last ? Thoroughness::searched : Thoroughness::simple);
        if (b->ok() || !shut) return;
        auto at = std::ranges::find(order, *shut);
        std::rotate(order.begin(), at, std::next(at));
    }
}

}  // namespace

Result<Built> build(const survey::Survey& survey, const catalogue::Catalogue& catalogue, const demand::Demand& demand,
                    const demand::Capacity& capacity, const plant::Layout& layout) {
    const auto* heater = catalogue.heater(capacity.heater);
    if (!heater)
        return fail("the heater '" + capacity.heater + "' is not in the catalogue", "one of the catalogue's heaters");
    std::optional<Builder> b;
    b.emplace(survey, catalogue, demand, capacity, *heater, layout);
    auto sized = decide_sizes(*b, guess_gas_lengths(*b));
    if (!sized) return tl::unexpected(sized.error());
    Economy economy;
    Order order{Service::gas, Service::hot, Service::cold};
    for (int round = 1;; ++round) {
        lay_mains(b, order, [&] {
            b.emplace(survey, catalogue, demand, capacity, *heater, layout);
            b->sizes = sized->sizes;
        });
        if (!b->ok()) return tl::unexpected(*b->error());
        const auto measured = measure_gas_lengths(*b);
        if (!measured) return tl::unexpected(measured.error());
        auto again = decide_sizes(*b, *measured);
        if (!again) return tl::unexpected(again.error());
        // later rounds only enlarge: lengths and sizes then settle instead of swinging
        economy = economize(*b, *again, round > 1 ? &b->sizes : nullptr);
        sized = std::move(again);
        if (sized->sizes == b->sizes) break;
        if (round == most_rounds)
            return fail("pipe sizes do not settle: each change lengthens the way past the next size",
                        "a size larger by a catalogue with fewer steps, or the connection nearer the banks");
    }
    b->built.economy = std::move(economy);
    for (auto& record : sized->records) b->built.sizes.push_back(std::move(record));
    for (const auto stage : {add_vents, add_drains, add_reliefs, add_electrics, add_structure}) {
        stage(*b);
        if (!b->ok()) return tl::unexpected(*b->error());
    }
    return std::move(b->built);
}

}  // namespace bw::piping
