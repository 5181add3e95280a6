// SPDX-License-Identifier: MIT
#pragma once
// Where things stand in a TOML text, so that one value can be changed and every comment stays. The places are the
// parser's own.

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "text/toml.h"

namespace bw::jobs {

/// A key, or the place of an entry in a list, from 0.
using Step = std::variant<std::string, std::size_t>;
using Path = std::vector<Step>;

[[nodiscard]] bool starts_with(const Path& path, const Path& front);
/// "room.wall.0.build"
[[nodiscard]] std::string written(const Path& path);

/// Bytes from `from` up to `to`.
struct Span {
    std::size_t from = 0, to = 0;
};

enum class Written { plain, list, table };

struct Value;
struct Pair;

/// A value with its span; of a list in brackets and a table in braces also what is inside.
struct Value {
    Span span;
    Written kind = Written::plain;
    std::vector<Value> items;
    std::vector<Pair> pairs;
};
struct Pair {
    std::vector<std::string> key;  ///< dotted keys are several
    Span span;                     ///< key, sign and value
    Value value;
};

/// `key = value` on a line of its own.
struct Line {
    Pair pair;
    Span whole;  ///< from the start of its line to past the line's end
};

/// A header with what follows it; the first has none and holds what stands above every header.
struct Section {
    Path path;  ///< an entry of a list of tables ends in its number
    bool list = false;
    Span header;            ///< the whole line
    std::size_t end = 0;    ///< past its last line
    std::size_t past = 0;   ///< past the comments that follow without an empty line
    std::size_t limit = 0;  ///< where the next header's line begins
    std::vector<Line> lines;
};
/// Whether a line of a section holds what stands at `path`, or something in it.
[[nodiscard]] bool lies_under(const Section& section, const Line& line, const Path& path);

struct Outline {
    std::vector<Section> sections;
};

/// Of the text that the document was read from.
[[nodiscard]] Outline outline(const text::Document& document, std::string_view text);

/// A value written out after a key or inside a list, and the statement it stands in.
struct Found {
    const Section* section = nullptr;
    const Line* line = nullptr;
    const Value* value = nullptr;
    const Value* holder = nullptr;  ///< list or table in which it stands; null where it is the line's own
    const Pair* pair = nullptr;     ///< of a table in braces
};
[[nodiscard]] std::optional<Found> find(const Outline& outline, const Path& path);

/// The path of the value (or table) that stands at a place of a text; empty where none does, or the text is no TOML.
[[nodiscard]] Path path_at(const std::string& text, const Place& place);

/// Of one line that sets `key` and nothing else: past the end of its value. Nothing for any other line.
[[nodiscard]] std::optional<std::size_t> past_value(std::string_view line, const Path& key);

/// A key as it is written: quoted where it must be.
[[nodiscard]] std::string written_key(std::string_view key);

}  // namespace bw::jobs
