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
    [[nodiscard]] Loss at(double flow, double& memory) const {
        switch (kind_) {
            case Kind::colebrook: return colebrook(flow, memory);
            case Kind::swamee_jain: return swamee_jain(flow);
            case Kind::square: return square(flow);
            case Kind::power: return power(flow);
            case Kind::table: return table(flow);
        }
        return {};
    }
    /// A flow to start from: a well turbulent one in a pipe, the middle of a table.
    [[nodiscard]] double typical() const { return typical_; }
    [[nodiscard]] bool bounded() const { return kind_ == Kind::table; }
    /// Flows within which a table holds; only where bounded.
    [[nodiscard]] double least() const;
    [[nodiscard]] double greatest() const;

private:
    enum class Kind : std::uint8_t { colebrook, swamee_jain, square, power, table };
    [[nodiscard]] Loss colebrook(double flow, double& memory) const;
    [[nodiscard]] Loss swamee_jain(double flow) const;
    [[nodiscard]] Loss below_turbulent(double flow, double reynolds) const;
    [[nodiscard]] Loss square(double flow) const;
    [[nodiscard]] Loss power(double flow) const;
    [[nodiscard]] Loss table(double flow) const;
    void make(const Pipe& pipe);
    void make(const Power& power);
    void make(const Table& table);
    void make(const Regulator& regulator);

    Kind kind_ = Kind::square;
    bool mirrored_ = false;
    double typical_ = 0;
    double friction_ = 0, local_ = 0, reynolds_ = 0, rough_ = 0, rough_power_ = 0;  // pipes: roughness/3.7, ^1.11
    double resistance_ = 0, exponent_ = 2, linear_below_ = 0, linear_ = 0;          // powers
    std::vector<double> more_;  ///< pipes: the cubic in Re/2000 below turbulence; tables: flows, then losses
};

}  // namespace bw::flow
