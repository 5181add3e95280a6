// SPDX-License-Identifier: MIT
#pragma once

#include "jobs/edit.h"
#include "jobs/store.h"
#include "reason/json.h"
#include "survey/survey.h"

namespace bw::serve {

/// A row of the list of jobs.
[[nodiscard]] reason::Json row_json(const jobs::Job& job);
/// What moved, for those who have the job open.
[[nodiscard]] reason::Json moved_json(const jobs::Job& job);
/// What was assumed, each with the edits that confirm it where one value does.
[[nodiscard]] reason::Json assumed_json(const survey::Survey& survey, const reason::Json& tree);

}  // namespace bw::serve
