// SPDX-License-Identifier: MIT
#pragma once
// The lines of one solid that it does not hide itself, and its sides.

#include "projection/projection.h"

namespace bw::projection {

struct Curve {
    int item = -1;  ///< -1: a wire
    int owner = 0;
    Kind kind{};
    std::vector<Vec> line;
    double radius = 0;  ///< positive: a whole circle seen as one, about `centre`
    Vec centre;
};

void add_curves(std::vector<Curve>& curves, const std::vector<Item>& items, int item, const Eye& eye, double chord);
void add_faces(std::vector<Face>& faces, const Item& item, const Eye& eye, double chord);

}  // namespace bw::projection
