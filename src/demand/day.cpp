// SPDX-License-Identifier: MIT
// How a day's draw runs, hour by hour.
#include "demand/methods.h"

namespace bw::demand {

namespace {

using text::Building;
using Shape = std::array<double, 24>;

// Shares of the busiest hour from midnight on, in a few steps: shapes of our own from common practice, no source.
constexpr Shape home{.1, .1, .1,  .1,  .1, .25, .75, 1,   .75, .5, .5,  .5,
                     .5, .5, .25, .25, .5, .5,  .75, .75, .75, .5, .25, .1};
constexpr Shape hotel{.1,  .1,  .1,  .1,  .1,  .5, .75, 1,  .75, .5, .25, .25,
                      .25, .25, .25, .25, .25, .5, .5,  .5, .5,  .5, .25, .1};
constexpr Shape hospital{.1, .1, .1, .1, .1, .25, .5, .75, 1,  1,   .75, .75,
                         .5, .5, .5, .5, .5, .5,  .5, .5,  .5, .25, .1,  .1};
constexpr Shape club{0, 0, 0, 0, 0, 0, .25, .5, .25, .25, .25, .5, .75, .5, .25, .25, .5, .75, 1, .75, .5, .25, .1, 0};
constexpr Shape gymnasium{0,  0,   0,   0,  0,  0,   .25, .5, .25, .25, .25, .25,
                          .5, .25, .25, .5, .5, .75, 1,   1,  .75, .5,  .1,  0};
constexpr Shape industrial{.1, .1,  .1, .1, .1, .25, .5, .25, .1, .1, .1, .25,
                           .5, .25, .5, 1,  .5, .25, .1, .1,  .1, .1, .1, .1};
constexpr Shape office{0, 0, 0, 0, 0, 0, 0, .25, .5, .75, .75, .75, 1, 1, .75, .75, .75, .5, .25, .1, 0, 0, 0, 0};
constexpr Shape school{0, 0, 0, 0, 0, 0, 0, .25, .5, .5, .75, 1, 1, .75, .5, .5, .25, .25, .1, 0, 0, 0, 0, 0};

/// The day sharpened or flattened until its busiest hour is `share` of it; every level kept apart from the others.
Shape sharpened(const Shape& shape, double share) {
    const auto busiest = [&](double power) {
        double sum = 0;
        for (const double s : shape) sum += s > 0 ? std::pow(s, power) : 0;
        return 1 / sum;
    };
    double low = 0.05, high = 20;
    for (int i = 0; i < 60; ++i) {
        const double middle = 0.5 * (low + high);
        (busiest(middle) < share ? low : high) = middle;
    }
    Shape out{};
    std::transform(shape.begin(), shape.end(), out.begin(), [&](double s) { return s > 0 ? std::pow(s, low) : 0; });
    return out;
}

const Answer* find(const Demand& demand, std::string_view id) {
    for (const auto& answer : demand.answers)
        if (answer.id == id) return &answer;
    return nullptr;
}

struct Size {
    Volume hour{}, day{};  ///< day zero: not known
    std::string says;
    reason::Sources sources;
};

/// The largest hour's volume, the greater of those served and the handbook's fixtures; else the mean of the chances.
Size size_of(const Demand& demand) {
    const auto *use = find(demand, "occupancy"), *hourly = find(demand, "hourly");
    if (use && (!hourly || *use->probable_hour >= *hourly->probable_hour))
        return {*use->probable_hour * hour, *use->max_day, "the largest hour and day of those served", use->sources};
    if (hourly)
        return {*hourly->probable_hour * hour, Volume(), "the handbook's probable hour of the fixtures",
                hourly->sources};
    VolumeFlow mean{};
    for (const auto& load : demand.loads) mean += load.count * load.busy * load.hot;
    return {mean * hour, Volume(), "the mean of the fixtures' chances", {}};
}

void add_stretches(Day& day, const Shape& shape, const std::optional<BlockLoads>& blocks) {
    for (int m = 0; m < 24 * 60; ++m) {
        const auto flow = blocks ? blocks->minutes[static_cast<std::size_t>(m)] : VolumeFlow();
        const double share = shape[static_cast<std::size_t>(m / 60)];
        if (day.stretches.empty() || day.stretches.back().share != share || day.stretches.back().blocks != flow)
            day.stretches.push_back({m, m, share, flow});
        day.stretches.back().to = m + 1;
    }
}

/// Blocks no other method counted in the hour: those without shower heads.
std::array<Volume, 24> block_volumes(const survey::Survey& survey, const std::optional<BlockLoads>& blocks) {
    std::array<Volume, 24> out{};
    if (!blocks) return out;
    auto others = survey;
    std::erase_if(others.use.blocks, [](const survey::Block& block) { return block.shower_heads > 0; });
    const auto rest = block_loads(others, busiest_hour(*survey.use.building));
    if (!rest || !*rest) return out;
    for (std::size_t m = 0; m < (*rest)->minutes.size(); ++m) out[m / 60] += (*rest)->minutes[m] * minute;
    return out;
}

}  // namespace

const Shape& day_shape(Building building) {
    switch (building) {
        case Building::apartment:
        case Building::residence: return home;
        case Building::club: return club;
        case Building::gymnasium: return gymnasium;
        case Building::hospital: return hospital;
        case Building::hotel: return hotel;
        case Building::industrial: return industrial;
        case Building::office: return office;
        case Building::school: return school;
    }
    return home;
}

int busiest_hour(Building building) {
    const auto& shape = day_shape(building);
    return static_cast<int>(std::max_element(shape.begin(), shape.end()) - shape.begin());
}

Day day_of(const survey::Survey& survey, const Demand& demand, const std::optional<BlockLoads>& blocks) {
    Day day;
    const auto& shape = day_shape(*survey.use.building);
    day.busiest = busiest_hour(*survey.use.building);
    day.share = shape;
    add_stretches(day, shape, blocks);
    const auto size = size_of(demand);
    const auto drawn = size.day.value() > 0 ? sharpened(shape, size.hour / size.day) : shape;
    const auto extra = block_volumes(survey, blocks);
    for (std::size_t h = 0; h < 24; ++h) {
        day.volume[h] = drawn[h] * size.hour + extra[h];
        day.total += day.volume[h];
        day.largest_hour = std::max(day.largest_hour, day.volume[h]);
    }
    day.says = fmt::format(
        "The size of the day is {}; its shape over the hours is a common one for a building of kind "
        "{} (common practice, no source). Blocks that are no showers are added at their times.",
        size.says, text::name(*survey.use.building));
    day.derivation = {{"Volume of each hour",
                       "Vh = shape x largest hour + blocks",
                       {{"V1", "largest hour of those served or fixtures", units::amount(size.hour)}},
                       reason::Term{"Vd", "day", units::amount(day.total)}}};
    day.sources = size.sources;
    day.sources.push_back({"", "", "", reason::Standing::common_practice});
    return day;
}

Result<std::vector<Level>> levels_of(const std::vector<FixtureLoad>& loads, const Day& day, Spread busiest) {
    std::vector<double> shares;
    for (const auto& stretch : day.stretches)
        if (stretch.share < 1) shares.push_back(stretch.share);
    std::sort(shares.begin(), shares.end());
    shares.erase(std::unique(shares.begin(), shares.end()), shares.end());
    std::vector<Level> out;
    for (const double share : shares) {
        auto spread = spread_of(loads, share);
        if (!spread) return tl::unexpected(spread.error());
        out.push_back({share, std::move(*spread)});
    }
    out.push_back({1, std::move(busiest)});
    return out;
}

}  // namespace bw::demand
