// SPDX-License-Identifier: MIT
#pragma once
// Bad input or no solution is a value that says what is wrong, what was expected and where. A bug asserts instead.

#include <string>
#include <tl/expected.hpp>

namespace bw::units {

struct Place {
    std::string file;
    int line = 0;    ///< 1-based; 0 when unknown
    int column = 0;  ///< 1-based; 0 when unknown
    bool operator==(const Place&) const = default;
};

struct Error {
    std::string what;      ///< what is wrong, with the offending value
    std::string expected;  ///< what was expected, or the next step
    Place place = {};
    bool operator==(const Error&) const = default;
};

template <class T> using Result = tl::expected<T, Error>;

/// An Error ready to be returned from a function that gives a Result.
[[nodiscard]] inline tl::unexpected<Error> fail(std::string what, std::string expected = {}, Place place = {}) {
    return tl::unexpected<Error>(Error{std::move(what), std::move(expected), std::move(place)});
}

/// "file:line:column: what is wrong, expected what", on one line; parts that are unknown are left out.
[[nodiscard]] std::string describe(const Error& error);

}  // namespace bw::units

namespace bw {
using units::Error;
using units::fail;
using units::Place;
using units::Result;
}  // namespace bw
