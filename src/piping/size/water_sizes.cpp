// SPDX-License-Identifier: MIT
// Water pipe by velocity, and headers by their loss beside the heaters'.

#include <fmt/format.h>

#include <algorithm>

#include "code/water.h"
#include "matter/pipe_flow.h"
#include "piping/size/sizing_parts.h"
#include "text/spoken.h"
#include "units/constants.h"

namespace bw::piping {

using units::Kind;
using units::Length;
using units::VolumeFlow;

VolumeFlow water_flow(const SizingInputs& brief, int heaters) {
    return std::min(static_cast<double>(heaters) * brief.capacity.each.flow, brief.demand.peak);
}

std::vector<HeaderLength> header_lengths(const Builder& b, const plant::Bank& bank) {
    const int heaters = static_cast<int>(bank.stands.size()), serves = b.ground.header_serves;
    std::vector<HeaderLength> lengths;
    for (int first = 0; first < heaters; first += serves)
        lengths.push_back({heaters - first, first + 1, std::min(first + serves, heaters)});
    return lengths;
}

std::string header_name(const plant::Bank& bank, Service service, const std::vector<HeaderLength>& lengths,
                        std::size_t length) {
    const auto whole = fmt::format("bank {} {} header", bank.number, text::name(service));
    if (lengths.size() == 1) return whole;
    const auto& [feeds, first, last] = lengths[length];
    if (first == last) return fmt::format("{}, place {} from its feed", whole, first);
    return fmt::format("{}, places {} to {} from its feed", whole, first, last);
}

namespace {

/// A header may lose this share of what a heater loses, so that near and far heaters share alike (common practice).
constexpr double header_share = 0.1;

struct Asked {
    std::string what;
    Service service{};
    VolumeFlow flow{};
    units::Temperature temperature = units::kelvin(0);
    Length length{};                      ///< of header, for the loss; 0 where only velocity counts
    std::optional<units::Pressure> most;  ///< loss allowed over the length
    bool never_rests = false;             ///< as a loop's water, which wears the pipe sooner
    Nominal least{};                      ///< of a header: its branches'
};

reason::Term term(std::string symbol, std::string meaning, units::Amount amount) {
    return {std::move(symbol), std::move(meaning), amount};
}

/// Loss of a header fed at one end whose flow leaves evenly: a third of what the whole flow would lose.
Result<units::Pressure> header_loss(const Asked& asked, const catalogue::Pipe& pipe) {
    const auto water = matter::water(asked.temperature);
    if (!water) return tl::unexpected(water.error());
    const auto drop = matter::pipe_drop(asked.flow, pipe.inside, pipe.roughness, asked.length, 0, *water);
    if (!drop) return tl::unexpected(drop.error());
    return drop->drop / 3.0;
}

Result<Nominal> choose(const Builder& b, const Asked& asked, Sized& sized) {
    const Material material = b.ground.water_pipe;
    const auto limit = asked.never_rests ? code::loop_velocity_limit(material, asked.temperature)
                                         : code::water_velocity_limit(material, asked.temperature);
    if (!limit) return tl::unexpected(limit.error());
    for (const auto* pipe : b.catalogue.sizes(material)) {
        if (pipe->size < asked.least) continue;
        const auto area = units::pi / 4 * pipe->inside * pipe->inside;
        const units::Velocity velocity = asked.flow / area;
        if (velocity > limit->value) continue;
        reason::Derivation working{
            {"Velocity in " + units::print(pipe->size) + " in " + std::string(text::spoken(material)) + ".",
             "v = Q / (pi d^2 / 4)",
             {term("Q", "flow", units::amount(asked.flow)),
              term("d", "inside diameter", units::amount(pipe->inside, Kind::small_length))},
             term("v", "velocity", units::amount(velocity))},
            {limit->says, "v <= v_max", {}, term("v_max", "limit", units::amount(limit->value))}};
        reason::Sources sources{limit->source};
        if (asked.most) {
            const auto loss = header_loss(asked, *pipe);
            if (!loss) return tl::unexpected(loss.error());
            if (*loss > *asked.most) continue;
            working.push_back(
                {"A header fed at one end whose flow leaves evenly loses a third of what the whole flow would.",
                 "dp = f (L/d) rho v^2/2 / 3",
                 {term("L", "length", units::amount(asked.length, Kind::long_length))},
                 term("dp", "loss along the header", units::amount(*loss))});
            working.push_back({"It is to stay small against the heater's own loss, so that all heaters share alike.",
                               "dp <= 0.1 dp_heater",
                               {},
                               term("", "allowed", units::amount(*asked.most))});
            sources.push_back({"", "", "", reason::Standing::common_practice});
        }
        sized.records.push_back(
            {asked.what, asked.service, material, pipe->size, std::move(working), std::move(sources)});
        return pipe->size;
    }
    return fail(fmt::format("{}: no {} pipe of the catalogue carries {} within {}", asked.what, text::spoken(material),
                            print(units::amount(asked.flow), units::System::us),
                            print(units::amount(limit->value), units::System::us)),
                "a larger size or another water-pipe in the survey's preferences");
}

}  // namespace

Result<void> size_water(const SizingInputs& brief, const Builder& b, Sized& sized) {
    const auto& demand = brief.demand;
    const auto heater_loss =
        catalogue::pressure_drop(b.heater, std::min(brief.capacity.each.flow, b.heater.flow_greatest));
    if (!heater_loss) return tl::unexpected(heater_loss.error());
    const auto* port = b.heater.port("cold");
    if (port) sized.sizes.water_branch = port->size;
    for (Service service : {Service::cold, Service::hot}) {
        const bool hot = service == Service::hot;
        Asked asked;
        asked.service = service;
        asked.temperature = hot ? demand.hot : demand.cold;
        asked.what = fmt::format("{} main", text::name(service));
        asked.flow = water_flow(brief, b.ground.heaters);
        const auto main = choose(b, asked, sized);
        if (!main) return tl::unexpected(main.error());
        (hot ? sized.sizes.hot_main : sized.sizes.cold_main) = *main;
        for (const auto& bank : b.layout.banks) {
            asked.what = fmt::format("bank {} {} header", bank.number, text::name(service));
            asked.flow = water_flow(brief, static_cast<int>(bank.stands.size()));
            asked.least = sized.sizes.water_branch;
            asked.length = Length::from_value(bank.length);
            asked.most = header_share * *heater_loss;
            const auto header = choose(b, asked, sized);
            if (!header) return tl::unexpected(header.error());
            // in one size: a header whose loss is held as a whole
            sized.sizes.banks[static_cast<std::size_t>(bank.number) - 1].of(service).assign(
                header_lengths(b, bank).size(), *header);
        }
    }
    if (!b.ground.recirculates) return {};
    Asked back{"recirculation return", Service::recirculation, demand.recirculation_flow, demand.hot, {}, {}, true};
    const auto size = choose(b, back, sized);
    if (!size) return tl::unexpected(size.error());
    // no smaller than the building's own return
    sized.sizes.recirculation = std::max({*size, Nominal{6}, b.ground.room.recirculation.size.value_or(Nominal{6})});
    sized.records.back().size = sized.sizes.recirculation;
    return {};
}

Result<Sized> decide_sizes(const SizingInputs& brief, const Builder& bare, const GasLengths& lengths) {
    Sized sized;
    sized.sizes.banks.resize(bare.layout.banks.size());
    if (auto gas = size_gas(brief, bare, lengths, sized); !gas) return tl::unexpected(gas.error());
    if (auto water = size_water(brief, bare, sized); !water) return tl::unexpected(water.error());
    return sized;
}

}  // namespace bw::piping
