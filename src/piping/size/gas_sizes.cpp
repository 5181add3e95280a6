// SPDX-License-Identifier: MIT
// Gas pipe by the code's longest-length method: every section sized for its own load over the whole longest length.

#include <fmt/format.h>

#include <algorithm>

#include "code/gas_rules.h"
#include "code/gas_tables.h"
#include "piping/main/main_parts.h"
#include "piping/size/sizing_parts.h"
#include "text/spoken.h"

namespace bw::piping {
namespace {

using units::Length;
using units::Pressure;

struct Feed {
    code::GasFeed feed;
    Pressure drop{};
};

/// Behind a regulator, or as delivered.
Feed feed_of(const survey::GasSupply& gas, const Item* regulator) {
    Feed feed{{*gas.kind, *gas.specific_gravity, *gas.delivery_pressure}, *gas.allowed_drop};
    if (!regulator) return feed;
    feed.feed.inlet = Pressure::from_value(regulator->number("outlet").value_or(0));
    feed.drop = std::min(feed.drop, code::drop_behind_regulator);
    return feed;
}

}  // namespace

std::string before_regulators(const Builder& b) {
    return b.ground.regulator_each_bank ? "gas main before the regulators" : "gas pipe before the regulator";
}

void size_unlaid_gas(const Builder& b, Sizes& sizes) {
    if (!b.ground.regulator) sizes.gas_service = sizes.gas_main;
    if (b.ground.regulator_each_bank) sizes.gas_main = sizes.gas_service;
}

Result<void> size_gas(const SizingInputs& brief, const Builder& b, const GasLengths& lengths, Sized& sized) {
    const auto& gas = brief.survey.gas;
    const Material material = b.ground.gas_pipe;
    const auto allowed = code::gas_material(material, *gas.low_sulphide);
    if (!allowed) return tl::unexpected(allowed.error());
    if (!allowed->value)
        return fail(fmt::format("{} may not carry this gas: {}", text::spoken(material), allowed->says),
                    "another gas-pipe in the survey's preferences");
    std::vector<code::GasSize> choices;
    for (const auto* row : b.catalogue.sizes(material)) choices.push_back({row->size, row->inside});
    const Item* regulator = b.ground.regulator;
    const Feed feed = feed_of(gas, regulator);
    const auto choose = [&](const Feed& at, int heaters, double metres, std::string what) -> Result<Nominal> {
        auto found = code::gas_size(at.feed, at.drop, material, gas_load(brief, b.heater, heaters),
                                    Length::from_value(metres), choices, *gas.low_sulphide);
        if (!found) return fail(fmt::format("{}: {}", what, found.error().what), found.error().expected);
        const Nominal size = found->value.size.nominal;
        sized.records.push_back(
            {std::move(what), Service::gas, material, size, std::move(found->derivation), std::move(found->sources)});
        return size;
    };
    const auto* port = b.heater.port("gas");
    if (!b.ground.regulator_each_bank) {
        const auto main = choose(feed, b.ground.heaters, lengths.longest, "gas main");
        if (!main) return tl::unexpected(main.error());
        sized.sizes.gas_main = *main;
    }
    for (const auto& bank : b.layout.banks) {
        const auto header_of = header_lengths(b, bank);
        for (std::size_t i = 0; i < header_of.size(); ++i) {
            const auto header =
                choose(feed, header_of[i].feeds, lengths.longest, header_name(bank, Service::gas, header_of, i));
            if (!header) return tl::unexpected(header.error());
            auto& sizes = sized.sizes.banks[static_cast<std::size_t>(bank.number) - 1].gas;
            const bool room = i == 0 || may_change(b, bank, Service::gas, i, sizes.back(), *header);
            // tees are no smaller than what branches off them
            sizes.push_back(std::max(room ? *header : sizes.back(), port ? port->size : Nominal{}));
            sized.records.back().size = sizes.back();
        }
    }
    const auto branch = choose(feed, 1, lengths.longest, "gas branch to each heater");
    if (!branch) return tl::unexpected(branch.error());
    sized.sizes.gas_branch = port ? std::max(*branch, port->size) : *branch;
    if (regulator) {
        const auto service =
            choose(feed_of(gas, nullptr), b.ground.heaters, std::max(lengths.service, 3.0), before_regulators(b));
        if (!service) return tl::unexpected(service.error());
        sized.sizes.gas_service = *service;
    }
    size_unlaid_gas(b, sized.sizes);
    return {};
}

}  // namespace bw::piping
