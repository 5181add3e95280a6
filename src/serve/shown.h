// SPDX-License-Identifier: MIT
#pragma once
// A plant worked out for one revision of a job, and what the page sees of it.

#include <memory>
#include <optional>
#include <string>

#include "design/design.h"
#include "design/solved.h"
#include "reason/json.h"

namespace bw::serve {

/// A revision's result; never changed once made.
struct Shown {
    int revision = 0;
    design::Result result;
    std::optional<design::Solved> solved;  ///< empty where nothing was chosen
    bool settled = false;                  ///< every candidate was tried
};
using ShownPtr = std::shared_ptr<const Shown>;

/// {"value", "unit", "text"}.
[[nodiscard]] reason::Json quantity(const units::Amount& amount, units::System system);

/// `wider`: the whole choice of a settled result.
[[nodiscard]] std::string wider(const Shown& shown, units::System system);
/// What a trial changes: price, heaters, and the checks whose status differs.
[[nodiscard]] reason::Json changed(const Shown& was, const Shown& then, units::System system);
/// One check with its working and what would mend it. Null where there is none of this id.
[[nodiscard]] reason::Json check_whole(const Shown& shown, const std::string& id, units::System system);

}  // namespace bw::serve
