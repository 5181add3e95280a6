// SPDX-License-Identifier: MIT
#pragma once
// What would mend a check, where one is known: a sentence and the edits of the survey that do it.

#include <string>
#include <vector>

#include "jobs/edit.h"
#include "reason/reason.h"
#include "survey/survey.h"

namespace bw::serve {

struct Remedy {
    std::string says;
    std::vector<jobs::Edit> edits;
};

/// Likeliest first; none for a check that passes. What an edit really does is for a trial to show.
[[nodiscard]] std::vector<Remedy> remedies(const reason::Check& check, const survey::Survey& survey);

}  // namespace bw::serve
