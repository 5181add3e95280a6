// SPDX-License-Identifier: MIT
#pragma once
// Readers of a catalogue file's sections. Inside the room only.

#include <deque>
#include <map>
#include <string>
#include <vector>

#include "catalogue/catalogue.h"
#include "text/toml.h"

namespace bw::catalogue {

/// The named sources of one file.
using SourceNames = std::map<std::string, reason::Source, std::less<>>;

/// A row and where it stands.
template <class Row>
struct Placed {
    Row row;
    Place place;
};

/// The rows of one file, or of all the embedded ones, in order. A vector would copy them all each time it grows: moving
/// a quantity is not declared free of exceptions.
struct Layer {
    std::deque<Placed<Heater>> heaters;
    std::deque<Placed<Pipe>> pipes;
    std::deque<Placed<Item>> items;
};

[[nodiscard]] Result<SourceNames> read_sources(const text::Node& table);
/// The `sources` of a table: names of the file's own sources, at least one.
[[nodiscard]] reason::Sources take_sources(text::TableReader& reader, const SourceNames& names);

[[nodiscard]] Result<void> read_pipes(const text::Node& table, const SourceNames& names, Layer& into);
[[nodiscard]] Result<void> read_items(const text::Node& table, const SourceNames& names, Layer& into);
[[nodiscard]] Result<void> read_heater(const text::Node& table, const SourceNames& names, Layer& into);
/// A whole file: its format, sources, and every row.
[[nodiscard]] Result<void> read_document(const text::Document& document, Layer& into);

/// What is wrong with a row taken alone; the place is the caller's to add.
[[nodiscard]] Result<void> judge(const Pipe& pipe);
[[nodiscard]] Result<void> judge(const Item& item);
[[nodiscard]] Result<void> judge(const Heater& heater);

/// An array of identifiers under a key that may be absent.
template <class Enum>
std::vector<Enum> take_names(text::TableReader& reader, std::string_view key) {
    std::vector<Enum> out;
    const auto list = reader.child(key);
    if (!list) return out;
    if (!list->is_array()) reader.fail_at(key, "not an array", "an array of names in quotes");
    for (const auto& node : list->items()) {
        const auto word = node.as_string();
        const auto value = word.and_then([](const std::string& w) { return text::named<Enum>(w); });
        if (!value) {
            reader.fail(node.error(fmt::format("{}: {}", key, value.error().what), value.error().expected).value());
            break;
        }
        out.push_back(*value);
    }
    return out;
}

}  // namespace bw::catalogue
