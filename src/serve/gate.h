// SPDX-License-Identifier: MIT
#pragma once
// Who is answered: only whoever asks this computer by its own name, and nobody else's page.

#include <optional>

#include "serve/answer.h"
#include "serve/request.h"

namespace bw::serve {

/// The refusal, or nothing; the body need not have been read.
[[nodiscard]] std::optional<Answer> refused(const Request& request, int port);

}  // namespace bw::serve
