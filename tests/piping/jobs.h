// SPDX-License-Identifier: MIT
#pragma once
// The examples taken as far as their layouts, for the tests of what is built from them.

#include <string>
#include <vector>

#include "catalogue/catalogue.h"
#include "demand/demand.h"
#include "layout/layout.h"
#include "piping/piping.h"
#include "survey/survey.h"

namespace bw::tests {

struct Job {
    std::string name;
    survey::Survey survey;
    demand::Demand demand;
    demand::Capacity capacity;
    plant::Layouts layouts;
};

const catalogue::Catalogue& demo_catalogue();
/// Reads `examples/<name>.toml` and goes on to its layouts; a failure is fatal to the test program.
Job job_of(const std::string& name);
Job job_from(const std::string& name, survey::Survey survey);
std::vector<std::string> example_names();

}  // namespace bw::tests
