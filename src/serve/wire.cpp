// SPDX-License-Identifier: MIT
#include "serve/wire.h"

#include <fmt/format.h>

namespace bw::serve {
namespace {

/// On every answer, refusals too.
constexpr std::string_view shields =
    "Content-Security-Policy: default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; "
    "font-src 'self'; connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'\r\n"
    "X-Content-Type-Options: nosniff\r\n"
    "Referrer-Policy: no-referrer\r\n"
    "Cross-Origin-Opener-Policy: same-origin\r\n"
    "Cross-Origin-Resource-Policy: same-origin\r\n"
    "Accept-Ranges: none\r\n";

}  // namespace

std::string head_of(const Answer& answer, std::string_view reason, After after) {
    auto out = fmt::format("HTTP/1.1 {} {}\r\n{}", answer.status, reason, shields);
    const auto add = [&](std::string_view name, std::string_view value) {
        fmt::format_to(std::back_inserter(out), "{}: {}\r\n", name, value);
    };
    add("Cache-Control", answer.tag.empty() ? "no-store" : "no-cache");
    if (!answer.tag.empty()) add("ETag", answer.tag);
    if (!answer.encoding.empty()) add("Content-Encoding", answer.encoding), add("Vary", "Accept-Encoding");
    if (!answer.file.empty()) add("Content-Disposition", fmt::format("attachment; filename=\"{}\"", answer.file));
    if (!answer.body.empty()) add("Content-Type", answer.type);
    if (answer.status != 204 && answer.status != 304) add("Content-Length", std::to_string(answer.body.size()));
    add("Connection", after == After::keep ? "keep-alive" : "close");
    return out + "\r\n";
}

std::string head_of_events() {
    return fmt::format(
        "HTTP/1.1 200 OK\r\n{}Cache-Control: no-store\r\nX-Accel-Buffering: no\r\nContent-Type: text/event-stream\r\n"
        "Connection: close\r\n\r\n",
        shields);
}

}  // namespace bw::serve
