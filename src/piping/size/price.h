// SPDX-License-Identifier: MIT
#pragma once
// What a laid stretch would cost in another size.

#include <optional>
#include <vector>

#include "piping/kit/builder.h"

namespace bw::piping {

/// USD: the price with mark-up, and the minutes at the survey's rate. The survey's own prices count.
class Prices {
public:
    Prices(const SizingInputs& brief, const Builder& b) : preferences_(brief.survey.preferences), b_(b) {}

    /// Pieces laid in one size, in the line's: each one's counterpart, while what is of another size stays as it is.
    /// For a header `branch` is what its tees lead to, and reducers are left out: see `change`. nullopt where a piece
    /// is not made in that size.
    [[nodiscard]] std::optional<double> of(const std::vector<int>& pieces, Nominal laid, const Line& line,
                                           std::optional<Nominal> branch = {}) const;
    /// Reducers from one size to another; nothing where they are one.
    [[nodiscard]] double change(Line line, Nominal to) const;

private:
    [[nodiscard]] double bought(const std::string& key, double price, units::Time labour) const;
    [[nodiscard]] double bought(const Item& item) const { return bought(item.key, item.price, item.labour); }
    [[nodiscard]] double as_it_is(const Piece& piece) const;
    [[nodiscard]] std::optional<double> reducer(const Piece& piece, Nominal laid, const Line& line) const;
    [[nodiscard]] std::optional<double> counterpart(const Piece& piece, const Line& line,
                                                    std::optional<Nominal> branch) const;
    [[nodiscard]] std::optional<double> tee(const Piece& piece, const Line& line, std::optional<Nominal> branch) const;
    const survey::Preferences& preferences_;
    const Builder& b_;
};

}  // namespace bw::piping
