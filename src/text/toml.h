// SPDX-License-Identifier: MIT
#pragma once
// Reading TOML with places, so that every refusal can say file:line:column. Hides the parser library.

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "text/vocabulary.h"
#include "units/amount.h"
#include "units/error.h"
#include "units/nominal.h"
#include "units/parse.h"

namespace bw::text {

/// Largest file read, bytes. A survey is a few kB; anything near this is a mistake.
inline constexpr std::size_t largest_file = 4u << 20;

/// Whole file as UTF-8 text. Fails on unreadable, too large, or invalid UTF-8 (with the line and column), and, without
/// waiting for it, on what is not a regular file.
[[nodiscard]] Result<std::string> read_file(const std::string& path);

class Node;

/// A parsed TOML file; shared and immutable. Nesting deeper than 64 is refused.
class Document {
public:
    [[nodiscard]] static Result<Document> parse(std::string text, std::string file_name);
    [[nodiscard]] static Result<Document> read(const std::string& path);
    [[nodiscard]] Node root() const;
    [[nodiscard]] const std::string& file() const;

private:
    friend class Node;
    struct Data;
    std::shared_ptr<const Data> data_;
};

/// One value in a document. Cheap to copy; keeps its document alive.
class Node {
public:
    [[nodiscard]] Place place() const;
    [[nodiscard]] bool is_table() const;
    [[nodiscard]] bool is_array() const;
    [[nodiscard]] bool is_string() const;
    [[nodiscard]] std::optional<Node> get(std::string_view key) const;            ///< tables only
    [[nodiscard]] std::vector<std::pair<std::string, Node>> entries() const;      ///< tables, in the file's order
    [[nodiscard]] std::vector<Node> items() const;                                ///< arrays
    [[nodiscard]] Result<std::string> as_string() const;
    [[nodiscard]] Result<std::string> as_line() const;                            ///< a text without control characters
    [[nodiscard]] Result<std::int64_t> as_integer() const;
    [[nodiscard]] Result<double> as_number() const;                               ///< integer or float, finite
    [[nodiscard]] Result<bool> as_flag() const;
    /// "7 inH2O"; plain numbers are taken for kinds without a unit.
    [[nodiscard]] Result<units::Amount> as_amount(units::Kind kind) const;
    [[nodiscard]] Result<units::Nominal> as_nominal() const;
    [[nodiscard]] tl::unexpected<Error> error(std::string what, std::string expected = {}) const;  ///< at this place

private:
    friend class Document;
    std::shared_ptr<const Document::Data> document_;
    const void* node_ = nullptr;
};

/// Inclusive SI bounds a value must lie in.
struct Range {
    double least = -1e300, greatest = 1e300;
};

/// Reads the keys of one table into fields. The first error in the file's order wins and is kept; after an error reads
/// do nothing, so a reader can be written as a plain list of fields. Call `finish` last: it refuses unknown keys with
/// the nearest known one.
///
///     TableReader r(node);
///     r.require("name", out.name);
///     bool given = r.optional("pressure", out.pressure, Kind::pressure, {0, 2e6});
///     if (auto ok = r.finish(); !ok) return tl::unexpected(ok.error());
class TableReader {
public:
    explicit TableReader(Node table);

    void require(std::string_view key, std::string& out);
    void require(std::string_view key, std::int64_t& out, Range range = {});
    void require(std::string_view key, double& out, Range range = {});
    void require(std::string_view key, bool& out);
    void require(std::string_view key, units::Nominal& out);
    void require(std::string_view key, units::Amount& out, units::Kind kind, Range range = {});
    template <class Unit>
    void require(std::string_view key, units::bu::quantity<Unit, double>& out, units::Kind kind, Range range = {}) {
        units::Amount a;
        require(key, a, kind, range);
        if (!error_) out = units::bu::quantity<Unit, double>::from_value(a.si);
    }
    /// Same, leaving `out` untouched and returning false where the key is absent.
    bool optional(std::string_view key, std::string& out);
    bool optional(std::string_view key, std::int64_t& out, Range range = {});
    bool optional(std::string_view key, double& out, Range range = {});
    bool optional(std::string_view key, bool& out);
    bool optional(std::string_view key, units::Nominal& out);
    bool optional(std::string_view key, units::Amount& out, units::Kind kind, Range range = {});
    template <class Unit>
    bool optional(std::string_view key, units::bu::quantity<Unit, double>& out, units::Kind kind, Range range = {}) {
        units::Amount a;
        if (!optional(key, a, kind, range)) return false;
        if (!error_) out = units::bu::quantity<Unit, double>::from_value(a.si);
        return !error_;
    }
    template <class Enum> void require_named(std::string_view key, Enum& out) {
        std::string word;
        require(key, word);
        take_named(key, word, out);
    }
    template <class Enum> bool optional_named(std::string_view key, Enum& out) {
        std::string word;
        if (!optional(key, word)) return false;
        take_named(key, word, out);
        return !error_;
    }
    /// A table or array to be read by the caller; marks the key as known.
    [[nodiscard]] std::optional<Node> child(std::string_view key);
    /// As child, but its absence is an error.
    [[nodiscard]] std::optional<Node> required_child(std::string_view key, std::string_view expected);

    void fail_at(std::string_view key, std::string what, std::string expected = {});  ///< at the key's value
    void fail(Error error);
    [[nodiscard]] bool ok() const { return !error_; }
    [[nodiscard]] const Node& table() const { return table_; }
    [[nodiscard]] Result<void> finish();

private:
    template <class Enum> void take_named(std::string_view key, const std::string& word, Enum& out) {
        if (error_) return;
        auto value = named<Enum>(word);
        if (value) out = *value;
        else fail_at(key, value.error().what, value.error().expected);
    }
    template <class T, class Read>
    bool take(const std::optional<Node>& node, std::string_view key, T& out, const Range& range, Read read);
    Node table_;
    std::vector<std::string> known_;
    std::optional<Error> error_;
};

}  // namespace bw::text
