// SPDX-License-Identifier: MIT
#pragma once
// Text set in type. Setting costs far more than drawing, and the same words come again: each is set once.

#include <pango/pangocairo.h>

#include <string>
#include <unordered_map>

#include "draw/canvas.h"

namespace bw::draw {

class Type {
public:
    Type();
    ~Type();
    Type(const Type&) = delete;
    Type& operator=(const Type&) = delete;

    struct Set {
        PangoLayout* layout = nullptr;  ///< lives as long as the type
        TextSize size;
    };
    [[nodiscard]] const Set& set(std::string_view text, const TextStyle& style);

private:
    PangoContext* context_;
    std::unordered_map<std::string, Set> known_;  ///< by what it looks like; never walked
};

}  // namespace bw::draw
