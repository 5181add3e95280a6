// SPDX-License-Identifier: MIT
#include "reckon/reckon.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "reckon/topic.h"

namespace bw::reckon {

namespace {

const std::vector<Entry>& entries() {
    static const std::vector<Entry> list{
        gas_pipe(),       fixture_units(), fixture_probability(), hourly_demand(),   occupancy_demand(),
        inlet_water(),    water(),         water_pipe(),          heater_capacity(), combustion(),
        combustion_air(), gas_test(),      expansion_vessel(),    heat_loss(),       anchor_seismic(),
        overturning()};
    return list;
}

bool finite(const std::vector<Named>& result) {
    return std::all_of(result.begin(), result.end(), [](const Named& named) {
        const auto* amount = std::get_if<Amount>(&named.value);
        return amount == nullptr || std::isfinite(amount->si);
    });
}

}  // namespace

std::span<const Topic> topics() {
    static const std::vector<Topic> list = [] {
        std::vector<Topic> all;
        for (const auto& entry : entries()) all.push_back(entry.topic);
        return all;
    }();
    return list;
}

Result<Answer> reckon(std::string_view topic, const std::vector<std::pair<std::string, std::string>>& given,
                      const catalogue::Catalogue& catalogue) {
    std::vector<std::string_view> names;
    for (const auto& entry : entries()) names.push_back(entry.topic.name);
    const auto at = text::index_of(topic, {"topic", names});
    if (!at) return tl::unexpected(at.error());
    const auto& entry = entries()[*at];
    auto inputs = read_inputs(entry.topic, given);
    if (!inputs) return tl::unexpected(inputs.error());
    auto found = entry.run(*inputs, catalogue);
    if (!found) return tl::unexpected(found.error());
    if (!finite(found->result)) return fail("the values given are out of range", "values a plant could have");
    return Answer{std::string(topic), inputs->all(), std::move(found->result), std::move(found->derivation),
                  std::move(found->sources)};
}

Result<std::pair<std::string, std::string>> split_argument(std::string_view argument) {
    const auto at = argument.find('=');
    if (at == std::string_view::npos || at == 0)
        return fail(fmt::format("'{}' is not a name and a value", argument.substr(0, 60)),
                    "name=value, such as length=\"60 ft\"");
    return std::pair{std::string(argument.substr(0, at)), std::string(argument.substr(at + 1))};
}

Result<const catalogue::Pipe*> find_pipe(const catalogue::Catalogue& catalogue, units::Nominal size,
                                         text::Material material) {
    if (const auto* pipe = catalogue.pipe(material, size)) return pipe;
    std::string sizes;
    for (const auto* pipe : catalogue.sizes(material)) sizes += (sizes.empty() ? "" : ", ") + units::print(pipe->size);
    return fail(fmt::format("the catalogue has no {} of size {}", text::name(material), units::print(size)),
                sizes.empty() ? "another material" : "one of " + sizes);
}

void add(reason::Sources& to, const reason::Sources& more) {
    for (const auto& source : more) {
        if (std::find(to.begin(), to.end(), source) == to.end()) to.push_back(source);
    }
}

}  // namespace bw::reckon
