// SPDX-License-Identifier: MIT
#pragma once
// What the program says: on standard output, where every failure is noticed, and on standard error.

#include <fmt/format.h>

#include <string_view>

#include "units/error.h"

namespace bw::cli {

/// Makes a standard stream that was closed refuse what is written to it, so that no file opened later takes its number.
void hold_standard_streams();

/// Puts a text on standard output as it is.
void say(std::string_view text);
template <class... T>
void print(fmt::format_string<T...> form, T&&... values) {
    say(fmt::format(form, std::forward<T>(values)...));
}

/// Whether all that was put on standard output has arrived there; to be asked once, at the end.
[[nodiscard]] bw::Result<void> said();

/// One line on standard error.
void complain(std::string_view line);

}  // namespace bw::cli
