// SPDX-License-Identifier: MIT
#pragma once
// Looking at the plant along one direction, at a scale, on one area of a sheet.

#include <string>
#include <vector>

#include "draw/canvas.h"
#include "projection/projection.h"
#include "units/amount.h"

namespace bw::draw {

struct Area {
    double x = 0, y = 0, width = 0, height = 0;  ///< points
};

using Axes = projection::Eye;
inline constexpr Axes from_above{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}};

struct Scale {
    double points_per_metre = 0;
    std::string name;  ///< "3/8 in = 1 ft" or "1:25"
};

/// The largest usual scale at which width by height metres go into the area.
[[nodiscard]] Scale fitting_scale(double width, double height, const Area& area, units::System system);

/// Maps room points to the sheet.
class View {
public:
    /// Centres the box of metres [low, high] (in view right and up) in the area.
    View(Canvas& canvas, Axes axes, Scale scale, Area area, At low, At high);

    [[nodiscard]] At operator()(shape::Vec v) const;
    [[nodiscard]] double right(shape::Vec v) const { return dot(v, axes_.right); }
    [[nodiscard]] double above(shape::Vec v) const { return dot(v, axes_.up); }
    [[nodiscard]] double nearness(shape::Vec v) const { return dot(v, axes_.towards); }
    [[nodiscard]] double points(double metres) const { return metres * scale_.points_per_metre; }
    [[nodiscard]] At at(double right, double up) const;  ///< from view coordinates, metres
    [[nodiscard]] Canvas& canvas() const { return *canvas_; }
    [[nodiscard]] const Scale& scale() const { return scale_; }
    [[nodiscard]] const Axes& axes() const { return axes_; }

private:
    Canvas* canvas_;
    Axes axes_;
    Scale scale_;
    At origin_;
};

}  // namespace bw::draw
