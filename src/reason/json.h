// SPDX-License-Identifier: MIT
#pragma once
// One JSON shape for amounts, sources, derivations and checks, used by every document that carries them.

#include <nlohmann/json.hpp>

#include "reason/reason.h"

namespace bw::reason {

using Json = nlohmann::ordered_json;

/// {"value": 12.3, "unit": "gpm"}, the value rounded to ten significant digits.
[[nodiscard]] Json to_json(const Amount& amount, units::System system);
/// {"document", "edition", "clause", "standing"}.
[[nodiscard]] Json to_json(const Source& source);
[[nodiscard]] Json to_json(const Sources& sources);
/// [{"says", "formula", "given": [{"symbol", "meaning", "value", "unit"}], "result": {…}}].
[[nodiscard]] Json to_json(const Derivation& derivation, units::System system);
[[nodiscard]] Json to_json(const Check& check, units::System system);

/// A double at ten significant digits: 42.300000000000004 is nobody's answer.
[[nodiscard]] double rounded(double value);

}  // namespace bw::reason
