// SPDX-License-Identifier: MIT
// From the points of connection to the banks' feed ends.

#include <fmt/format.h>

#include <algorithm>
#include <iterator>

#include "piping/main/inline_lengths.h"
#include "piping/main/main_layer.h"
#include "piping/main/main_parting.h"
#include "piping/main/main_parts.h"

namespace bw::piping {
namespace {

/// The whole main of a plant of one bank.
void lay_to_one(Builder& b, MainLayer& main, const Trunk& trunk, const MainParts& parts) {
    const PortRef end = bank_feed(b, trunk.line.service, 1);
    if (end == nowhere || !b.ok()) return;
    const double last_changes = length_of_last_changes(b, trunk.line, trunk.things);
    main.lay_between(
        trunk.line, trunk.from, end, largest_size(b, trunk.line, parts, 1), trunk.things,
        {length_to_first_item(b, trunk.line, trunk.things), std::max(main.router().stagger(), last_changes),
         length_of_first_changes(b, trunk.line, trunk.things), last_changes});
}

/// Lays a service's main from its point of connection; gives the outlets left open on it.
std::vector<Outlet> lay_main(Builder& b, Service service, Thoroughness how) {
    Line line{
        .service = service, .material = b.ground.pipe(service), .name = fmt::format("main.{}", text::name(service))};
    MainLayer main(b, line, how);
    const MainParts parts = main_parts(b, line);
    if (!b.ok()) return {};
    const survey::Connection& connection = connection_of(b, service);
    line.size = connection.size.value_or(parts.size_first);
    Trunk trunk{
        line,
        b.site(fmt::format("site.{}", text::name(service)), service, snap(connection.at), connection.facing, line.size),
        parts.things};
    if (line.size != parts.size_first)
        trunk.things.insert(trunk.things.begin(), InlineItem{.to = parts.size_first, .name = "size"});
    if (b.layout.banks.size() == 1) {
        std::ranges::copy(bank_things(b, line, parts.size_last, 1), std::back_inserter(trunk.things));
        lay_to_one(b, main, trunk, parts);
    } else {
        std::vector<int> banks;
        for (const auto& bank : b.layout.banks) banks.push_back(bank.number);
        MainParting(b, main, parts).lay_to_all(trunk, banks);
    }
    return main.outlets();
}

}  // namespace

std::optional<Service> add_mains(Builder& b, std::span<const Service> order, Thoroughness how) {
    std::vector<Outlet> outlets;
    for (const Service service : order) {
        std::ranges::move(lay_main(b, service, how), std::back_inserter(outlets));
        if (!b.ok()) return service;
    }
    finish_outlets(b, outlets);
    return std::nullopt;
}

}  // namespace bw::piping
