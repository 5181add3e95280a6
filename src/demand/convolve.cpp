// SPDX-License-Identifier: MIT
#include "demand/convolve.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace bw::demand {

namespace {

void cut(Piled& pile, double edge) {
    auto& chance = pile.chance;
    std::size_t low = 0, high = chance.size();
    double below = 0, above = 0;
    while (low + 1 < high && below + chance[low] < edge) below += chance[low++];
    while (high - 1 > low && above + chance[high - 1] < edge) above += chance[--high];
    pile.dropped += below + above;
    pile.first += static_cast<long>(low);
    if (low > 0) std::move(chance.begin() + static_cast<std::ptrdiff_t>(low), chance.end(), chance.begin());
    chance.resize(high - low);
}

// The same sums in the same order, wider where the machine can: no bit differs.
#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__) && !defined(__SANITIZE_ADDRESS__) && \
    !defined(__SANITIZE_THREAD__)
#define BW_WIDE __attribute__((target_clones("avx2", "default"), optimize("O3")))
#else
#define BW_WIDE
#endif

/// sum[x] += b0 a[x] + b1 a[x - step] + b2 a[x - 2 step] + b3 a[x - 3 step]
BW_WIDE void add_four(double* sum, const double* a, const double* b, std::size_t step, std::size_t n) {
    const double b0 = b[0], b1 = b[1], b2 = b[2], b3 = b[3];
    const double *a1 = a - step, *a2 = a1 - step, *a3 = a2 - step;
    for (std::size_t x = 0; x < n; ++x) sum[x] += b0 * a[x] + b1 * a1[x] + b2 * a2[x] + b3 * a3[x];
}

BW_WIDE void add_one(double* sum, const double* a, double b, std::size_t n) {
    for (std::size_t x = 0; x < n; ++x) sum[x] += b * a[x];
}

#undef BW_WIDE

/// Adds to a stretch of the sum that fits the nearest cache; four terms at a time where all of them lie inside `a`.
void add_stretch(double* sum, std::size_t from, std::size_t to, const std::vector<double>& a,
                 const std::vector<double>& b, std::size_t step) {
    const std::size_t n = a.size();
    const auto one = [&](std::size_t k, std::size_t begin, std::size_t end) {
        begin = std::max(begin, k * step);
        end = std::min(end, k * step + n);
        if (begin < end) add_one(sum + begin, a.data() + (begin - k * step), b[k], end - begin);
    };
    std::size_t j = 0;
    for (; j + 4 <= b.size(); j += 4) {
        const std::size_t far = j * step, near = (j + 3) * step;
        if (far >= to) return;           // this stretch lies below every further term
        if (near + n <= from) continue;  // and above all of these
        const std::size_t low = std::clamp(near, from, to), high = std::max(low, std::min(to, far + n));
        for (std::size_t k = j; k < j + 4; ++k) {
            one(k, from, low);
            one(k, high, to);
        }
        if (high > low) add_four(sum + low, a.data() + (low - far), b.data() + j, step, high - low);
    }
    for (; j < b.size(); ++j) one(j, from, to);
}

}  // namespace

Piled binomial(long count, double busy, double edge) {
    Piled out;
    if (busy <= 0 || count <= 0) return out;
    if (busy >= 1) {
        out.first = count;
        return out;
    }
    // Outwards from the greatest term by the ratio of neighbours, then scaled to a sum of one: no logarithms of
    // factorials, whose rounding would show.
    const double n = static_cast<double>(count), odds = busy / (1 - busy);
    const long mode = std::min(count, static_cast<long>((n + 1) * busy));
    const double least = edge * 1e-3;
    std::vector<double> up{1.0}, down;
    for (long k = mode; k < count && up.back() > least; ++k)
        up.push_back(up.back() * static_cast<double>(count - k) / static_cast<double>(k + 1) * odds);
    double term = 1;
    for (long k = mode; k > 0 && term > least; --k) {
        term *= static_cast<double>(k) / static_cast<double>(count - k + 1) / odds;
        down.push_back(term);
    }
    out.first = mode - static_cast<long>(down.size());
    out.chance.assign(down.rbegin(), down.rend());
    out.chance.insert(out.chance.end(), up.begin(), up.end());
    double sum = 0;
    for (std::size_t i = 0; i < std::max(up.size(), down.size()); ++i) {  // small ones with small ones
        const std::size_t u = up.size() - 1 - i, d = down.size() - 1 - i;
        if (i < up.size()) sum += up[u];
        if (i < down.size()) sum += down[d];
    }
    for (auto& chance : out.chance) chance /= sum;
    cut(out, edge);
    return out;
}

Piled convolved(const Piled& a, const Piled& b, long step, double edge) {
    constexpr std::size_t stretch = 2048;
    const auto stride = static_cast<std::size_t>(step);
    Piled out;
    out.first = a.first + step * b.first;
    out.dropped = a.dropped + b.dropped;
    const std::size_t size = a.chance.size() + stride * (b.chance.size() - 1);
    out.chance.assign(size, 0.0);
    for (std::size_t from = 0; from < size; from += stretch)
        add_stretch(out.chance.data(), from, std::min(size, from + stretch), a.chance, b.chance, stride);
    cut(out, edge);
    return out;
}

}  // namespace bw::demand
