// SPDX-License-Identifier: MIT
#pragma once
// One view of the plant among the others of a DXF file, at full size.

#include "draw/dxf_writer.h"
#include "draw/frame.h"
#include "draw/solids.h"

namespace bw::draw {

/// The layers every file of ours has.
void add_layers(DxfFile& file);

class DxfView {
public:
    /// Moved so that its lower left corner, `low` in metres, stands at `place`.
    DxfView(DxfFile& file, const SheetContext& context, Axes axes, DxfPoint low, DxfPoint place);

    [[nodiscard]] DxfPoint at(double right, double up) const { return {right * unit_ + move_.x, up * unit_ + move_.y}; }
    [[nodiscard]] DxfPoint operator()(shape::Vec v) const { return at(dot(v, axes_.right), dot(v, axes_.up)); }
    [[nodiscard]] double measure(double metres) const { return metres * unit_; }
    [[nodiscard]] DxfEntities& out() const { return file_.entities; }

    /// A heater or bought piece is a block, cut pipe is drawn as it lies. What is hidden lies on a layer of its own, or
    /// is left out.
    void solids(const Scene& scene, bool hidden);
    /// A heater's number stands over its block.
    void number(const plant::Piece& piece);
    /// Dimensions along a line `away` metres from the view's axis.
    void chain(std::vector<double> stations, double away, bool vertical);
    /// The plan's walls, doors, obstacles and points of connection.
    void room(const survey::Room& room);

private:
    void piece(const plant::Piece& p, const std::vector<const projection::Stroke*>& strokes);
    void stroke(DxfEntities& to, const std::string& layer, const projection::Stroke& stroke, DxfPoint from) const;
    void door(const survey::Room& room, const survey::Door& door);

    DxfFile& file_;
    const SheetContext& context_;
    Axes axes_;
    double unit_;
    DxfPoint move_;
};

}  // namespace bw::draw
