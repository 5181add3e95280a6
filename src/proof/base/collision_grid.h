// SPDX-License-Identifier: MIT
#pragma once
// The solids of a plant, looked up by where they stand.

#include <cmath>
#include <string>
#include <vector>

#include "plant/plant.h"
#include "survey/survey.h"

namespace bw::proof {

/// One solid of a piece, or of an obstacle of the room: then `piece` is -1 less the obstacle's index.
struct Body {
    shape::Box box;
    shape::Solid solid;
    int piece = 0;
};

/// CollisionGrid in cells of a foot or more.
class CollisionGrid {
public:
    CollisionGrid(const plant::Plant& plant, const survey::Room& room);

    [[nodiscard]] const std::vector<Body>& all() const { return all_; }
    /// f(const Body&) for each body whose bounds share room with a box, once.
    template <class F>
    void near(const shape::Box& box, F f) const;
    /// f(const Body&, const Body&) for each pair whose bounds share room, once.
    template <class F>
    void pairs(F f) const;

private:
    struct Cells {
        int low[3], high[3];
    };
    [[nodiscard]] Cells cells(const shape::Box& box) const;
    [[nodiscard]] std::size_t cell(int x, int y, int z) const {
        return static_cast<std::size_t>((z * count_[1] + y) * count_[0] + x);
    }
    void sort_into_cells();

    std::vector<Body> all_;
    std::vector<Cells> spans_;  ///< by body
    shape::Vec corner_;
    double size_ = 0.3;  ///< metres
    int count_[3] = {1, 1, 1};
    std::vector<int> first_, held_;  ///< bodies of cell c: held_[first_[c]] to held_[first_[c + 1]]
};

template <class F>
void CollisionGrid::near(const shape::Box& box, F f) const {
    const Cells over = cells(box);
    for (int z = over.low[2]; z <= over.high[2]; ++z)
        for (int y = over.low[1]; y <= over.high[1]; ++y)
            for (int x = over.low[0]; x <= over.high[0]; ++x) {
                const auto c = cell(x, y, z);
                for (int k = first_[c]; k < first_[c + 1]; ++k) {
                    const auto i = static_cast<std::size_t>(held_[static_cast<std::size_t>(k)]);
                    const auto& span = spans_[i];
                    // of the cells both are in, only the first tells
                    if (x != std::max(over.low[0], span.low[0]) || y != std::max(over.low[1], span.low[1]) ||
                        z != std::max(over.low[2], span.low[2]))
                        continue;
                    if (shape::overlap(all_[i].box, box)) f(all_[i]);
                }
            }
}

template <class F>
void CollisionGrid::pairs(F f) const {
    for (int z = 0; z < count_[2]; ++z)
        for (int y = 0; y < count_[1]; ++y)
            for (int x = 0; x < count_[0]; ++x) {
                const auto c = cell(x, y, z);
                for (int k = first_[c]; k < first_[c + 1]; ++k) {
                    const auto i = static_cast<std::size_t>(held_[static_cast<std::size_t>(k)]);
                    const auto& one = spans_[i];
                    for (int m = k + 1; m < first_[c + 1]; ++m) {
                        const auto j = static_cast<std::size_t>(held_[static_cast<std::size_t>(m)]);
                        if (!shape::overlap(all_[i].box, all_[j].box)) continue;
                        const auto& two = spans_[j];
                        if (x == std::max(one.low[0], two.low[0]) && y == std::max(one.low[1], two.low[1]) &&
                            z == std::max(one.low[2], two.low[2]))
                            f(all_[i], all_[j]);
                    }
                }
            }
}

/// Two pieces, or a piece and an obstacle (`b` below zero, as in `Body`), that share more room than the grid's fit.
struct Clash {
    int a = -1, b = -1;
    double depth = 0;  ///< metres: how much the two would have to lose between them to part
};
/// Of all pieces that are not joined to one another, nor give way (`text::gives_way`); by index.
[[nodiscard]] std::vector<Clash> clashes(const plant::Plant& plant, const CollisionGrid& bodies);

/// Whether two solids share more room than the grid's fit.
[[nodiscard]] bool clash(const shape::Solid& a, const shape::Solid& b);

/// By how much a solid reaches into the ceiling, metres, below zero where it does not. Of what stands partly outside
/// the room only the length within counts where the ceiling slopes: its plane says nothing of the world outside.
[[nodiscard]] double into_ceiling(const survey::Room& room, const shape::Solid& solid);

/// Whether a piece of pipe, as drawn, ends in the ceiling or goes on above it.
[[nodiscard]] bool passes_ceiling(const survey::Room& room, const plant::Piece& piece);

/// Whether a joint holds two pieces together.
[[nodiscard]] bool joined(const plant::Plant& plant, int a, int b);
/// Whether one is reached from the other over at most `joints` joints.
[[nodiscard]] bool kin(const plant::Plant& plant, int a, int b, int joints);

}  // namespace bw::proof
