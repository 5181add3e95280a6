// SPDX-License-Identifier: MIT
#include "kernel/shapes.h"

#include <BRepBuilderAPI_MakeEdge.hxx>
#include <BRepBuilderAPI_MakePolygon.hxx>
#include <BRepBuilderAPI_MakeWire.hxx>
#include <BRepGProp.hxx>
#include <BRepOffsetAPI_MakePipeShell.hxx>
#include <BRepPrimAPI_MakeBox.hxx>
#include <BRepPrimAPI_MakeCylinder.hxx>
#include <BRep_Builder.hxx>
#include <GProp_GProps.hxx>
#include <Standard_Failure.hxx>
#include <TopoDS_Compound.hxx>
#include <cmath>
#include <gp_Ax2.hxx>
#include <gp_Circ.hxx>

namespace bw::kernel {
namespace {

using model::Form;
using model::Rod;

constexpr double mm = 1000;

gp_Pnt point(shape::Vec v) { return {mm * v.x, mm * v.y, mm * v.z}; }

gp_Ax2 along(shape::Vec from, shape::Vec to) {
    const auto way = to - from;
    return {point(from), gp_Dir(way.x, way.y, way.z)};
}

TopoDS_Shape solid(const shape::Box& box) { return BRepPrimAPI_MakeBox(point(box.min), point(box.max)).Solid(); }

TopoDS_Shape solid(const Rod& rod) {
    const auto axes = along(rod.line[0], rod.line[1]);
    if (rod.line.size() == 2)
        return BRepPrimAPI_MakeCylinder(axes, mm * rod.radius, mm * shape::distance(rod.line[0], rod.line[1])).Solid();
    BRepBuilderAPI_MakePolygon spine;
    for (const auto v : rod.line) spine.Add(point(v));
    BRepOffsetAPI_MakePipeShell sweep(spine.Wire());
    sweep.SetTransitionMode(BRepBuilderAPI_RightCorner);
    sweep.Add(BRepBuilderAPI_MakeWire(BRepBuilderAPI_MakeEdge(gp_Circ(axes, mm * rod.radius))).Wire());
    sweep.Build();
    if (!sweep.IsDone() || !sweep.MakeSolid()) return {};
    return sweep.Shape();
}

double volume_of(const TopoDS_Shape& shape) {
    GProp_GProps properties;
    BRepGProp::VolumeProperties(shape, properties);
    return properties.Mass() / (mm * mm * mm);
}

/// The solid of a form; null where the kernel makes none, or one with another volume.
TopoDS_Shape made(const Form& form) {
    try {
        auto shape = std::visit([](const auto& f) { return solid(f); }, form);
        const double wanted = volume(form);
        const bool good = !shape.IsNull() && std::abs(volume_of(shape) - wanted) <= 1e-6 * wanted;
        return good ? shape : TopoDS_Shape();
    } catch (const Standard_Failure&) {
        return {};
    }
}

std::vector<Form> bars(const Form& form) {
    std::vector<Form> all;
    if (const auto* rod = std::get_if<Rod>(&form))
        for (std::size_t i = 1; i < rod->line.size(); ++i)
            all.emplace_back(Rod{{rod->line[i - 1], rod->line[i]}, rod->radius});
    return all;
}

}  // namespace

bw::Result<TopoDS_Shape> kernel_shape(const model::Shape& shape) {
    std::vector<TopoDS_Shape> solids;
    for (const auto& form : shape.forms) {
        if (auto whole = made(form); !whole.IsNull()) {
            solids.push_back(std::move(whole));
            continue;
        }
        const auto single = bars(form);
        if (single.size() > 1)
            for (const auto& bar : single) solids.push_back(made(bar));
        else
            solids.emplace_back();
    }
    TopoDS_Compound all;
    BRep_Builder builder;
    builder.MakeCompound(all);
    for (const auto& solid : solids) {
        if (solid.IsNull())
            return fail("the CAD kernel makes no solid of " + shape.item, "a shape in its row that has a volume");
        builder.Add(all, solid);
    }
    if (solids.size() == 1) return solids.front();
    return all;
}

}  // namespace bw::kernel
