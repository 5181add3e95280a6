// SPDX-License-Identifier: MIT
#pragma once
// Items as they lie on the view's plane, in cells, to ask what may stand before a line.

#include "projection/projection.h"

namespace bw::projection {

/// A rectangle of the view's plane with a range of depths towards the reader.
struct Patch {
    Point low{1e18, 1e18}, high{-1e18, -1e18};
    double far = 1e18, near = -1e18;
    void take(const Eye& eye, Vec v);
    void grow(double by);
    [[nodiscard]] bool meets(const Patch& other) const {
        return low.x < other.high.x && other.low.x < high.x && low.y < other.high.y && other.low.y < high.y;
    }
    [[nodiscard]] double area() const { return (high.x - low.x) * (high.y - low.y); }
};

class Field {
public:
    Field(const std::vector<Item>& items, const Eye& eye);
    [[nodiscard]] const Patch& patch(int item) const { return patches_[static_cast<std::size_t>(item)]; }
    /// Items whose patch meets that of a stretch of the line and that have a part before it; each once, in rising
    /// order.
    void before(const std::vector<Vec>& line, const Patch& whole, std::vector<int>& found);
    /// Pairs of items (the lower index first) whose patches meet, each once.
    [[nodiscard]] std::vector<std::pair<int, int>> neighbours() const;

private:
    void spread(int item, const Patch& part);
    template <class Visit>
    void cells(const Patch& part, const Visit& visit) const;
    const Eye& eye_;
    std::vector<Patch> patches_;
    std::vector<std::vector<int>> cell_;
    std::vector<int> stamp_;
    int now_ = 0;
    Point corner_;
    int across_ = 1, up_ = 1;
};

}  // namespace bw::projection
