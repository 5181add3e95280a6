// SPDX-License-Identifier: MIT
#include "network/run/length.h"

namespace bw::network {
namespace {

using text::Part;

/// Of two legs that meet where the ports' axes cross.
double legs(const plant::Port& in, const plant::Port& out) {
    const double turn = 1 - shape::dot(in.facing, out.facing);
    if (turn < 1e-6) return shape::distance(in.at, out.at);  // ports that look the same way: no crossing
    return shape::dot(out.at - in.at, out.facing - in.facing) / turn;
}

}  // namespace

double length_through(const plant::Piece& piece, int in, int out, LengthRule rule) {
    if (in < 0 || out < 0) return 0;
    const auto &from = piece.ports[static_cast<std::size_t>(in)], &to = piece.ports[static_cast<std::size_t>(out)];
    const bool tee = piece.part == Part::tee || piece.part == Part::vent_tee;
    const bool flexible = piece.part == Part::flexible_gas || piece.part == Part::flexible_water;
    if (rule == LengthRule::solved && tee) return 0;
    if (rule == LengthRule::solved || flexible) return shape::distance(from.at, to.at);
    return legs(from, to);
}

}  // namespace bw::network
