// SPDX-License-Identifier: MIT
// Surveys and edits as JSON.
#include <fmt/format.h>

#include <cmath>

#include "jobs/edit.h"
#include "text/toml.h"

namespace bw::jobs {
namespace {

constexpr std::size_t deepest_path = 12;
constexpr int deepest_value = 6;
constexpr std::size_t most_edits = 200;

Result<Json> json_of(const text::Node& node) {
    if (node.is_table()) {
        Json out = Json::object();
        const auto entries = node.entries();
        if (entries.size() > most_keys)
            return node.error("a table holds too many keys", fmt::format("at most {}", most_keys));
        for (const auto& [key, child] : entries) {
            auto value = json_of(child);
            if (!value) return value;
            out[key] = std::move(*value);
        }
        return out;
    }
    if (node.is_array()) {
        Json out = Json::array();
        for (const auto& child : node.items()) {
            auto value = json_of(child);
            if (!value) return value;
            out.push_back(std::move(*value));
        }
        return out;
    }
    if (const auto text = node.as_string()) return Json(*text);
    if (const auto whole = node.as_integer()) return Json(*whole);
    if (const auto flag = node.as_flag()) return Json(*flag);
    const auto number = node.as_number();
    if (!number) return tl::unexpected(number.error());
    return Json(*number);
}

int depth(const Json& value) {
    int most = 0;
    if (value.is_structured())
        for (const auto& inner : value) most = std::max(most, depth(inner));
    return most + 1;
}

bool too_wide(const Json& value) {
    if (value.is_object() && value.size() > most_keys) return true;
    return value.is_structured() && std::any_of(value.begin(), value.end(), too_wide);
}

bool holds_null(const Json& value) {
    if (value.is_null()) return true;
    return value.is_structured() && std::any_of(value.begin(), value.end(), holds_null);
}

Result<Path> read_path(const Json& json) {
    if (!json.is_array() || json.empty() || json.size() > deepest_path)
        return fail("an edit's path is not a list of keys", "such as [\"supply\", \"pressure\"]");
    Path path;
    for (const auto& step : json) {
        if (step.is_string() && step.get_ref<const std::string&>().size() <= 200)
            path.emplace_back(step.get<std::string>());
        else if (step.is_number_unsigned() && step.get<std::uint64_t>() < 100000)
            path.emplace_back(step.get<std::size_t>());
        else
            return fail("an edit's path holds something other than keys and places in lists",
                        "such as [\"room\", \"wall\", 0, \"build\"]");
    }
    if (!std::holds_alternative<std::string>(path.front()))
        return fail("an edit's path begins with a number", "the name of a table of the survey");
    return path;
}

Result<Edit> read_edit(const Json& json) {
    if (!json.is_object() || !json.contains("path") || json.size() != 2)
        return fail("an edit is not understood", "a path, and one of value, remove and append");
    auto path = read_path(json["path"]);
    if (!path) return tl::unexpected(path.error());
    Edit edit{std::move(*path), Edit::What::set, {}};
    if (json.contains("remove")) {
        if (json["remove"] != true) return fail("remove is not true", "true");
        edit.what = Edit::What::remove;
        return edit;
    }
    const bool append = json.contains("append");
    if (!append && !json.contains("value"))
        return fail("an edit is not understood", "a path, and one of value, remove and append");
    edit.what = append ? Edit::What::append : Edit::What::set;
    edit.value = json[append ? "append" : "value"];
    if (holds_null(edit.value) || too_wide(edit.value) || depth(edit.value) > deepest_value)
        return fail("an edit's value is nothing a survey holds", "text, number, true, false, a list or a table");
    return edit;
}

/// The place in a tree, or null where there is none.
Json* at(Json& tree, const Path& path, std::size_t steps) {
    Json* here = &tree;
    for (std::size_t i = 0; i < steps; ++i) {
        if (const auto* key = std::get_if<std::string>(&path[i])) {
            if (!here->is_object() || !here->contains(*key)) return nullptr;
            here = &(*here)[*key];
        } else {
            const auto number = std::get<std::size_t>(path[i]);
            if (!here->is_array() || number >= here->size()) return nullptr;
            here = &(*here)[number];
        }
    }
    return here;
}

tl::unexpected<Error> leads_nowhere(const Path& path) {
    return fail(fmt::format("there is no {} in the survey", written(path)), "a place that is there");
}

/// As `at`, with the tables that are missing on the way.
Json* made_at(Json& tree, const Path& path) {
    Json* here = &tree;
    for (const auto& step : path) {
        if (const auto* key = std::get_if<std::string>(&step)) {
            if (!here->is_object()) return nullptr;
            if (!here->contains(*key)) (*here)[*key] = Json::object();
            here = &(*here)[*key];
        } else {
            const auto number = std::get<std::size_t>(step);
            if (!here->is_array() || number >= here->size()) return nullptr;
            here = &(*here)[number];
        }
    }
    return here;
}

}  // namespace

Result<Json> tree(const std::string& text, const std::string& file) {
    const auto document = text::Document::parse(text, file);
    if (!document) return tl::unexpected(document.error());
    return tree(*document);
}
Result<Json> tree(const text::Document& document) { return json_of(document.root()); }

Result<std::vector<Edit>> read_edits(const Json& json) {
    if (!json.is_array() || json.empty() || json.size() > most_edits)
        return fail("edits is not a list of edits", fmt::format("1 to {}", most_edits));
    std::vector<Edit> edits;
    for (const auto& one : json) {
        auto edit = read_edit(one);
        if (!edit) return tl::unexpected(edit.error());
        edits.push_back(std::move(*edit));
    }
    return edits;
}

Json to_json(const Path& path) {
    Json out = Json::array();
    for (const auto& step : path) std::visit([&](const auto& s) { out.push_back(s); }, step);
    return out;
}

Json to_json(const Edit& edit) {
    Json out{{"path", to_json(edit.path)}};
    switch (edit.what) {
        case Edit::What::set: out["value"] = edit.value; break;
        case Edit::What::append: out["append"] = edit.value; break;
        case Edit::What::remove: out["remove"] = true; break;
    }
    return out;
}

Result<void> apply(Json& tree, const Edit& edit) {
    const auto& path = edit.path;
    if (edit.what == Edit::What::append) {
        const bool there = at(tree, path, path.size()) != nullptr;
        Json* list = made_at(tree, path);
        if (list == nullptr) return leads_nowhere(path);
        if (!there) *list = Json::array();
        if (!list->is_array()) return fail(fmt::format("{} is not a list", written(path)), "a list");
        list->push_back(edit.value);
        return {};
    }
    const auto* key = std::get_if<std::string>(&path.back());
    if (edit.what == Edit::What::remove) {
        Json* parent = at(tree, path, path.size() - 1);
        if (parent == nullptr || at(tree, path, path.size()) == nullptr) return leads_nowhere(path);
        if (key != nullptr)
            parent->erase(*key);
        else
            parent->erase(std::get<std::size_t>(path.back()));
        return {};
    }
    Json* parent = made_at(tree, Path(path.begin(), path.end() - 1));
    if (parent == nullptr) return leads_nowhere(path);
    if (key != nullptr) {
        if (!parent->is_object()) return leads_nowhere(path);
        (*parent)[*key] = edit.value;
    } else {
        const auto number = std::get<std::size_t>(path.back());
        if (!parent->is_array() || number >= parent->size()) return leads_nowhere(path);
        (*parent)[number] = edit.value;
    }
    return {};
}

std::string written_value(const Json& value) {
    if (value.is_string()) {
        const auto quoted = written_key(value.get_ref<const std::string&>());
        return quoted.starts_with('"') ? quoted : '"' + quoted + '"';
    }
    if (value.is_number_float()) {
        auto text = fmt::format("{}", value.get<double>());
        return text.find_first_of(".en") == std::string::npos ? text + ".0" : text;
    }
    std::string out;
    if (value.is_array()) {
        for (const auto& item : value) out += (out.empty() ? "" : ", ") + written_value(item);
        return "[" + out + "]";
    }
    if (value.is_object()) {
        for (const auto& [key, item] : value.items())
            out += fmt::format("{}{} = {}", out.empty() ? "" : ", ", written_key(key), written_value(item));
        return out.empty() ? "{}" : "{ " + out + " }";
    }
    return value.dump();
}

}  // namespace bw::jobs
