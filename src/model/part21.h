// SPDX-License-Identifier: MIT
#pragma once
// The text of a STEP physical file (ISO 10303-21): numbered instances, strings and reals in its own spelling.

#include <fmt/format.h>

#include <span>
#include <string>
#include <string_view>

namespace bw::model {

class Part21 {
public:
    /// Adds an instance and gives its number; the form is what stands after "#12=".
    template <class... T>
    int add(fmt::format_string<T...> form, T&&... values) {
        fmt::format_to(std::back_inserter(data_), "#{}=", ++last_);
        fmt::format_to(std::back_inserter(data_), form, std::forward<T>(values)...);
        data_.append(std::string_view(";\n"));
        return last_;
    }
    /// The whole file; `date` as the survey has it.
    [[nodiscard]] std::string file(std::string_view schema, std::string_view description, std::string_view name,
                                   std::string_view date, std::string_view author) const;

private:
    fmt::memory_buffer data_;
    int last_ = 0;
};

/// 'text' with quotes and backslashes doubled and what is not ASCII as \X2\ or \X4\ hexadecimals. UTF-8 in; bytes that
/// are not become question marks.
[[nodiscard]] std::string quoted21(std::string_view utf8);
/// Another writer's file with raw UTF-8 in its strings, put right: what is not graphic ASCII as hexadecimals, no
/// line ends within strings, where they could part a character.
[[nodiscard]] std::string ascii21(std::string_view file);
/// A day as the header's time stamp, "2026-03-02T00:00:00"; empty for a text that is no ISO 8601 day.
[[nodiscard]] std::string time_stamp(std::string_view day);
/// A real to ten digits, always with its point.
[[nodiscard]] std::string real(double value);
/// "(#1,#2)".
[[nodiscard]] std::string list(std::span<const int> instances);
[[nodiscard]] inline std::string ref(int instance) { return instance > 0 ? "#" + std::to_string(instance) : "$"; }

}  // namespace bw::model
