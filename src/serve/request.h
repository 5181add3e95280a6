// SPDX-License-Identifier: MIT
#pragma once
// What is asked, whatever carried it.

#include <map>
#include <optional>
#include <string>
#include <string_view>

namespace bw::serve {

/// A header that was not sent is empty, and so is Host where it was sent more than once.
struct Request {
    std::string method, path;                               ///< the path decoded
    std::map<std::string, std::string, std::less<>> query;  ///< decoded; the first of a name
    std::string host, origin, site, type;
    std::string encodings;  ///< Accept-Encoding
    std::string tag;        ///< If-None-Match
    bool has_body = false;
    std::string body;

    /// GET, or HEAD, which differs in what is sent back alone.
    [[nodiscard]] bool reads() const { return method == "GET" || method == "HEAD"; }
};

/// Path and query from a request's target. False where it is none of ours to read: not decodable.
[[nodiscard]] bool read_target(std::string_view target, Request& request);

}  // namespace bw::serve
