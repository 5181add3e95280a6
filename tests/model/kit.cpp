// SPDX-License-Identifier: MIT
#include "kit.h"

namespace bw::test {
shape::Box bounds_of(const plant::Piece& piece) { return shape::bounds(piece.solids); }

double volume_of(const plant::Piece& piece) {
    double sum = 0;
    for (const auto& solid : piece.solids) sum += shape::volume(solid);
    return sum;
}

std::vector<const plant::Piece*> own_pieces(const plant::Plant& plant) {
    std::vector<const plant::Piece*> all;
    for (const auto& piece : plant.pieces)
        if (piece.part != text::Part::connection) all.push_back(&piece);
    return all;
}

void expect_same_bounds(const Json& read, const plant::Piece& piece, double tolerance) {
    const auto box = bounds_of(piece);
    const double low[] = {box.min.x, box.min.y, box.min.z}, high[] = {box.max.x, box.max.y, box.max.z};
    for (std::size_t i = 0; i < 3; ++i) {
        EXPECT_NEAR(read["low"][i].get<double>(), low[i], tolerance) << piece.id;
        EXPECT_NEAR(read["high"][i].get<double>(), high[i], tolerance) << piece.id;
    }
}

}  // namespace bw::test
