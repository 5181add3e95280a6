// SPDX-License-Identifier: MIT
#include "jobs.h"

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <iostream>

namespace bw::tests {
namespace {

template <class T>
T take(Result<T> result, const std::string& name) {
    if (result) return std::move(*result);
    std::cerr << name << ": " << units::describe(result.error()) << "\n";
    std::abort();
}

}  // namespace

const catalogue::Catalogue& demo_catalogue() {
    static const catalogue::Catalogue catalogue = take(catalogue::load(), "catalogue");
    return catalogue;
}

Job job_from(const std::string& name, survey::Survey survey) {
    Job job;
    job.name = name;
    job.survey = std::move(survey);
    job.demand = take(demand::peak_demand(job.survey), name);
    job.capacity = take(demand::capacity(job.survey, job.demand, demo_catalogue()), name);
    job.layouts = layout::candidates(job.survey, *demo_catalogue().heater(job.capacity.heater), job.capacity.installed);
    return job;
}

Job job_of(const std::string& name) {
    return job_from(name, take(survey::read(std::string(BANKWRIGHT_SOURCE) + "/examples/" + name + ".toml"), name));
}

std::vector<std::string> example_names() {
    std::vector<std::string> names;
    for (const auto& entry : std::filesystem::directory_iterator(std::string(BANKWRIGHT_SOURCE) + "/examples"))
        if (entry.path().extension() == ".toml") names.push_back(entry.path().stem().string());
    std::ranges::sort(names);
    return names;
}

}  // namespace bw::tests
