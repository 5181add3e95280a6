// SPDX-License-Identifier: MIT
#pragma once
// The job of the larger benchmarks.

#include "catalogue/catalogue.h"
#include "survey/survey.h"

namespace bw::bench {

struct Job {
    survey::Survey survey;
    catalogue::Catalogue catalogue;
};

/// Sixteen heaters in a roomy cellar.
[[nodiscard]] Result<Job> sixteen();

}  // namespace bw::bench
