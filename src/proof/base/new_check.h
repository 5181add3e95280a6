// SPDX-License-Identifier: MIT
#pragma once
// Small helpers to write a check in few lines.

#include <fmt/format.h>

#include <string>
#include <vector>

#include "proof/base/cite.h"
#include "proof/base/plant_index.h"
#include "reason/register/register.h"

namespace bw::proof {

using reason::Check;
using reason::Named;
using reason::new_check;
using reason::Sense;
using reason::Status;
using reason::Term;
using Checks = std::vector<Check>;

/// value <= limit, judged.
[[nodiscard]] Check at_most(Check check, units::Amount value, units::Amount limit);
/// value >= limit, judged.
[[nodiscard]] Check at_least(Check check, units::Amount value, units::Amount limit);
/// Value beside limit with its margin, for a check that is then referred.
[[nodiscard]] Check compared(Check check, units::Amount value, Sense sense, units::Amount limit);
/// A temperature is a point on a scale, so a share of it means nothing: value and limit stand in the working, no
/// margin.
[[nodiscard]] Check with_temperatures(Check check, units::Temperature value, std::string limit_says,
                                      units::Temperature limit);
/// Holds or not, with the sentence for either case.
[[nodiscard]] Check holds(Check check, bool yes, std::string when_yes, std::string when_no);

/// Adds a line of working.
void step(Check& check, std::string says, std::string formula = {}, std::vector<Term> given = {},
          std::optional<Term> result = {});
/// Notes the survey fields a check rests on; only those that were assumed are kept.
void depends_on_fields(Check& check, const survey::Survey& survey, const std::vector<std::string>& fields);
/// Names the pieces a check is about.
void about(Check& check, const PlantIndex& view, const std::vector<int>& pieces);

/// A walk of pieces as a derivation line: "heater-3 > heater-3.gas.union > ...".
[[nodiscard]] std::string chain(const PlantIndex& view, const std::vector<Step>& path);
[[nodiscard]] std::string us(const units::Amount& amount);

/// A service for a row's <name>.
[[nodiscard]] Named named(std::string_view name, Service service);

}  // namespace bw::proof
