// SPDX-License-Identifier: MIT
#pragma once
// A sparse symmetric positive definite matrix: its structure analysed once, then factored as L D L' as often as its
// values change.

#include <utility>
#include <vector>

namespace bw::flow {

class Factor {
public:
    Factor() = default;
    /// `pairs` are the places off the diagonal, each once, either way round. Ordering: approximate minimum degree.
    Factor(int size, const std::vector<std::pair<int, int>>& pairs);

    [[nodiscard]] int size() const { return size_; }
    /// Where a row stands in the factor's own order; values below are given in that order.
    [[nodiscard]] int place(int row) const { return place_[static_cast<std::size_t>(row)]; }
    /// Where the value of the pair with this index is kept.
    [[nodiscard]] int slot(int pair) const { return slot_[static_cast<std::size_t>(pair)]; }

    std::vector<double> diagonal, off;  ///< values: one a row in the factor's order, one a pair by its slot

    /// Row (own order) whose diagonal is not above zero, or -1 when the matrix was factored. A pivot lost in rounding
    /// is kept just above zero: the caller judges the solution.
    [[nodiscard]] int factor();
    /// Right side in, solution out, in the factor's own order.
    void solve(double* right) const;

private:
    void analyse(const std::vector<std::pair<int, int>>& pairs);

    struct Entry {
        int column, start, end;  ///< of L; `end` is where this row's value goes in that column
        int block;               ///< columns from this one on that share their rows and are taken together
    };
    void block_rows();
    template <int columns>
    double take(const Entry* entry);
    double take_one(const Entry& entry);

    int size_ = 0;
    std::vector<int> place_, slot_;
    std::vector<int> upper_start_, upper_row_;  ///< the matrix above the diagonal, by columns
    std::vector<int> row_start_;
    std::vector<Entry> row_;                 ///< L by rows
    std::vector<int> column_start_, below_;  ///< L by columns
    std::vector<double> value_, work_;
    std::vector<double> pivot_;  ///< reciprocals
};

}  // namespace bw::flow
