// SPDX-License-Identifier: MIT
#include "piping/size/economy.h"

#include <fmt/format.h>

#include <algorithm>

#include "piping/main/main_parts.h"
#include "piping/size/price.h"

namespace bw::piping {
namespace {

std::string name_of(const Builder& b, Service service, const Group& group) {
    switch (group.role) {
        case Group::Role::service: return before_regulators(b);
        case Group::Role::main: return fmt::format("{} main", text::name(service));
        case Group::Role::branch: return fmt::format("{} branch to each heater", text::name(service));
        case Group::Role::header: break;
    }
    const auto& bank = b.layout.banks[static_cast<std::size_t>(group.bank) - 1];
    return header_name(bank, service, header_lengths(b, bank), group.length);
}

/// Lines of one service in both sizes, and the reducers between a header's lengths.
void compare(const SizingInputs& brief, const Builder& b, Service service, const Sizes& handbook, const Sizes& chosen,
             Economy& economy) {
    const auto tree =
        network::trace_service(b.built.plant, service, b.built.plant.find(fmt::format("site.{}", text::name(service))));
    if (!tree) return;
    const Prices prices(brief, b);
    const auto cost = [&](const std::vector<int>& pieces, const Group& group, const Sizes& sizes) {
        Line line = line_of(b, service);
        line.size = size_of(sizes, service, group);
        const bool header = group.role == Group::Role::header;
        const Nominal branch = service == Service::gas ? sizes.gas_branch : sizes.water_branch;
        double out =
            prices.of(pieces, size_of(b.sizes, service, group), line, header ? std::optional(branch) : std::nullopt)
                .value_or(0);
        if (!header) return out;
        const Nominal to = line.size;
        line.size = group.length > 0 ? size_of(sizes, service, {group.role, group.bank, group.length - 1})
                                     : size_of(sizes, service, {Group::Role::main});
        return out + prices.change(line, to);
    };
    for (const auto& [group, pieces] : pieces_by_group(reaches_of(b, *tree))) {
        if (group.role == Group::Role::branch && service != Service::gas) continue;
        Economy::Line line{name_of(b, service, group),        service,
                           size_of(handbook, service, group), size_of(chosen, service, group),
                           cost(pieces, group, handbook),     cost(pieces, group, chosen)};
        economy.handbook_cost += line.handbook_cost;
        economy.cost += line.cost;
        economy.lines.push_back(std::move(line));
    }
}

/// What a line's record, or its whole header's, says once it is laid in another size than the handbook's.
void amend(Sized& sized, const Economy::Line& line) {
    for (auto& record : sized.records) {
        if (!line.what.starts_with(record.what)) continue;
        const bool first = record.what == line.what || line.what.find(" 1 ", record.what.size()) != std::string::npos;
        if (first) record.size = line.chosen;
        record.derivation.push_back(
            {fmt::format("{}: {} in by the handbook's way, laid in {} in. Of all sizes whose solved flows pass, those "
                         "laid cost least together.",
                         line.what, units::print(line.handbook), units::print(line.chosen)),
             "",
             {{"", "cost in the handbook's size", units::Amount{line.handbook_cost, units::Kind::money}}},
             reason::Term{"", "cost as laid", units::Amount{line.cost, units::Kind::money}}});
    }
}

}  // namespace

Line line_of(const Builder& b, Service service) { return {service, b.ground.pipe(service), {}, {}}; }

Economy economize(const SizingInputs& brief, const Builder& b, Sized& sized, const Sizes* floor) {
    Economy economy;
    const Sizes handbook = sized.sizes;
    const auto gas = thrifty_gas(brief, b, handbook, floor), water = thrifty_water(brief, b, handbook, floor);
    for (const Service service : {Service::gas, Service::cold, Service::hot}) {
        const auto& found = service == Service::gas ? gas : water;
        for (const auto& group : groups_of(handbook, service)) {
            auto size = size_of(found ? found->sizes : handbook, service, group);
            // no smaller than in an earlier round
            if (!found && floor) size = std::max(size, size_of(*floor, service, group));
            set_size(sized.sizes, service, group, size);
        }
    }
    size_unlaid_gas(b, sized.sizes);
    if (water) economy.tried = water->tried;
    economy.proved = gas && water && water->passes;
    for (const Service service : {Service::gas, Service::cold, Service::hot})
        compare(brief, b, service, handbook, sized.sizes, economy);
    for (const auto& line : economy.lines)
        if (line.chosen != line.handbook) amend(sized, line);
    return economy;
}

}  // namespace bw::piping
