// SPDX-License-Identifier: MIT
#pragma once
// What a check that holds on paper may claim. The one place where a pass is turned into a referral: because it leans on
// a code nobody stated as adopted, on another edition, or on something about safety that was only assumed.

#include "reason/reason.h"
#include "survey/survey.h"

namespace bw::proof {

/// Settles a computed check against the survey. A failing check stays failing: an unconfirmed assumption never excuses
/// a failure. A check already referred keeps its sentence and gains nothing but its notes.
void apply_adoption_policy(reason::Check& check, const survey::Survey& survey);

/// Who confirms an assumed field: "the gas supplier", "the building's owner or structural engineer".
[[nodiscard]] std::string who_confirms(std::string_view field);

/// The body of law a document belongs to ("fuel gas", "plumbing", ...); empty for standards nobody adopts by name.
[[nodiscard]] std::string_view law_of(std::string_view document);

}  // namespace bw::proof
