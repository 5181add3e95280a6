// SPDX-License-Identifier: MIT
#pragma once
// Ink of each service: our own choice, readable in black and white by the label beside each line.

#include "draw/canvas.h"
#include "text/vocabulary.h"

namespace bw::draw {

[[nodiscard]] constexpr Colour ink(text::Service service) {
    using text::Service;
    switch (service) {
        case Service::gas: return {0.55, 0.38, 0.00};
        case Service::cold: return {0.10, 0.33, 0.62};
        case Service::hot: return {0.70, 0.15, 0.13};
        case Service::recirculation: return {0.50, 0.22, 0.52};
        case Service::exhaust: return {0.28, 0.28, 0.30};
        case Service::intake: return {0.25, 0.50, 0.52};
        case Service::condensate: return {0.28, 0.45, 0.12};
        case Service::relief: return {0.80, 0.40, 0.10};
        case Service::power: return {0.15, 0.15, 0.15};
        case Service::link: return {0.35, 0.35, 0.60};
        case Service::structure: return {0.55, 0.55, 0.57};
    }
    return black;
}

/// Paper tone inside a piece: the service's ink, mostly white.
[[nodiscard]] constexpr Colour tint(text::Service service) {
    const auto c = ink(service);
    constexpr double keep = 0.18;
    return {1 - keep * (1 - c.r), 1 - keep * (1 - c.g), 1 - keep * (1 - c.b)};
}

}  // namespace bw::draw
