// SPDX-License-Identifier: MIT
#include "code/fixture_probability.h"

#include <array>

#include "code/sources.h"

namespace bw::code {

namespace {

using namespace std::string_view_literals;
using text::Fixture;

constexpr std::array names{"bar-sink"sv,    "bathtub"sv,    "bidet"sv,          "clothes-washer"sv,
                           "bath-shower"sv, "dishwasher"sv, "kitchen-faucet"sv, "laundry-faucet"sv,
                           "lavatory"sv,    "shower"sv,     "water-closet"sv};

struct Row {
    double busy, gpm;
};
// From memory of the study's recommended values, in the order of the names.
constexpr std::array<Row, names.size()> rows{{{0.020, 1.5},
                                              {0.010, 5.5},
                                              {0.010, 2.0},
                                              {0.055, 3.5},
                                              {0.055, 5.5},
                                              {0.005, 1.3},
                                              {0.020, 2.2},
                                              {0.020, 2.0},
                                              {0.020, 1.5},
                                              {0.045, 2.0},
                                              {0.010, 3.0}}};

Source study() {
    return {"Peak Water Demand Study (Buchberger, Omaghomi, Wolfe, Hewitt, Cole) and UPC 2018 Appendix M", "2017",
            "recommended probabilities and flows for dwellings", Standing::memory};
}

DrawnFlow of_code(double gpm, Standing standing) { return {gpm * gallon_per_minute, ipc("Table 604.3", standing)}; }

}  // namespace

static std::span<const std::string_view> likely_names() { return names; }

std::string_view name(LikelyFixture fixture) { return names.at(static_cast<std::size_t>(fixture)); }

Likely likely(LikelyFixture fixture) {
    const auto& row = rows.at(static_cast<std::size_t>(fixture));
    return {row.busy, row.gpm * gallon_per_minute, study()};
}

std::optional<LikelyFixture> likely_row(Fixture fixture) {
    switch (fixture) {
        case Fixture::bar_sink: return LikelyFixture::bar_sink;
        case Fixture::basin_private: return LikelyFixture::lavatory;
        case Fixture::bath_shower: return LikelyFixture::bath_shower;
        case Fixture::bathtub: return LikelyFixture::bathtub;
        case Fixture::bidet: return LikelyFixture::bidet;
        case Fixture::clothes_washer: return LikelyFixture::clothes_washer;
        case Fixture::dishwasher: return LikelyFixture::dishwasher;
        case Fixture::kitchen_sink: return LikelyFixture::kitchen_faucet;
        case Fixture::laundry_tub: return LikelyFixture::laundry_faucet;
        case Fixture::shower: return LikelyFixture::shower;
        case Fixture::water_closet: return LikelyFixture::water_closet;
        case Fixture::basin_public:
        case Fixture::clothes_washer_public:
        case Fixture::foot_basin:
        case Fixture::kitchen_sink_commercial:
        case Fixture::pantry_sink:
        case Fixture::service_sink:
        case Fixture::shower_public:
        case Fixture::urinal: return std::nullopt;
    }
    return std::nullopt;
}

std::optional<DrawnFlow> drawn_flow(Fixture fixture) {
    if (fixture == Fixture::water_closet || fixture == Fixture::urinal) return std::nullopt;
    if (auto row = likely_row(fixture)) {
        auto found = likely(*row);
        return DrawnFlow{found.flow, found.source};
    }
    switch (fixture) {
        case Fixture::basin_public: return of_code(0.4, Standing::published);
        case Fixture::service_sink: return of_code(3.0, Standing::memory);
        case Fixture::kitchen_sink_commercial:
        case Fixture::pantry_sink: return of_code(2.5, Standing::memory);
        case Fixture::shower_public: return DrawnFlow{likely(LikelyFixture::shower).flow, study()};
        case Fixture::clothes_washer_public: return DrawnFlow{likely(LikelyFixture::clothes_washer).flow, study()};
        case Fixture::foot_basin: return DrawnFlow{1.5 * gallon_per_minute, practice()};
        default: return std::nullopt;
    }
}

bool drawn_hot(Fixture fixture) {
    switch (fixture) {
        case Fixture::clothes_washer:
        case Fixture::clothes_washer_public:
        case Fixture::dishwasher:
        case Fixture::kitchen_sink_commercial:
        case Fixture::pantry_sink: return true;
        default: return false;
    }
}

}  // namespace bw::code

namespace bw::text {

template <>
Words words_of<code::LikelyFixture>() {
    return {"fixture", code::likely_names()};
}

}  // namespace bw::text
