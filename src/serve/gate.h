// SPDX-License-Identifier: MIT
#pragma once
// Who is answered: only whoever asks this computer by its own name, and nobody else's page.

#include <optional>
#include <string>

#include "serve/answer.h"

namespace bw::serve {

/// What of a request decides whether it is answered. Empty: the header was not sent.
struct Caller {
    std::string method, path, host, origin, site, type;
    std::size_t hosts = 1;  ///< Host headers sent
    bool body = false;
};

/// The refusal, or nothing.
[[nodiscard]] std::optional<Answer> refused(const Caller& caller, int port);

}  // namespace bw::serve
