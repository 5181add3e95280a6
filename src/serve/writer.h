// SPDX-License-Identifier: MIT
#pragma once
// JSON straight into a text: a view holds thousands of pieces, and a tree of it would cost more than the plant.

#include <cstdint>
#include <string>
#include <string_view>

#include "reason/json.h"

namespace bw::serve {

/// A document on one line; what is no UTF-8 in it is marked.
[[nodiscard]] std::string one_line(const reason::Json& json);

class Writer {
public:
    Writer& open(char bracket) {
        comma();
        out_ += bracket;
        first_ = true;
        return *this;
    }
    Writer& close(char bracket) {
        out_ += bracket;
        first_ = false;
        return *this;
    }
    Writer& key(std::string_view name) {
        text(name);
        out_ += ':';
        first_ = true;
        return *this;
    }
    Writer& text(std::string_view value);
    Writer& whole(std::int64_t value);
    Writer& flag(bool value) { return raw(value ? "true" : "false"); }
    Writer& none() { return raw("null"); }
    /// Metres, to a tenth of a millimetre.
    Writer& place(double metres);
    /// Ten significant digits.
    Writer& number(double value);
    /// JSON that is there already.
    Writer& raw(std::string_view json) {
        comma();
        out_ += json;
        return *this;
    }
    Writer& json(const reason::Json& value) { return raw(one_line(value)); }

    [[nodiscard]] std::string take() { return std::move(out_); }
    void reserve(std::size_t bytes) { out_.reserve(bytes); }

private:
    void comma() {
        if (!first_) out_ += ',';
        first_ = false;
    }
    std::string out_;
    bool first_ = true;
};

}  // namespace bw::serve
