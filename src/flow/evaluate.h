// SPDX-License-Identifier: MIT
#pragma once
// A law made ready to be evaluated many times.

#include <cstdint>
#include <vector>

#include "flow/law.h"

namespace bw::flow {

/// Loss and its slope at a flow; the slope is above zero.
struct Loss {
    double loss = 0, slope = 0;
};

class Ready {
public:
    Ready() = default;
    explicit Ready(const Law& law);

    /// `memory` carries the last friction factor from one call to the next; 0 when there is none.
    [[nodiscard]] Loss at(double flow, double& memory) const;
    /// A flow to start from: a well turbulent one in a pipe, the middle of a table.
    [[nodiscard]] double typical() const { return typical_; }
    /// Flows within which a table holds; a law without bounds gives -inf and inf.
    [[nodiscard]] double least() const { return least_; }
    [[nodiscard]] double greatest() const { return greatest_; }

private:
    enum class Kind : std::uint8_t { colebrook, swamee_jain, square, power, table };
    [[nodiscard]] Loss colebrook(double flow, double& memory) const;
    [[nodiscard]] Loss swamee_jain(double flow) const;
    [[nodiscard]] Loss between(double flow, double reynolds) const;
    [[nodiscard]] Loss power(double flow) const;
    [[nodiscard]] Loss table(double flow) const;
    void make(const Pipe& pipe);
    void make(const Power& power);
    void make(const Table& table);
    void make(const Regulator& regulator);

    Kind kind_ = Kind::square;
    bool mirrored_ = false;
    double friction_ = 0, local_ = 0, reynolds_ = 0;
    double rough_ = 0;        ///< relative roughness / 3.7
    double rough_power_ = 0;  ///< the same to the power 1.11, for a first guess
    double cubic_[4] = {};    ///< friction factor between laminar and turbulent, by Re/2000
    double resistance_ = 0, exponent_ = 2, linear_below_ = 0, linear_ = 0;
    double typical_ = 0, least_ = 0, greatest_ = 0;
    std::vector<double> x_, y_;
};

}  // namespace bw::flow
