// SPDX-License-Identifier: MIT
// How likely each kind of fixture runs in the busiest hour, and how much hot water it then takes.
#include "code/fixture_probability.h"
#include "code/hourly_demand.h"
#include "demand/methods.h"

namespace bw::demand {

namespace {

using text::Building;
using text::Fixture;

bool dwelling(Building building) { return building == Building::apartment || building == Building::residence; }

/// The share of its time a fixture must run to draw the handbook's probable hour.
Result<std::optional<double>> share_of_hour(const survey::Survey& survey, Fixture fixture, VolumeFlow drawn) {
    auto row = code::hourly_row(fixture);
    if (!row) return std::optional<double>();
    auto building = *survey.use.building;
    auto rate = code::hourly_rate(building, *row);
    if (!rate) return std::optional<double>();
    auto hot = hot_part(survey, fixture, drawn, fahrenheit(140));
    if (!hot) return tl::unexpected(hot.error());
    return std::optional<double>(std::min(1.0, code::hourly_factors(building).demand * double(rate->used() / *hot)));
}

struct Chance {
    double busy = 0;
    std::string why;
    bool studied = false;
};

Result<std::optional<Chance>> chance_of(const survey::Survey& survey, Fixture fixture, VolumeFlow drawn) {
    using Found = std::optional<Chance>;
    if (auto given = survey.use.busy.find(fixture); given != survey.use.busy.end())
        return Found({given->second, "the survey's", true});
    auto row = code::likely_row(fixture);
    const bool home = dwelling(*survey.use.building);
    if (row && home) return Found({code::likely(*row).busy, "Peak Water Demand Study and UPC Appendix M", true});
    auto share = share_of_hour(survey, fixture, drawn);
    if (!share) return tl::unexpected(share.error());
    if (*share)
        return Found({**share,
                      fmt::format("share of the handbook's probable hour it must run{}",
                                  **share >= 1 ? ", which is all of it" : ""),
                      false});
    if (fixture == Fixture::clothes_washer_public) row = code::LikelyFixture::clothes_washer;
    if (!row) return Found();
    return Found({code::likely(*row).busy, "the study's for dwellings, for want of another", false});
}

}  // namespace

Result<VolumeFlow> hot_part(const survey::Survey& survey, Fixture fixture, VolumeFlow drawn, Temperature hot) {
    if (code::drawn_hot(fixture)) return drawn;
    auto share = hot_share(*survey.supply.coldest, std::min(*survey.temperatures.use, hot), hot);
    if (!share) return tl::unexpected(share.error());
    return *share * drawn;
}

Result<Loads> fixture_loads(const survey::Survey& survey) {
    Loads out;
    for (const auto& [fixture, count] : survey.use.fixtures) {
        auto drawn = code::drawn_flow(fixture);
        if (!drawn || count <= 0) continue;
        auto chance = chance_of(survey, fixture, drawn->flow);
        if (!chance) return tl::unexpected(chance.error());
        if (!*chance) {
            out.without_chance.emplace_back(text::name(fixture));
            continue;
        }
        auto hot = hot_part(survey, fixture, drawn->flow, *survey.temperatures.distribution);
        if (!hot) return tl::unexpected(hot.error());
        out.loads.push_back({fixture, count, (*chance)->busy, drawn->flow, *hot, (*chance)->why, (*chance)->studied});
        if (std::find(out.sources.begin(), out.sources.end(), drawn->source) == out.sources.end())
            out.sources.push_back(drawn->source);
    }
    return out;
}

Result<Spread> spread_of(const std::vector<FixtureLoad>& loads, double share) {
    std::vector<FixtureGroup> kinds;
    for (const auto& load : loads)
        kinds.push_back(
            {load.count, load.busy * share, std::max(1, static_cast<int>(std::lround(load.hot / lattice_step)))});
    return Spread::of(kinds);
}

}  // namespace bw::demand
