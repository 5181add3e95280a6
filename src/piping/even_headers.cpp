// SPDX-License-Identifier: MIT
// Headers made fatter until the heaters share the water alike: what no look at one header alone can tell, since the
// ways to two banks differ too.

#include <fmt/format.h>

#include <algorithm>

#include "piping/sizing.h"
#include "piping/water_network.h"

namespace bw::piping {
namespace {

Nominal next_up(const Builder& b, Nominal size) {
    for (const auto* pipe : b.catalogue.sizes(*b.survey.wishes.water_pipe))
        if (pipe->size > size) return pipe->size;
    return size;
}

/// By heater number.
int bank_of(const plant::Layout& layout, int heater) {
    for (const auto& bank : layout.banks)
        for (const auto& stand : bank.stands)
            if (stand.number == heater) return bank.number;
    return 1;
}

}  // namespace

std::optional<Unlike> unlike_headers(const Builder& b) {
    const auto feed = water_feed(b.demand, b.capacity, b.capacity.installed, *b.survey.supply.pressure);
    if (!feed) return std::nullopt;
    const auto network = water_network(b.built.plant, b.catalogue, b.heater, *feed);
    if (!network) return std::nullopt;
    const auto split = water_split(*network, *feed);
    if (!split || split->shortfall <= most_unlike) return std::nullopt;
    Unlike found{bank_of(b.layout, split->least), b.sizes, split->shortfall};
    auto& bank = found.larger.banks[static_cast<std::size_t>(found.bank) - 1];
    // the thinner of cold and hot, or both where they are alike
    const Nominal thinner = std::min(bank.cold.front(), bank.hot.front()), larger = next_up(b, thinner);
    if (larger == thinner) return std::nullopt;
    for (auto* header : {&bank.cold, &bank.hot})
        for (auto& size : *header) size = std::max(size, larger);
    return found;
}

void keep_larger(Sized& sized, const Sizes& larger, double shortfall) {
    for (std::size_t i = 0; i < sized.sizes.banks.size(); ++i)
        for (const Service service : {Service::cold, Service::hot}) {
            auto& sizes = sized.sizes.banks[i].of(service);
            const Nominal floor = larger.banks[i].of(service).front();
            if (sizes.front() >= floor) continue;
            sizes.assign(sizes.size(), floor);
            const auto what = fmt::format("bank {} {} header", i + 1, text::name(service));
            for (auto& record : sized.records) {
                if (record.what != what) continue;
                record.size = floor;
                record.derivation.push_back(
                    {fmt::format("Laid in {} in: solved in the thinner size, the heaters did not share alike.",
                                 units::print(floor)),
                     "1 - Vmin / Vmax <= 10 %",
                     {},
                     reason::Term{"s", "shortfall of the least favoured heater before",
                                  units::Amount{shortfall, units::Kind::percent}}});
            }
        }
}

}  // namespace bw::piping
