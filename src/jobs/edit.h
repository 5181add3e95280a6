// SPDX-License-Identifier: MIT
#pragma once
// Changes to a survey's text: one value, key, table or list entry at a time, everything else left as it was written.

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "jobs/outline.h"
#include "units/error.h"

namespace bw::jobs {

using Json = nlohmann::ordered_json;

/// Keys of one table or object: a survey has a few dozens, and finding one takes a look at each.
inline constexpr std::size_t most_keys = 2000;

/// Bytes of a survey that is taken, or made by edits: thousands of lines, and soon read whatever they hold.
inline constexpr std::size_t largest_text = 256u << 10;

/// A TOML text as JSON, in the file's order; quantities stay the texts they are. Fails where it is no TOML, holds a
/// date, or more than `most_keys` in one table.
[[nodiscard]] Result<Json> tree(const std::string& text, const std::string& file);
[[nodiscard]] Result<Json> tree(const text::Document& document);

struct Edit {
    enum class What { set, remove, append };
    Path path;
    What what = What::set;
    Json value;  ///< for set and append
};

/// `{"path":[…],"value":…}`, `{"path":[…],"remove":true}` or `{"path":[…],"append":…}`. Fails on anything else, and on
/// paths or values that nest past what a survey has use for.
[[nodiscard]] Result<std::vector<Edit>> read_edits(const Json& json);
[[nodiscard]] Json to_json(const Edit& edit);
[[nodiscard]] Json to_json(const Path& path);

/// The edit made in a tree. Fails where its path leads nowhere.
[[nodiscard]] Result<void> apply(Json& tree, const Edit& edit);
/// The edits made in the text, one after another; the text afterwards reads as the tree so edited, or it fails.
[[nodiscard]] Result<std::string> apply(const std::string& text, const std::vector<Edit>& edits);

/// A value as TOML writes it, on one line.
[[nodiscard]] std::string written_value(const Json& value);

}  // namespace bw::jobs
