// SPDX-License-Identifier: MIT
#include "serve/gate.h"

#include <fmt/format.h>

#include <algorithm>

namespace bw::serve {
namespace {

constexpr std::size_t longest_path = 512;

constexpr int plain_port = 80;  // which a browser leaves out

bool ours(std::string_view authority, int port) {
    const auto named = [&](std::string_view name) {
        return authority == fmt::format("{}:{}", name, port) || (port == plain_port && authority == name);
    };
    return named("127.0.0.1") || named("localhost") || named("[::1]");
}

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

std::optional<Answer> refused(const Request& request, int port) {
    if (!ours(request.host, port))
        return refusal(421, "this program answers only on this computer", fmt::format("http://127.0.0.1:{}/", port));
    if (odd(request.path)) return refusal(404, "there is nothing at this address");
    const bool api = request.path.starts_with("/api/");
    const bool foreign = !request.site.empty() && request.site != "same-origin" && request.site != "none";
    const bool other =
        !request.origin.empty() && !(request.origin.starts_with("http://") && ours(request.origin.substr(7), port));
    if (other || (foreign && (api || !request.reads())))
        return refusal(403, "another site's page may not ask this program");
    if (request.has_body && (request.reads() || request.method == "DELETE"))
        return refusal(400, "a request of this kind carries no body");
    if (request.reads()) return std::nullopt;
    if (request.method != "POST" && request.method != "PATCH" && request.method != "PUT" && request.method != "DELETE")
        return refusal(405, "this is not done here", "GET, POST, PATCH, PUT or DELETE");
    // a form of another site cannot send these types without asking first
    const auto type = plain_type(request.type);
    if (request.has_body && type != "application/json" && type != "application/toml")
        return refusal(415, "the request's body is of another kind",
                       "Content-Type: application/json, or application/toml for a survey");
    return std::nullopt;
}

}  // namespace bw::serve
