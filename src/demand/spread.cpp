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

Result<void> judge(const FixtureGroup& kind) {
    if (!(kind.busy >= 0 && kind.busy <= 1))
        return fail(fmt::format("a fixture runs with chance {:.6g}", kind.busy), "0 to 1");
    if (kind.count < 0 || kind.count > most_fixtures)
        return fail(fmt::format("{} fixtures of one kind", kind.count), fmt::format("0 to {}", most_fixtures));
    if (kind.steps < 0 || kind.steps > most_steps)
        return fail(fmt::format("a fixture's flow of {:.2f} gpm", 0.01 * kind.steps),
                    fmt::format("0 to {:.0f} gpm", 0.01 * most_steps));
    return {};
}

bool silent(const FixtureGroup& kind) { return kind.count == 0 || kind.steps == 0 || kind.busy == 0; }

/// Fixtures of one flow add up on their own short lattice first.
std::vector<std::vector<FixtureGroup>> by_flow(std::vector<FixtureGroup> kinds) {
    std::stable_sort(kinds.begin(), kinds.end(),
                     [](const FixtureGroup& a, const FixtureGroup& b) { return a.steps < b.steps; });
    std::vector<std::vector<FixtureGroup>> out;
    for (const auto& kind : kinds) {
        if (out.empty() || out.back().front().steps != kind.steps) out.emplace_back();
        out.back().push_back(kind);
    }
    return out;
}

}  // namespace

Spread::Spread() : chance_{1.0}, tail_{1.0} {}

Result<Spread> Spread::of(const std::vector<FixtureGroup>& kinds) {
    Spread out;
    std::vector<FixtureGroup> loud;
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
    out.tail_.resize(out.chance_.size());
    double tail = 0;  // from the top, where small chances add up without loss
    for (std::size_t i = out.chance_.size(); i-- > 0;) out.tail_[i] = tail += out.chance_[i];
    return out;
}

VolumeFlow Spread::deviation() const { return std::sqrt(variance_) * lattice_step; }

long Spread::last() const { return first_ + stride_ * (static_cast<long>(chance_.size()) - 1); }

double Spread::at(long step) const {
    if (step < first_ || step > last() || (step - first_) % stride_ != 0) return 0;
    return chance_[static_cast<std::size_t>((step - first_) / stride_)];
}

VolumeFlow Spread::percentile(double share) const {
    // the last point that is still reached more often than allowed
    const double left = (1 - share) * (1 + 1e-12);
    const auto within = std::partition_point(tail_.begin(), tail_.end(), [&](double t) { return t > left; });
    const auto at = std::max(static_cast<long>(within - tail_.begin()) - 1, 0L);
    return static_cast<double>(first_ + stride_ * at) * lattice_step;
}

VolumeFlow Spread::percentile_if_running(double share) const {
    if (idle_ >= 1) return VolumeFlow();
    return percentile(1 - (1 - share) * (1 - idle_));
}

double Spread::above(VolumeFlow flow) const {
    const double steps = flow / lattice_step * (1 + 1e-12);
    if (steps < static_cast<double>(first_)) return tail_.front();
    const double at = std::floor((steps - static_cast<double>(first_)) / static_cast<double>(stride_)) + 1;
    return at < static_cast<double>(tail_.size()) ? tail_[static_cast<std::size_t>(at)] : 0.0;
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
