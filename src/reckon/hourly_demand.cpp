// SPDX-License-Identifier: MIT
#include "code/hourly_demand.h"

#include "reckon/topic.h"

namespace bw::reckon {

namespace {

using units::Kind;

Result<Findings> run(const Inputs& in, const catalogue::Catalogue&) {
    std::map<text::Fixture, int> counts;
    for (const auto fixture : code::hourly_fixtures()) {
        const auto name = text::name(fixture);
        if (in.has(name) && in.number(name) > 0) counts[fixture] = static_cast<int>(in.number(name));
    }
    const auto demand = code::hourly_demand(in.named<text::Building>("building"), counts);
    if (!demand) return tl::unexpected(demand.error());
    const auto& found = demand->value;
    return Findings{
        {{"possible", units::amount(found.possible, Kind::hourly_flow), "all fixtures, water at 140 degF"},
         {"probable", units::amount(found.probable, Kind::hourly_flow), "with the building's demand factor"},
         {"storage", units::amount(found.storage), "usable tank for the probable hour"}},
        demand->derivation,
        demand->sources};
}

}  // namespace

Entry hourly_demand() {
    Topic topic{
        "hourly-demand",
        "Hot water of a building's busiest hour, by the handbook's fixture table",
        {{.name = "building", .says = "kind of building", .form = Form::word, .choices = words<text::Building>()}}};
    for (const auto fixture : code::hourly_fixtures())
        topic.names.push_back(
            {.name = text::name(fixture), .says = "how many", .form = Form::count, .required = false});
    return {std::move(topic), run};
}

}  // namespace bw::reckon
