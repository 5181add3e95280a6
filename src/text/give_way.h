// SPDX-License-Identifier: MIT
#pragma once
// Which parts give way to others, and why. Two facts of each: it is no clash where another piece shares its room; and
// pipe that is laid later goes where it is only if it is moved aside. The others stay where they are, so routes keep
// off them all the same.

#include "text/vocabulary.h"

namespace bw::text {

/// Whether another piece may share room with it: it is soft, a seal, a clamp, driven in, or has no body.
[[nodiscard]] bool gives_way(Part part);
/// Whether pipe laid later need not keep off it, since it is moved aside on site. Such a part gives way as well.
[[nodiscard]] bool moved_aside(Part part);

}  // namespace bw::text
