// SPDX-License-Identifier: MIT
#include "serve/body.h"

#include <fmt/format.h>

#include <limits>

#include "jobs/edit.h"
#include "jobs/store.h"

namespace bw::serve {
namespace {

using reason::Json;

/// Whether brackets nest past what any request needs: what walks a deep tree would run out of stack.
bool nests_too_deeply(const std::string& body) {
    int depth = 0;
    bool in_text = false;
    for (std::size_t i = 0; i < body.size(); ++i) {
        const char c = body[i];
        if (in_text) {
            if (c == '\\') ++i;
            if (c == '"') in_text = false;
        } else if (c == '"') {
            in_text = true;
        } else if (c == '[' || c == '{') {
            if (++depth > 24) return true;
        } else if (c == ']' || c == '}') {
            --depth;
        }
    }
    return false;
}

/// For the parser, which looks through all keys of an object for each: stops it where they are too many.
Json::parser_callback_t keys_counted(bool& too_many) {
    return [&too_many, open = std::vector<std::size_t>()](int, Json::parse_event_t event, Json&) mutable {
        if (event == Json::parse_event_t::object_start) open.push_back(0);
        if (event == Json::parse_event_t::object_end) open.pop_back();
        if (event == Json::parse_event_t::key && ++open.back() > jobs::most_keys) too_many = true;
        return !too_many;
    };
}

}  // namespace

tl::expected<Json, Answer> object_of(const std::string& body) {
    if (nests_too_deeply(body))
        return tl::unexpected(refusal(400, "the request nests too deeply", "at most 24 levels"));
    bool too_many = false;
    auto json = Json::parse(body, keys_counted(too_many), false);
    if (too_many)
        return tl::unexpected(
            refusal(400, "the request holds too many keys in one place", fmt::format("at most {}", jobs::most_keys)));
    if (json.is_discarded() || !json.is_object())
        return tl::unexpected(refusal(400, "the request is not understood", "a JSON object"));
    return json;
}

std::string name_in(const Json& json) {
    return json.contains("name") && json["name"].is_string() ? jobs::plain_name(json["name"].get<std::string>()) : "";
}

/// A revision's number; nothing where it cannot be one.
std::optional<int> revision_in(const Json& json) {
    if (!json.is_number_unsigned() || json.get<std::uint64_t>() > std::numeric_limits<int>::max()) return std::nullopt;
    return json.get<int>();
}

}  // namespace bw::serve
