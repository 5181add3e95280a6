// SPDX-License-Identifier: MIT
#pragma once
// How likely a fixture runs in a dwelling's busiest hour, and what it then draws.

#include <optional>
#include <span>
#include <string_view>

#include "code/clause.h"

namespace bw::code {

enum class LikelyFixture {
    bar_sink,
    bathtub,
    bidet,
    clothes_washer,
    bath_shower,
    dishwasher,
    kitchen_faucet,
    laundry_faucet,
    lavatory,
    shower,
    water_closet,
};
/// "bath-shower".
[[nodiscard]] std::string_view name(LikelyFixture fixture);

struct Likely {
    double busy = 0;    ///< chance that it runs at a moment of the busiest hour
    VolumeFlow flow{};  ///< of an efficient fixture, as drawn
    Source source;
};
/// Source: Peak Water Demand Study (2017) and UPC 2018 Appendix M; dwellings only.
[[nodiscard]] Likely likely(LikelyFixture fixture);
/// The row a survey fixture counts under; nullopt where the study has none (public and commercial fixtures).
[[nodiscard]] std::optional<LikelyFixture> likely_row(text::Fixture fixture);

/// Flow of a fixture as drawn, whatever the building: the study's where it has a row, else the least the plumbing code
/// asks for at the outlet; nullopt for a fixture without hot water.
struct DrawnFlow {
    VolumeFlow flow{};
    Source source;
};
[[nodiscard]] std::optional<DrawnFlow> drawn_flow(text::Fixture fixture);
/// Whether water is drawn straight from the hot pipe rather than mixed to the temperature of use.
[[nodiscard]] bool drawn_hot(text::Fixture fixture);

}  // namespace bw::code

namespace bw::text {
template <>
Words words_of<code::LikelyFixture>();
}  // namespace bw::text
