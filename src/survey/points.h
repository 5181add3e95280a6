// SPDX-License-Identifier: MIT
#pragma once
// The points of connection, one row each: where the building's pipe, wire, drain or outdoors begins.

#include <span>

#include "survey/survey.h"
#include "text/row.h"

namespace bw::survey {

struct PointRow {
    text::Column<std::string_view> key;    ///< in the survey file: "recirculation"
    text::Column<std::string_view> title;  ///< as people say it: "recirculation return"
    text::Column<std::string_view> site;   ///< the piece that stands for it in a plant: "site.recirculation"
    text::Column<char> letter;             ///< its mark on the plan
    text::Column<text::Service> service;
    text::Column<Connection Room::*> place;
};

/// In the order of the survey file; the panel is the last.
[[nodiscard]] std::span<const PointRow> points();

}  // namespace bw::survey
