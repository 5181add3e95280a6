// SPDX-License-Identifier: MIT
#pragma once
// The numbers a catalogue row may hold: their names in the file, how they are read, and where they go.

#include <span>
#include <string_view>

#include "catalogue/catalogue.h"
#include "text/toml.h"

namespace bw::catalogue {

/// A number of a pipe or an item. Per-length numbers are headed `price/ft` or `labour/min/ft`: whatever stands before
/// the last length unit, for each length of it.
template <class Row>
struct Number {
    std::string_view name;
    Kind kind{};
    bool per_length = false;
    text::Range range;                       ///< SI
    void (*set)(Row&, double si) = nullptr;  ///< null: kept in Item::data under its name
    bool required = true;
};

[[nodiscard]] std::span<const Number<Pipe>> pipe_numbers();
[[nodiscard]] std::span<const Number<Item>> item_numbers();

/// A number only some parts have, held in Item::data.
struct DataField {
    std::string_view name;
    Kind kind{};
    text::Range range;  ///< SI
    std::span<const Part> parts;
    bool required = true;  ///< by each of `parts`
};

[[nodiscard]] std::span<const DataField> data_fields();
[[nodiscard]] bool belongs(const DataField& field, Part part);

/// What a part must say about its shape.
struct Needs {
    bool size = false, run = false, stem = false, branch = false;
};
[[nodiscard]] Needs needs(Part part);

/// Value in SI of a cell under a heading: si = (number) * scale + offset.
struct Scale {
    double factor = 1, offset = 0;
};
/// How numbers under a heading's unit are read. Fails naming the units that would have been understood.
[[nodiscard]] Result<Scale> scale_of(Kind kind, std::string_view unit, bool per_length);

}  // namespace bw::catalogue
