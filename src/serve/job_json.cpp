// SPDX-License-Identifier: MIT
#include "serve/job_json.h"

#include <fmt/format.h>

#include <charconv>
#include <chrono>
#include <ctime>

#include "survey/fields.h"
#include "text/split.h"
#include "units/parse.h"

namespace bw::serve {
namespace {

using jobs::Edit;
using jobs::Path;
using reason::Json;

/// RFC 3339, UTC.
std::string time_of(std::int64_t milliseconds) {
    const auto seconds = static_cast<std::time_t>(milliseconds / 1000);
    std::tm parts{};
    gmtime_r(&seconds, &parts);
    return fmt::format("{:04}-{:02}-{:02}T{:02}:{:02}:{:02}.{:03}Z", parts.tm_year + 1900, parts.tm_mon + 1,
                       parts.tm_mday, parts.tm_hour, parts.tm_min, parts.tm_sec, milliseconds % 1000);
}

std::optional<std::size_t> number_of(const std::string& text) {
    std::size_t value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc() || end != text.data() + text.size()) return std::nullopt;
    return value;
}

/// A default as the survey would hold it; null where it is none that can be written.
Json value_of(const std::string& field_path, const std::string& written) {
    const auto all = survey::fields();
    const auto field = std::find_if(all.begin(), all.end(), [&](const auto& f) { return f.path == field_path; });
    if (field == all.end()) return nullptr;
    using survey::Form;
    switch (field->form) {
        case Form::flag:
            if (written == "true") return true;
            if (written == "false") return false;
            return nullptr;
        case Form::whole:
        case Form::number: {
            const auto number = units::parse(written, units::Kind::number);
            if (!number) return nullptr;
            if (field->form == Form::whole) return static_cast<std::int64_t>(number->si);
            return number->si;
        }
        case Form::quantity: return units::parse(written, field->kind) ? Json(written) : Json();
        case Form::size: return units::parse_nominal(written) ? Json(written) : Json();
        case Form::word:
            return std::find(field->words.begin(), field->words.end(), written) != field->words.end() ? Json(written)
                                                                                                      : Json();
        case Form::text:
        case Form::place: break;
    }
    return nullptr;
}

/// Where the entry of a wall number stands in the file's list.
std::optional<std::size_t> wall_entry(const Json& tree, std::size_t number) {
    if (!tree.contains("room") || !tree["room"].contains("wall")) return std::nullopt;
    const auto& list = tree["room"]["wall"];
    for (std::size_t i = 0; i < list.size(); ++i)
        if (list[i].contains("number") && list[i]["number"] == number) return i;
    return std::nullopt;
}

Edit set(Path path, Json value) { return {std::move(path), Edit::What::set, std::move(value)}; }

/// Path of what was assumed, and the edits that write it down.
struct Confirm {
    Path path;
    std::vector<Edit> edits;
};

Confirm confirm_wall(const Json& tree, const std::vector<std::string>& parts, const std::string& written) {
    const auto number = number_of(parts[2]);
    auto value = value_of("room.wall." + parts[3], written);
    if (!number || value.is_null()) return {};
    if (const auto entry = wall_entry(tree, *number)) {
        Path path{"room", "wall", *entry, parts[3]};
        return {path, {set(path, std::move(value))}};
    }
    return {{"room", "wall"},
            {{{"room", "wall"}, Edit::What::append, Json{{"number", *number}, {parts[3], std::move(value)}}}}};
}

Confirm confirm_entry(const std::vector<std::string>& parts, const std::string& written) {
    const auto number = number_of(parts[2]);
    auto value = value_of(parts[0] + "." + parts[1] + "." + parts[3], written);
    if (!number || *number == 0) return {};
    Path path{parts[0], parts[1], *number - 1, parts[3]};
    if (value.is_null()) return {path, {}};
    return {path, {set(path, std::move(value))}};
}

Confirm confirm(const survey::Assumption& a, const Json& tree) {
    const auto parts = text::split(a.field, '.');
    if (parts.size() == 4 && parts[0] == "room" && parts[1] == "wall") return confirm_wall(tree, parts, a.value);
    if (parts.size() == 4) return confirm_entry(parts, a.value);
    Path path(parts.begin(), parts.end());
    if (parts.size() == 2 && parts[0] == "connections") {
        const auto at = Json::parse(a.value, nullptr, false);
        if (at.is_array()) return {path, {set(Path{"connections", parts[1], "at"}, at)}};
    }
    auto value = value_of(a.field, a.value);
    if (value.is_null()) return {path, {}};
    return {path, {set(path, std::move(value))}};
}

}  // namespace

Json row_json(const jobs::Job& job) {
    return Json{{"id", job.id},
                {"name", job.name},
                {"created", time_of(job.created)},
                {"changed", time_of(job.changed)},
                {"revision", job.revision},
                {"newest", job.newest},
                {"deleted", job.deleted}};
}

Json moved_json(const jobs::Job& job) {
    return Json{{"revision", job.revision}, {"newest", job.newest}, {"can-undo", job.can_undo},
                {"can-redo", job.can_redo}, {"name", job.name},     {"deleted", job.deleted}};
}

Json assumed_json(const survey::Survey& survey, const Json& tree) {
    Json list = Json::array();
    for (const auto& a : survey.assumed) {
        auto how = confirm(a, tree);
        if (how.path.empty()) {
            const auto parts = text::split(a.field, '.');
            how.path = Path(parts.begin(), parts.end());
        }
        Json row{{"path", jobs::to_json(how.path)},
                 {"field", a.field},
                 {"value", a.value},
                 {"says", a.why},
                 {"safety", a.safety}};
        if (!how.edits.empty()) {
            row["confirm"] = Json::array();
            for (const auto& edit : how.edits) row["confirm"].push_back(jobs::to_json(edit));
        }
        list.push_back(std::move(row));
    }
    return list;
}

}  // namespace bw::serve
