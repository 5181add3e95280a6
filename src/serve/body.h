// SPDX-License-Identifier: MIT
#pragma once
// What the body of a request says, before anything is done with it.

#include <optional>
#include <string>
#include <tl/expected.hpp>

#include "reason/json.h"
#include "serve/answer.h"

namespace bw::serve {

/// The object that a body is; a refusal where it is none, nests deeper or holds more keys than any request needs.
[[nodiscard]] tl::expected<reason::Json, Answer> object_of(const std::string& body);

/// Its `name`, as it would be kept; empty where it has none.
[[nodiscard]] std::string name_in(const reason::Json& json);

/// A revision's number; nothing where it cannot be one.
[[nodiscard]] std::optional<int> revision_in(const reason::Json& json);

}  // namespace bw::serve
