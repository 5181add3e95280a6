// SPDX-License-Identifier: MIT
#pragma once
// Rows of pipes and items: what a table's head says holds for every row; what differs stands in the text table.

#include <bitset>
#include <optional>
#include <string>
#include <vector>

#include "catalogue/fields.h"
#include "catalogue/text_table.h"

namespace bw::catalogue {

/// What a row says in words, beside its numbers.
struct Words {
    std::string key, variant;
    std::optional<Nominal> size, branch;
};

inline constexpr std::size_t most_numbers = 64;
using Given = std::bitset<most_numbers>;  ///< by position in the list of numbers

template <class Row>
struct RowInHand {
    Row row;
    Words words;
    Given given;
    Place place;
};

/// Reads head and text table of `reader` into rows. Numbers and words it takes are known to the reader afterwards; the
/// caller still finishes it. Empty after an error, which the reader keeps.
template <class Row>
[[nodiscard]] std::vector<RowInHand<Row>> take_rows(text::TableReader& reader, Row head,
                                                    const std::vector<Number<Row>>& numbers);

extern template std::vector<RowInHand<Pipe>> take_rows(text::TableReader&, Pipe, const std::vector<Number<Pipe>>&);
extern template std::vector<RowInHand<Item>> take_rows(text::TableReader&, Item, const std::vector<Number<Item>>&);

}  // namespace bw::catalogue
