// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "plant/plant.h"

namespace bw::tests {

/// Pairs of pieces whose bodies share more than `depth` metres, though no joint holds them together.
std::vector<std::string> clashes(const plant::Plant& plant, double depth = 0.002);

}  // namespace bw::tests
