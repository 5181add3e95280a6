// SPDX-License-Identifier: MIT
// Hidden lines against the CAD kernel's exact removal (HLRBRep), which shares nothing with ours: solids strewn at
// random, and a heater with what hangs on it.
#include <gtest/gtest.h>
#include <BRepAdaptor_Curve.hxx>
#include <BRepLib.hxx>
#include <BRepPrimAPI_MakeBox.hxx>
#include <BRepPrimAPI_MakeCylinder.hxx>
#include <GCPnts_AbscissaPoint.hxx>
#include <HLRAlgo_Projector.hxx>
#include <HLRBRep_Algo.hxx>
#include <HLRBRep_HLRToShape.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS.hxx>
#include <gp_Ax2.hxx>

#include <random>

#include "../support/examples.h"
#include "projection/projection.h"

namespace bw::test {
namespace {

using shape::Vec;

constexpr double mm = 1000;  // the kernel's own tolerances are meant for millimetres

gp_Pnt point(Vec v) { return {mm * v.x, mm * v.y, mm * v.z}; }
gp_Dir direction(Vec v) { return {v.x, v.y, v.z}; }

TopoDS_Shape solid_of(const shape::Solid& solid) {
    if (const auto* box = std::get_if<shape::Box>(&solid)) return BRepPrimAPI_MakeBox(point(box->min), point(box->max));
    const auto& bar = std::get<shape::Cylinder>(solid);
    return BRepPrimAPI_MakeCylinder(gp_Ax2(point(bar.a), direction(bar.b - bar.a)), mm * bar.radius,
                                    mm * shape::distance(bar.a, bar.b));
}

double length_of(const TopoDS_Shape& edges) {
    if (edges.IsNull()) return 0;
    BRepLib::BuildCurves3d(edges);
    double length = 0;
    for (TopExp_Explorer at(edges, TopAbs_EDGE); at.More(); at.Next())
        length += GCPnts_AbscissaPoint::Length(BRepAdaptor_Curve(TopoDS::Edge(at.Current())));
    return length / mm;
}

double by_kernel(const std::vector<shape::Solid>& solids, const projection::Eye& eye) {
    Handle(HLRBRep_Algo) hidden = new HLRBRep_Algo;
    for (const auto& solid : solids) hidden->Add(solid_of(solid));
    hidden->Projector(HLRAlgo_Projector(gp_Ax2({0, 0, 0}, direction(eye.towards), direction(eye.right))));
    hidden->Update();
    hidden->Hide();
    HLRBRep_HLRToShape lines(hidden);
    return length_of(lines.VCompound()) + length_of(lines.OutLineVCompound());
}

double by_us(const std::vector<shape::Solid>& solids, const projection::Eye& eye) {
    std::vector<projection::Item> items;
    for (const auto& solid : solids) projection::add(items, {solid}, 0);
    double length = 0;
    for (const auto& stroke : projection::look(items, {}, eye, {.chord = 1e-7, .faces = false}).strokes)
        for (std::size_t i = 1; i < stroke.line.size(); ++i)
            length += std::hypot(stroke.line[i].x - stroke.line[i - 1].x, stroke.line[i].y - stroke.line[i - 1].y);
    return length;
}

/// Boxes and bars of all sizes that do not touch, in a metre's cube.
std::vector<shape::Solid> strewn(unsigned seed, int count) {
    std::mt19937 random(seed);
    const auto number = [&](double low, double high) { return low + (high - low) * double(random() % 10007) / 10007; };
    std::vector<shape::Solid> solids;
    while (static_cast<int>(solids.size()) < count) {
        const Vec a{number(0, 1), number(0, 1), number(0, 1)};
        const Vec size{number(0.02, 0.3), number(0.02, 0.3), number(0.02, 0.3)};
        shape::Solid solid = shape::Box{a, a + size};
        if (random() % 3 == 0)
            solid = shape::Cylinder{a, a + size, number(0.01, 0.06)};  // aslant
        else if (random() % 2 == 0)
            solid = shape::Cylinder{a, a + (random() % 2 ? Vec{0, 0, size.z} : Vec{-size.x, 0, 0}), number(0.01, 0.06)};
        const auto apart = [&](const shape::Solid& s) {
            return shape::gap(shape::bounds(s), shape::bounds(solid)) > 0.004;
        };
        if (std::all_of(solids.begin(), solids.end(), apart)) solids.push_back(solid);
    }
    return solids;
}

/// A view of no special direction: turned and tilted from the front.
projection::Eye aslant(double turn, double tilt) {
    const double c = std::cos(turn), s = std::sin(turn), h = std::cos(tilt), v = std::sin(tilt);
    return {{c, s, 0}, {-s * v, c * v, h}, {s * h, -c * h, v}};
}

TEST(HiddenLines, AgreeWithTheKernelOnStrewnSolids) {
    for (unsigned seed = 1; seed <= 12; ++seed) {
        const auto solids = strewn(seed, 14);
        for (const auto& eye : {projection::isometric(1, 1), projection::isometric(-1, 1), projection::isometric(1, -1),
                                aslant(0.03 * seed, 0.02), aslant(1.1 + seed, -0.7)})
            EXPECT_NEAR(by_us(solids, eye) / by_kernel(solids, eye), 1, 2e-3) << "seed " << seed;
    }
}

/// Pieces touch, and edges of touching solids may count to either: half a per cent. The kernel takes 5 s for all of a
/// plant, so the first hundred solids: some heaters and their headers.
TEST(HiddenLines, AgreeWithTheKernelOnAPlant) {
    std::vector<shape::Solid> solids;
    for (const auto& piece : plant_of("sports-hall").pieces)
        for (const auto& solid : piece.solids)
            if (solids.size() < 100) solids.push_back(solid);
    EXPECT_NEAR(by_us(solids, projection::isometric(1, 1)) / by_kernel(solids, projection::isometric(1, 1)), 1, 5e-3);
}

}  // namespace
}  // namespace bw::test
