// SPDX-License-Identifier: MIT
#include "plant/layout.h"

#include <cassert>
#include <cstdlib>

namespace bw::plant {

std::string_view name(Arrangement arrangement) {
    switch (arrangement) {
        case Arrangement::wall: return "wall";
        case Arrangement::rack_one_sided: return "rack-one-sided";
        case Arrangement::rack_two_sided: return "rack-two-sided";
    }
    assert(false && "an arrangement without a name");
    std::abort();
}

}  // namespace bw::plant
