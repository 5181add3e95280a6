// SPDX-License-Identifier: MIT
// The up-looking factorisation of Davis (Direct Methods for Sparse Linear Systems, 2006, chapter 4), with the rows'
// pattern kept from the analysis instead of walked anew each time.
#include "flow/factor.h"

#include <Eigen/OrderingMethods>
#include <Eigen/SparseCore>
#include <algorithm>

namespace bw::flow {

namespace {

/// A pivot below this share of its diagonal is rounding alone; it is kept there, which ties the row weakly to nothing.
constexpr double lost_digits = 1e-14;

std::vector<int> ordered(int size, const std::vector<std::pair<int, int>>& pairs) {
    std::vector<Eigen::Triplet<double>> entries;
    for (int i = 0; i < size; ++i) entries.emplace_back(i, i, 1.0);
    for (const auto& [i, j] : pairs) {
        entries.emplace_back(i, j, 1.0);
        entries.emplace_back(j, i, 1.0);
    }
    Eigen::SparseMatrix<double> matrix(size, size);
    matrix.setFromTriplets(entries.begin(), entries.end());
    Eigen::PermutationMatrix<Eigen::Dynamic, Eigen::Dynamic, int> order;
    Eigen::AMDOrdering<int>()(matrix, order);
    std::vector<int> place(static_cast<std::size_t>(size));
    for (int k = 0; k < size; ++k) place[static_cast<std::size_t>(order.indices()[k])] = k;
    return place;
}

}  // namespace

Factor::Factor(int size, const std::vector<std::pair<int, int>>& pairs) : size_(size) {
    if (size > 0) place_ = ordered(size, pairs);
    const auto n = static_cast<std::size_t>(size);
    diagonal.resize(n);
    off.resize(pairs.size());
    work_.resize(n);
    pivot_.resize(n);
    analyse(pairs);
}

void Factor::analyse(const std::vector<std::pair<int, int>>& pairs) {
    const auto n = static_cast<std::size_t>(size_);
    std::vector<std::vector<std::pair<int, int>>> upper(n);  // by column: row and pair
    for (std::size_t p = 0; p < pairs.size(); ++p) {
        const int a = place(pairs[p].first), b = place(pairs[p].second);
        upper[static_cast<std::size_t>(std::max(a, b))].emplace_back(std::min(a, b), static_cast<int>(p));
    }
    slot_.resize(pairs.size());
    upper_start_.push_back(0);
    row_start_.push_back(0);
    std::vector<int> parent(n, -1), seen(n, -1), count(n, 0);
    std::vector<std::vector<int>> columns(n), rows(n);
    for (std::size_t k = 0; k < n; ++k) {
        std::sort(upper[k].begin(), upper[k].end());
        seen[k] = static_cast<int>(k);
        for (const auto& [row, pair] : upper[k]) {
            slot_[static_cast<std::size_t>(pair)] = static_cast<int>(upper_row_.size());
            upper_row_.push_back(row);
            for (int i = row; seen[static_cast<std::size_t>(i)] != static_cast<int>(k);) {
                const auto at = static_cast<std::size_t>(i);
                if (parent[at] < 0) parent[at] = static_cast<int>(k);
                rows[k].push_back(i);
                columns[at].push_back(static_cast<int>(k));
                seen[at] = static_cast<int>(k);
                i = parent[at];
            }
        }
        std::sort(rows[k].begin(), rows[k].end());
        upper_start_.push_back(static_cast<int>(upper_row_.size()));
    }
    column_start_.push_back(0);
    for (const auto& column : columns) {
        below_.insert(below_.end(), column.begin(), column.end());
        column_start_.push_back(static_cast<int>(below_.size()));
    }
    for (std::size_t k = 0; k < n; ++k) {
        for (const int i : rows[k]) {
            const auto at = static_cast<std::size_t>(i);
            row_.push_back({i, column_start_[at], column_start_[at] + count[at]++, 1});
        }
        row_start_.push_back(static_cast<int>(row_.size()));
    }
    value_.resize(below_.size());
    block_rows();
}

/// Columns whose rows are the same but for the columns themselves are taken up to eight at a time: one pass over the
/// work row instead of eight.
void Factor::block_rows() {
    const auto rows = [&](int column) {
        return column_start_[static_cast<std::size_t>(column) + 1] - column_start_[static_cast<std::size_t>(column)];
    };
    const auto follows = [&](int column, int next) {
        return next == column + 1 && rows(next) == rows(column) - 1 &&
               below_[static_cast<std::size_t>(column_start_[static_cast<std::size_t>(column)])] == next;
    };
    for (std::size_t k = 0; k + 1 < row_start_.size(); ++k) {
        const auto end = static_cast<std::size_t>(row_start_[k + 1]);
        for (auto e = static_cast<std::size_t>(row_start_[k]); e < end;) {
            std::size_t length = 1;
            while (length < 8 && e + length < end && follows(row_[e + length - 1].column, row_[e + length].column))
                ++length;
            while ((length & (length - 1)) != 0) --length;  // 1, 2, 4 or 8
            row_[e].block = static_cast<int>(length);
            e += length;
        }
    }
}

/// Takes a block of columns off the work row and keeps this row's values in them; what they take from its pivot.
template <int columns>
double Factor::take(const Entry* entry) {
    double* const work = work_.data();
    const int first = entry->column, last = first + columns - 1;
    const double* from[columns];
    double y[columns];
    for (int c = 0; c < columns; ++c) {
        from[c] = value_.data() + column_start_[static_cast<std::size_t>(first + c)];
        y[c] = work[first + c];
        for (int d = 0; d < c; ++d) y[c] -= from[d][c - d - 1] * y[d];
        work[first + c] = 0;
    }
    for (int c = 0; c < columns; ++c) from[c] += columns - 1 - c;
    const int start = column_start_[static_cast<std::size_t>(last)], length = entry[columns - 1].end - start;
    const int* const below = below_.data() + start;
    for (int p = 0; p < length; ++p) {
        double sum = from[0][p] * y[0];
        for (int c = 1; c < columns; ++c) sum += from[c][p] * y[c];
        work[below[p]] -= sum;
    }
    double taken = 0;
    for (int c = 0; c < columns; ++c) {
        const double l = y[c] * pivot_[static_cast<std::size_t>(first + c)];
        value_[static_cast<std::size_t>(entry[c].end)] = l;
        taken += l * y[c];
    }
    return taken;
}

/// The same for one column, most of what a network that is nearly a tree has.
inline double Factor::take_one(const Entry& entry) {
    double* const work = work_.data();
    double* const value = value_.data();
    const int* const below = below_.data();
    const double y = work[entry.column], l = y * pivot_[static_cast<std::size_t>(entry.column)];
    work[entry.column] = 0;
    for (int p = entry.start; p < entry.end; ++p) work[below[p]] -= value[p] * y;
    value[entry.end] = l;
    return l * y;
}

int Factor::factor() {
    for (int k = 0; k < size_; ++k) {
        const auto at = static_cast<std::size_t>(k);
        double d = diagonal[at];
        const double least = lost_digits * d;
        for (int p = upper_start_[at]; p < upper_start_[at + 1]; ++p)
            work_[static_cast<std::size_t>(upper_row_[static_cast<std::size_t>(p)])] = off[static_cast<std::size_t>(p)];
        const Entry* const end = row_.data() + row_start_[at + 1];
        for (const Entry* entry = row_.data() + row_start_[at]; entry != end; entry += entry->block) {
            switch (entry->block) {
                case 1: d -= take_one(*entry); break;
                case 2: d -= take<2>(entry); break;
                case 4: d -= take<4>(entry); break;
                default: d -= take<8>(entry); break;
            }
        }
        if (!(d > least)) {
            if (!(least > 0)) {
                std::fill(work_.begin(), work_.end(), 0.0);
                return k;
            }
            d = least;
        }
        pivot_[at] = 1 / d;
    }
    return -1;
}

void Factor::solve(double* right) const {
    const double* const value = value_.data();
    const int* const below = below_.data();
    const int* const start = column_start_.data();
    for (int i = 0; i < size_; ++i) {
        const double x = right[i];
        for (int p = start[i]; p < start[i + 1]; ++p) right[below[p]] -= value[p] * x;
    }
    for (int i = size_ - 1; i >= 0; --i) {
        double x = right[i] * pivot_[static_cast<std::size_t>(i)];
        for (int p = start[i]; p < start[i + 1]; ++p) x -= value[p] * right[below[p]];
        right[i] = x;
    }
}

}  // namespace bw::flow
