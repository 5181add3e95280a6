// SPDX-License-Identifier: MIT
#pragma once
// The sections of the survey, one reader each. They run in the order below: later ones lean on earlier ones.

#include <optional>

#include "survey/survey.h"
#include "text/toml.h"

namespace bw::survey {

/// The file's top tables.
struct Top {
    text::Node file;
    std::optional<text::Node> job, building, supply, gas, site, water, recirculation, room, connections, codes, safety,
        preferences;
};

[[nodiscard]] Result<void> read_job(const Top& top, Survey& out);
[[nodiscard]] Result<void> read_building(const Top& top, Survey& out);
[[nodiscard]] Result<void> read_supply(const Top& top, Survey& out);
[[nodiscard]] Result<void> read_gas(const Top& top, Survey& out);
[[nodiscard]] Result<void> read_site(const Top& top, Survey& out);
[[nodiscard]] Result<void> read_water(const Top& top, Survey& out);
[[nodiscard]] Result<void> read_recirculation(const Top& top, Survey& out);
[[nodiscard]] Result<void> read_codes(const Top& top, Survey& out);
[[nodiscard]] Result<void> read_safety(const Top& top, Survey& out);
[[nodiscard]] Result<void> read_preferences(const Top& top, Survey& out);
/// Plan, walls, doors, obstacles, way in, and the connections, given or placed by assumption.
[[nodiscard]] Result<void> read_room(const Top& top, Survey& out);

}  // namespace bw::survey
