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

/// A TOML text as JSON, in the file's order; quantities stay the texts they are. Fails where it is no TOML, or holds a
/// date.
[[nodiscard]] Result<Json> tree(const std::string& text, const std::string& file);

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
