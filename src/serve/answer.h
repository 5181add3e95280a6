// SPDX-License-Identifier: MIT
#pragma once
// What goes back over the wire, whatever carries it.

#include <string>

#include "reason/json.h"
#include "units/error.h"

namespace bw::serve {

struct Answer {
    int status = 200;
    std::string type = "application/json";
    std::string body;
    std::string file;      ///< offered for download under this name; empty: shown
    std::string encoding;  ///< "gzip" where the body is
    std::string tag;       ///< ETag, where it may be kept
};

[[nodiscard]] Answer answer(int status, const reason::Json& json);
/// {"error":{"says", "expected", "path", "line", "column"}}.
[[nodiscard]] Answer refusal(int status, const std::string& says, const std::string& expected = {});
[[nodiscard]] reason::Json error_json(const Error& error);

}  // namespace bw::serve
