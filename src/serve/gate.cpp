// SPDX-License-Identifier: MIT
#include "serve/gate.h"

#include <fmt/format.h>

#include <algorithm>

namespace bw::serve {
namespace {

constexpr std::size_t longest_path = 512;

bool ours(const std::string& authority, int port) {
    const auto with_port = [&](const char* name) { return fmt::format("{}:{}", name, port); };
    return authority == with_port("127.0.0.1") || authority == with_port("localhost") ||
           authority == with_port("[::1]");
}

bool reads(const std::string& method) { return method == "GET" || method == "HEAD"; }

bool odd(const std::string& path) {
    return path.empty() || path.front() != '/' || path.size() > longest_path ||
           std::any_of(path.begin(), path.end(),
                       [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == '\\' || c == 0x7F; }) ||
           path.find("..") != std::string::npos || path.find("//") != std::string::npos;
}

std::string plain_type(const std::string& type) {
    std::string out;
    for (const char c : type.substr(0, type.find(';')))
        if (c != ' ' && c != '\t') out += static_cast<char>(c >= 'A' && c <= 'Z' ? c + 32 : c);
    return out;
}

}  // namespace

std::optional<Answer> refused(const Caller& caller, int port) {
    if (caller.hosts != 1 || !ours(caller.host, port))
        return refusal(421, "this program answers only on this computer", fmt::format("http://127.0.0.1:{}/", port));
    if (odd(caller.path)) return refusal(404, "there is nothing at this address");
    const bool api = caller.path.starts_with("/api/");
    const bool foreign = !caller.site.empty() && caller.site != "same-origin" && caller.site != "none";
    const bool other =
        !caller.origin.empty() && !(caller.origin.starts_with("http://") && ours(caller.origin.substr(7), port));
    if (other || (foreign && (api || !reads(caller.method))))
        return refusal(403, "another site's page may not ask this program");
    if (reads(caller.method)) return std::nullopt;
    if (caller.method != "POST" && caller.method != "PATCH" && caller.method != "PUT" && caller.method != "DELETE")
        return refusal(405, "this is not done here", "GET, POST, PATCH, PUT or DELETE");
    // a form of another site cannot send these types without asking first
    const auto type = plain_type(caller.type);
    if (caller.body && type != "application/json" && type != "application/toml")
        return refusal(415, "the request's body is of another kind",
                       "Content-Type: application/json, or application/toml for a survey");
    return std::nullopt;
}

}  // namespace bw::serve
