// SPDX-License-Identifier: MIT
#pragma once
// What the parts of Live share.

#include <algorithm>
#include <string>
#include <thread>

#include "serve/live.h"

namespace bw::serve {

[[nodiscard]] inline int cores() { return std::clamp(static_cast<int>(std::thread::hardware_concurrency()), 1, 8); }

[[nodiscard]] inline Place place_of(const design::Result& result) {
    return {result.capacity.heater, result.chosen->layout.id};
}

/// A plant that stays what is shown, beside all the others it might have been.
[[nodiscard]] design::Result beside(const design::Result& shown, design::Result whole);

/// What a page is told of a revision that has no view.
[[nodiscard]] std::string failure(int revision, const Error& why);

}  // namespace bw::serve
