// SPDX-License-Identifier: MIT
#pragma once
// Plants built from the examples, and ways through them, for the tests of single services.

#include <functional>
#include <string>
#include <vector>

#include "jobs.h"
#include "piping/kit/builder.h"

namespace bw::tests {

/// A plant and the job it was built for; `layout` is the first candidate that could be built.
struct Plant {
    Job job;
    plant::Layout layout;
    piping::Built built;
};

/// The example's plant, built once; fatal to the test program, with every candidate's reason, where none can be built.
const Plant& plant_of(const std::string& example);
/// The same after a change to the survey; not kept.
Plant plant_with(const std::string& example, const std::function<void(survey::Survey&)>& change);

const catalogue::Heater& heater_of(const Plant& plant);
/// Pieces from a port outwards by one service, the nearest first, each once.
std::vector<int> reached(const plant::Plant& plant, plant::PortRef from, text::Service service);
/// The shortest chain of pieces from a port to the first piece of a part, both ends included; empty when there is none.
std::vector<int> way_to(const plant::Plant& plant, plant::PortRef from, text::Part part);
plant::PortRef heater_port_of(const plant::Plant& plant, int heater, std::string_view port);
int count(const plant::Plant& plant, text::Part part);

}  // namespace bw::tests
