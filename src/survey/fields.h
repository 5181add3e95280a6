// SPDX-License-Identifier: MIT
#pragma once
// Every plain key of the survey file, described once: what may stand there, within which limits, and which default is
// taken where it is missing. The reader, the JSON Schema and the starter's test all read this table.

#include <span>
#include <string>
#include <string_view>

#include "text/toml.h"
#include "units/amount.h"

namespace bw::survey {

enum class Form { text, word, flag, whole, number, quantity, size, place };

struct Field {
    std::string_view path;  ///< "gas.delivery-pressure"; list entries share one path: "room.wall.build"
    Form form{};
    std::string_view says;  ///< for the contractor and the schema
    units::Kind kind = units::Kind::number;
    std::string_view least{}, greatest{};       ///< in the survey's own syntax; empty: no limit
    std::span<const std::string_view> words{};  ///< what a word may be
    bool required = false;
    std::string_view fallback{};  ///< default in the survey's syntax; empty: none, or it depends
    std::string_view why{};       ///< where the default comes from
    bool safety = false;          ///< the default bears on safety
};

/// A table or list of tables of the survey file.
enum class Shape { table, list };
struct Section {
    std::string_view path;
    Shape shape{};
    std::string_view says;
    bool required = false;
};

[[nodiscard]] std::span<const Section> sections();
[[nodiscard]] std::span<const Field> fields();
/// The field of a path; asking for one that does not exist is a bug.
[[nodiscard]] const Field& field(std::string_view path);
/// The limits of a field in SI.
[[nodiscard]] text::Range range(const Field& field);

namespace detail {
[[nodiscard]] std::span<const Field> building_fields();
[[nodiscard]] std::span<const Field> service_fields();
[[nodiscard]] std::span<const Field> room_fields();
[[nodiscard]] std::span<const Field> preference_fields();
}  // namespace detail

}  // namespace bw::survey
