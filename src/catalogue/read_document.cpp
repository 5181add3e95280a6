// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <array>

#include "catalogue/read.h"

namespace bw::catalogue {

namespace {

constexpr std::string_view format_name = "bankwright-catalogue-1";

using reason::Standing;
struct StandingName {
    std::string_view name;
    Standing standing;
    bool document;  ///< must name one
};
constexpr std::array<StandingName, 6> standings{{
    {"published", Standing::published, true},
    {"memory", Standing::memory, true},
    {"computed", Standing::computed, true},
    {"common-practice", Standing::common_practice, false},
    {"maker", Standing::maker, true},
    {"invented", Standing::invented, false},
}};

Result<reason::Source> read_source(const text::Node& node) {
    text::TableReader r(node);
    reason::Source source;
    std::string word;
    r.optional("document", source.document);
    r.optional("edition", source.edition);
    r.optional("clause", source.clause);
    r.require("standing", word);
    const StandingName* found = nullptr;
    for (const auto& s : standings)
        if (s.name == word) found = &s;
    if (r.ok() && found == nullptr)
        r.fail_at("standing", fmt::format("'{}' is no standing", word),
                  "published, memory, computed, common-practice, maker or invented");
    if (r.ok() && found->document && source.document.empty())
        r.fail(node.error(fmt::format("a source that is '{}' names no document", word), "document = \"...\"").value());
    if (auto ok = r.finish(); !ok) return tl::unexpected(ok.error());
    source.standing = found->standing;
    return source;
}

using RowReader = Result<void> (*)(const text::Node&, const SourceNames&, Layer&);

Result<void> read_section(const std::optional<text::Node>& section, std::string_view name, RowReader one,
                          const SourceNames& names, Layer& into) {
    if (!section) return {};
    if (!section->is_array())
        return section->error(fmt::format("{} is not an array of tables", name), fmt::format("[[{}]]", name));
    for (const auto& table : section->items())
        if (auto ok = one(table, names, into); !ok) return ok;
    return {};
}

}  // namespace

Result<SourceNames> read_sources(const text::Node& table) {
    SourceNames names;
    if (!table.is_table()) return table.error("source is not a table", "[source]");
    for (const auto& [name, node] : table.entries()) {
        auto source = read_source(node);
        if (!source) return tl::unexpected(source.error());
        names.emplace(name, std::move(*source));
    }
    return names;
}

reason::Sources take_sources(text::TableReader& reader, const SourceNames& names) {
    reason::Sources out;
    const auto list = reader.required_child("sources", "an array of names of [source]");
    if (!list || !reader.ok()) return out;
    if (!list->is_array() || list->items().empty())
        reader.fail_at("sources", "names no source", "an array of names of [source]");
    for (const auto& node : list->items()) {
        const auto word = node.as_line();
        const auto found = word ? names.find(*word) : names.end();
        if (found == names.end()) {
            std::vector<std::string_view> choices;
            for (const auto& [name, source] : names) choices.push_back(name);
            reader.fail(node.error(word ? fmt::format("no source '{}'", *word) : word.error().what,
                                   fmt::format("one of [source]: {}", fmt::join(choices, ", ")))
                            .value());
            return out;
        }
        out.push_back(found->second);
    }
    return out;
}

Result<void> read_document(const text::Document& document, Layer& into) {
    text::TableReader reader(document.root());
    std::string format;
    reader.require("format", format);
    if (reader.ok() && format != format_name)
        reader.fail_at("format", fmt::format("'{}'", format), fmt::format("\"{}\"", format_name));
    const auto source = reader.required_child("source", "[source] with at least one entry");
    const auto pipes = reader.child("pipe"), items = reader.child("item"), heaters = reader.child("heater");
    if (auto ok = reader.finish(); !ok) return ok;
    const auto names = read_sources(*source);
    if (!names) return tl::unexpected(names.error());
    if (auto ok = read_section(pipes, "pipe", read_pipes, *names, into); !ok) return ok;
    if (auto ok = read_section(items, "item", read_items, *names, into); !ok) return ok;
    return read_section(heaters, "heater", read_heater, *names, into);
}

}  // namespace bw::catalogue
