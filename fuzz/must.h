// SPDX-License-Identifier: MIT
#pragma once
// What holds of every answer, whatever was read.

#include <cstdlib>
#include <string>
#include <string_view>

#include "units/error.h"

namespace bw::fuzz {

/// Stops the fuzzer where a promise is broken.
inline void must(bool holds) {
    if (!holds) std::abort();
}

/// A refusal is one line that says something.
inline void must_explain(const Error& error) {
    const std::string text = describe(error);
    must(!error.what.empty() && text.find('\n') == std::string::npos && text.size() < 4000);
}

inline std::string_view text_of(const unsigned char* data, std::size_t size) {
    return {reinterpret_cast<const char*>(data), size};
}

}  // namespace bw::fuzz
