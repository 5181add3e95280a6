// SPDX-License-Identifier: MIT
#include "demand/spread.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>

#include "demand/convolve.h"

namespace bw::demand {

namespace {

/// Left out at each end of each sum; forty kinds and as many sums stay below 1e-16 together.
constexpr double edge = 1e-18;

Result<void> judge(const Kind& kind) {
    if (!(kind.busy >= 0 && kind.busy <= 1))
        return fail(fmt::format("a fixture runs with chance {:.6g}", kind.busy), "0 to 1");
    if (kind.count < 0 || kind.count > most_fixtures)
        return fail(fmt::format("{} fixtures of one kind", kind.count), fmt::format("0 to {}", most_fixtures));
    if (kind.steps < 0 || kind.steps > most_steps)
        return fail(fmt::format("a fixture's flow of {:.2f} gpm", 0.01 * kind.steps),
                    fmt::format("0 to {:.0f} gpm", 0.01 * most_steps));
    return {};
}

bool silent(const Kind& kind) { return kind.count == 0 || kind.steps == 0 || kind.busy == 0; }

/// Fixtures of one flow add up on their own short lattice first.
std::vector<std::vector<Kind>> by_flow(std::vector<Kind> kinds) {
    std::stable_sort(kinds.begin(), kinds.end(), [](const Kind& a, const Kind& b) { return a.steps < b.steps; });
    std::vector<std::vector<Kind>> out;
    for (const auto& kind : kinds) {
        if (out.empty() || out.back().front().steps != kind.steps) out.emplace_back();
        out.back().push_back(kind);
    }
    return out;
}

}  // namespace

Spread::Spread() : chance_{1.0} {}

Result<Spread> Spread::of(const std::vector<Kind>& kinds) {
    Spread out;
    std::vector<Kind> loud;
    long stride = 0;
    double log_idle = 0;
    for (const auto& kind : kinds) {
        if (auto ok = judge(kind); !ok) return tl::unexpected(ok.error());
        if (silent(kind)) continue;
        loud.push_back(kind);
        stride = std::gcd(stride, static_cast<long>(kind.steps));
        const auto n = static_cast<double>(kind.count), q = static_cast<double>(kind.steps);
        out.running_ += n * kind.busy;
        out.mean_ += n * kind.busy * q;
        out.variance_ += n * kind.busy * (1 - kind.busy) * q * q;
        log_idle += n * std::log1p(-kind.busy);
    }
    if (loud.empty()) return out;
    out.stride_ = stride;
    out.idle_ = std::exp(log_idle);
    // rising flow by flow, which costs least: each sum is gone through once for every count of the next kind
    Piled all;
    for (const auto& same : by_flow(std::move(loud))) {
        Piled sum;
        for (const auto& kind : same) sum = convolved(sum, binomial(kind.count, kind.busy, edge), 1, edge);
        all = convolved(all, sum, same.front().steps / stride, edge);
    }
    out.first_ = all.first * stride;
    out.chance_ = std::move(all.chance);
    out.dropped_ = all.dropped;
    return out;
}

VolumeFlow Spread::deviation() const { return std::sqrt(variance_) * lattice_step; }

long Spread::last() const { return first_ + stride_ * (static_cast<long>(chance_.size()) - 1); }

double Spread::at(long step) const {
    if (step < first_ || step > last() || (step - first_) % stride_ != 0) return 0;
    return chance_[static_cast<std::size_t>((step - first_) / stride_)];
}

VolumeFlow Spread::percentile(double share) const {
    // from the top, where small chances add up without loss
    const double left = 1 - share;
    double above = 0;
    std::size_t i = chance_.size();
    while (i > 0 && above + chance_[i - 1] <= left * (1 + 1e-12)) above += chance_[--i];
    const auto at = static_cast<long>(i == 0 ? 0 : i - 1);
    return static_cast<double>(first_ + stride_ * at) * lattice_step;
}

VolumeFlow Spread::percentile_if_running(double share) const {
    if (idle_ >= 1) return VolumeFlow();
    return percentile(1 - (1 - share) * (1 - idle_));
}

double Spread::above(VolumeFlow flow) const {
    const double steps = flow / lattice_step;
    double sum = 0;
    for (std::size_t i = chance_.size(); i-- > 0;) {
        if (static_cast<double>(first_ + stride_ * static_cast<long>(i)) <= steps * (1 + 1e-12)) break;
        sum += chance_[i];
    }
    return sum;
}

VolumeFlow Spread::excess(VolumeFlow flow) const {
    const double steps = flow / lattice_step;
    double sum = 0;
    for (std::size_t i = chance_.size(); i-- > 0;) {
        const double over = static_cast<double>(first_ + stride_ * static_cast<long>(i)) - steps;
        if (over <= 0) break;
        sum += chance_[i] * over;
    }
    return sum * lattice_step;
}

VolumeFlow Spread::normal_percentile(double share) const { return mean() + normal_quantile(share) * deviation(); }

double normal_quantile(double share) {
    // Newton's steps on the error function; convex on each side of the middle, so they do not leap away.
    const double tail = std::min(share, 1 - share);
    double z = 0;
    for (int i = 0; i < 200; ++i) {
        const double error = 0.5 * std::erfc(z / std::numbers::sqrt2) - tail;
        const double slope = std::exp(-0.5 * z * z) / std::sqrt(2 * std::numbers::pi);
        const double step = error / slope;
        z += step;
        if (std::abs(step) < 1e-14 * std::max(1.0, z)) break;
    }
    return share >= 0.5 ? z : -z;
}

}  // namespace bw::demand
