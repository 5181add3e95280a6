// SPDX-License-Identifier: MIT
#pragma once
// Rows of tables of facts.

#include <concepts>
#include <cstddef>
#include <type_traits>
#include <utility>

namespace bw::text {

/// A column that a row cannot leave out: a row without it does not compile.
template <class T>
struct Column {
    T value;
    constexpr Column(T given) : value(given) {}            // NOLINT: a column is its value
    constexpr operator const T&() const { return value; }  // NOLINT
};
template <class T>
requires std::is_class_v<T>
struct Column<T> : T {
    template <std::convertible_to<T> From>
    requires(!std::same_as<std::remove_cvref_t<From>, Column>) constexpr Column(From&& given)
        : T(std::forward<From>(given)) {}  // NOLINT
};

/// Whether a table has one row for each value of an enumeration, in its order, `last` being the last of them.
template <class Rows, class Enum>
constexpr bool one_row_each(const Rows& rows, auto member, Enum last) {
    if (rows.size() != static_cast<std::size_t>(last) + 1) return false;
    for (std::size_t i = 0; i < rows.size(); ++i)
        if (static_cast<Enum>(rows[i].*member) != static_cast<Enum>(i)) return false;
    return true;
}

}  // namespace bw::text
