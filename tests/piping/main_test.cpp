// SPDX-License-Identifier: MIT
// Freedoms of the mains: an elbow made up on the building's stub, things in line before a turn.
#include <gtest/gtest.h>

#include "jobs.h"
#include "piping/main/inline_items.h"
#include "piping/main/main_way.h"

namespace bw::piping {
namespace {

