// SPDX-License-Identifier: MIT
#pragma once
// Files that travel inside the program.

#include <span>
#include <string_view>

namespace bw::text {

struct EmbeddedFile {
    std::string_view name;  ///< base name
    std::string_view text;
};

}  // namespace bw::text
