// SPDX-License-Identifier: MIT
#include "flow/evaluate.h"

#include <algorithm>
#include <cmath>

namespace bw::flow {

namespace {

constexpr double laminar_end = 2000, turbulent_start = 4000, well_turbulent = 5e4;
constexpr double ln_5_74 = 1.747459210331475;
constexpr double two_by_ln10 = 0.868588963806503655;

/// Colebrook for x = 1/sqrt(f): x + 2 log10(r + b x) = 0, by Halley's step, which trebles the digits each time.
double solve_colebrook(double rough, double b, double x) {
    for (int i = 0; i < 8; ++i) {
        const double inside = rough + b * x, bend = two_by_ln10 * b / inside;
        const double slope = 1 + bend;
        const double step = (x + two_by_ln10 * std::log(inside)) / slope;
        const double curve = -bend * b / inside;
        const double taken = step / (1 - step * curve / (2 * slope));
        x -= taken;
        if (std::fabs(taken) < 1e-5 * x) break;
    }
    return x;
}

double haaland(double rough_power, double reynolds) {
    return -1.8 / 2.302585092994045684 * std::log(rough_power + 6.9 / reynolds);
}

}  // namespace

Ready::Ready(const Law& law) {
    std::visit([this](const auto& one) { make(one); }, law);
}

void Ready::make(const Pipe& pipe) {
    kind_ = pipe.form == Friction::colebrook ? Kind::colebrook : Kind::swamee_jain;
    friction_ = pipe.friction;
    local_ = pipe.local;
    reynolds_ = pipe.reynolds;
    rough_ = pipe.roughness / 3.7;
    rough_power_ = std::pow(rough_, 1.11);
    typical_ = well_turbulent / reynolds_;
    if (kind_ == Kind::colebrook) {
        const double b = 2.51 / turbulent_start;
        const double x = solve_colebrook(rough_, b, haaland(rough_power_, turbulent_start));
        const double low = 64 / laminar_end, high = 1 / (x * x);
        more_ = {2 * low - high, high - low, 0, 0};
        return;
    }
    const double y1 = 5.74 / std::pow(turbulent_start, 0.9), y2 = rough_ + y1, y3 = -two_by_ln10 * std::log(y2);
    const double fa = 1 / (y3 * y3), fb = fa * (2 - 1.8 * two_by_ln10 * y1 / (y2 * y3));
    more_ = {7 * fa - fb, 0.128 - 17 * fa + 2.5 * fb, -0.128 + 13 * fa - 2 * fb, 0.032 - 3 * fa + 0.5 * fb};
}

void Ready::make(const Power& law) {
    kind_ = law.exponent == 2 ? Kind::square : Kind::power;
    resistance_ = law.resistance;
    exponent_ = law.exponent;
    linear_below_ = law.linear_below;
    linear_ = resistance_ * std::pow(linear_below_, exponent_ - 1);
    typical_ = 1e4 * linear_below_;
}

void Ready::make(const Table& law) {
    kind_ = Kind::table;
    mirrored_ = law.flow.front() == 0 && law.loss.front() == 0;
    typical_ = (law.flow.front() + law.flow.back()) / 2;
    more_ = law.flow;
    more_.insert(more_.end(), law.loss.begin(), law.loss.end());
}

double Ready::greatest() const { return more_[more_.size() / 2 - 1]; }
double Ready::least() const { return mirrored_ ? -greatest() : more_.front(); }

void Ready::make(const Regulator& law) { make(Power{law.resistance, 2, law.linear_below}); }

Loss Ready::colebrook(double flow, double& memory) const {
    const double size = std::fabs(flow), reynolds = reynolds_ * size;
    if (reynolds < turbulent_start) return below_turbulent(flow, reynolds);
    const double b = 2.51 / reynolds;
    const double x = solve_colebrook(rough_, b, memory > 0 ? memory : haaland(rough_power_, reynolds));
    memory = x;
    const double bend = two_by_ln10 * b / (rough_ + b * x), f = friction_ / (x * x);
    return {(f + local_) * size * flow, 2 * size * (f / (1 + bend) + local_)};
}

Loss Ready::swamee_jain(double flow) const {
    const double size = std::fabs(flow), reynolds = reynolds_ * size;
    if (reynolds < turbulent_start) return below_turbulent(flow, reynolds);
    const double y1 = std::exp(ln_5_74 - 0.9 * std::log(reynolds)), y2 = rough_ + y1;
    const double x = -two_by_ln10 * std::log(y2);  // 1/sqrt(f)
    const double both = 1 / (x * y2), root = both * y2, f = friction_ * root * root;
    return {(f + local_) * size * flow, size * (f * (2 - 1.8 * two_by_ln10 * y1 * both) + 2 * local_)};
}

Loss Ready::below_turbulent(double flow, double reynolds) const {
    const double size = std::fabs(flow);
    if (reynolds <= laminar_end) {
        const double linear = 64 * friction_ / reynolds_;
        return {(linear + local_ * size) * flow, linear + 2 * local_ * size};
    }
    const double r = reynolds / laminar_end;
    const double f = more_[0] + r * (more_[1] + r * (more_[2] + r * more_[3]));
    const double rise = r * (more_[1] + r * (2 * more_[2] + r * 3 * more_[3]));
    return {(friction_ * f + local_) * size * flow, size * (friction_ * (2 * f + rise) + 2 * local_)};
}

Loss Ready::square(double flow) const {
    const double size = std::fabs(flow);
    if (size < linear_below_) return {linear_ * flow, linear_};
    return {resistance_ * flow * size, 2 * resistance_ * size};
}

Loss Ready::power(double flow) const {
    const double size = std::fabs(flow);
    if (size < linear_below_) return {linear_ * flow, linear_};
    const double slope = resistance_ * std::pow(size, exponent_ - 1);
    return {slope * flow, exponent_ * slope};
}

Loss Ready::table(double flow) const {
    const bool turned = mirrored_ && flow < 0;
    const double at = turned ? -flow : flow;
    const auto points = more_.size() / 2;
    const double* const x = more_.data();
    const double* const y = x + points;
    const auto i = std::upper_bound(x + 1, x + points - 1, at) - x;
    const double slope = (y[i] - y[i - 1]) / (x[i] - x[i - 1]);
    const double loss = y[i - 1] + slope * (at - x[i - 1]);
    return {turned ? -loss : loss, slope};
}

}  // namespace bw::flow
