// SPDX-License-Identifier: MIT
// Distances between solids beside those of Open CASCADE 7.6 (BRepExtrema_DistShapeShape), on random pairs of every kind
// the plant is made of: boxes, bars along an axis, bars in any direction, near one another, apart and overlapping.
#include <gtest/gtest.h>
#include <BRepExtrema_DistShapeShape.hxx>

#include <algorithm>
#include <random>

#include "model/form.h"
#include "kernel/shapes.h"
#include "shape/solid.h"

namespace bw {
namespace {

using shape::Vec;

enum class Kind { box, along_axis, skew };

class Maker {
public:
    shape::Solid solid(Kind kind) {
        const Vec a{place(), place(), place()};
        if (kind == Kind::box) return shape::box_of(a, a + Vec{size(), size(), size()});
        if (kind == Kind::skew) return shape::Cylinder{a, a + Vec{place(), place(), place()}, size() / 4};
        const double reach = (rng_() % 2 ? 1 : -1) * size();
        const auto axis = rng_() % 3;
        return shape::Cylinder{a, a + Vec{axis == 0 ? reach : 0, axis == 1 ? reach : 0, axis == 2 ? reach : 0},
                               size() / 4};
    }

private:
    double place() { return std::uniform_real_distribution<double>(-0.4, 0.4)(rng_); }
    double size() { return std::uniform_real_distribution<double>(0.02, 0.4)(rng_); }
    std::mt19937 rng_{20};
};

TopoDS_Shape kernel(const shape::Solid& solid) {
    model::Shape shape;
    shape.forms = model::forms({solid});
    return kernel::kernel_shape(shape).value();
}

/// The nearest point of a solid to a point.
Vec projected(const shape::Solid& solid, Vec p) {
    if (const auto* box = std::get_if<shape::Box>(&solid))
        return {std::clamp(p.x, box->min.x, box->max.x), std::clamp(p.y, box->min.y, box->max.y),
                std::clamp(p.z, box->min.z, box->max.z)};
    const auto& bar = std::get<shape::Cylinder>(solid);
    const double whole = shape::distance(bar.a, bar.b);
    const Vec axis = (1 / whole) * (bar.b - bar.a);
    const double along = shape::dot(p - bar.a, axis);
    const Vec across = (p - bar.a) - along * axis;
    const double off = shape::length(across);
    return bar.a + std::clamp(along, 0.0, whole) * axis + (off > bar.radius ? bar.radius / off : 1.0) * across;
}

/// The kernel's pair of points, carried on from one convex solid to the other and back until they come no nearer.
double walked_on(const shape::Solid& a, const shape::Solid& b, Vec p) {
    for (int k = 0; k < 200000; ++k) p = projected(a, projected(b, p));
    return shape::distance(p, projected(b, p));
}

void beside_the_kernel(Kind one, Kind two) {
    Maker maker;
    int apart = 0, stopped_short = 0;
    for (int k = 0; k < 120; ++k) {
        const auto a = maker.solid(one), b = maker.solid(two);
        BRepExtrema_DistShapeShape distance(kernel(a), kernel(b));
        ASSERT_TRUE(distance.IsDone());
        const double theirs = distance.InnerSolution() ? 0 : distance.Value() / 1000;
        const double ours = shape::gap(a, b);
        apart += theirs > 1e-3;
        // a pair of points the kernel found is real, so the distance is no greater; its own search between two round
        // edges may stop short
        EXPECT_LE(ours, theirs + 1e-6) << "pair " << k;
        if (ours < theirs - 1e-6) {
            ++stopped_short;
            const gp_Pnt p = distance.PointOnShape1(1);
            EXPECT_NEAR(ours, walked_on(a, b, {p.X() / 1000, p.Y() / 1000, p.Z() / 1000}), 1e-6) << "pair " << k;
        }
        EXPECT_NEAR(ours, shape::gap(b, a), 1e-8);
    }
    EXPECT_GT(apart, 20) << "too few pairs stand apart to say anything";
    EXPECT_LT(apart, 120) << "no pair meets";
    EXPECT_LE(stopped_short, 2);
}

TEST(OutsideShapeDistances, BoxAndBox) { beside_the_kernel(Kind::box, Kind::box); }
TEST(OutsideShapeDistances, BoxAndBarAlongAnAxis) { beside_the_kernel(Kind::box, Kind::along_axis); }
TEST(OutsideShapeDistances, BoxAndSkewBar) { beside_the_kernel(Kind::box, Kind::skew); }
TEST(OutsideShapeDistances, TwoBarsAlongAxes) { beside_the_kernel(Kind::along_axis, Kind::along_axis); }
TEST(OutsideShapeDistances, BarAlongAnAxisAndSkewBar) { beside_the_kernel(Kind::along_axis, Kind::skew); }
TEST(OutsideShapeDistances, TwoSkewBars) { beside_the_kernel(Kind::skew, Kind::skew); }

}  // namespace
}  // namespace bw
