// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <numbers>
#include <random>

#include "shape/solid.h"

using namespace bw::shape;

namespace {

/// Points spread over a solid, for checking gaps by brute force.
std::vector<Vec> points_in(const Solid& solid, int n) {
    std::vector<Vec> out;
    if (const auto* box = std::get_if<Box>(&solid)) {
        for (int i = 0; i <= n; ++i)
            for (int j = 0; j <= n; ++j)
                for (int k = 0; k <= n; ++k)
                    out.push_back({box->min.x + (box->max.x - box->min.x) * i / n,
                                   box->min.y + (box->max.y - box->min.y) * j / n,
                                   box->min.z + (box->max.z - box->min.z) * k / n});
        return out;
    }
    const auto& bar = std::get<Cylinder>(solid);
    const Vec axis = (1 / distance(bar.a, bar.b)) * (bar.b - bar.a);
    const Vec side = std::abs(axis.z) < 0.9 ? cross(axis, up) : cross(axis, Vec{1, 0, 0});
    const Vec e = (1 / length(side)) * side, f = cross(axis, e);
    for (int i = 0; i <= 2 * n; ++i)
        for (int ring = 0; ring <= 2; ++ring)
            for (int j = 0; j < 4 * n; ++j) {
                const double angle = 2 * std::numbers::pi * j / (4 * n), r = bar.radius * ring / 2;
                out.push_back(bar.a + (static_cast<double>(i) / (2 * n)) * (bar.b - bar.a) + r * std::cos(angle) * e +
                              r * std::sin(angle) * f);
            }
    return out;
}

double sampled_gap(const Solid& a, const Solid& b, int n) {
    double best = 1e9;
    const auto pa = points_in(a, n), pb = points_in(b, n);
    for (const Vec& p : pa)
        for (const Vec& q : pb) best = std::min(best, distance(p, q));
    return best;
}

Solid random_solid(std::mt19937& rng) {
    std::uniform_real_distribution<double> place(-1, 1), size(0.05, 0.4);
    const Vec a{place(rng), place(rng), place(rng)}, b{place(rng), place(rng), place(rng)};
    if (rng() % 2) return box_of(a, a + Vec{size(rng), size(rng), size(rng)});
    return Cylinder{a, b, size(rng) / 2};
}

}  // namespace

TEST(Solids, BoundsOfABarAlongAnAxisEndWithItsFlatEnds) {
    const Box b = bounds(Cylinder{{0, 0, 0}, {2, 0, 0}, 0.5});
    EXPECT_DOUBLE_EQ(b.min.x, 0);
    EXPECT_DOUBLE_EQ(b.max.x, 2);
    EXPECT_DOUBLE_EQ(b.min.y, -0.5);
    EXPECT_DOUBLE_EQ(b.max.z, 0.5);
}

TEST(Solids, BoundsHoldEveryPointOfTheSolid) {
    std::mt19937 rng(7);
    for (int k = 0; k < 200; ++k) {
        const Solid s = random_solid(rng);
        const Box b = bounds(s);
        for (const Vec& p : points_in(s, 3)) EXPECT_LT(gap(b, Box{p, p}), 1e-12);
    }
}

TEST(Solids, BoxesTouchingDoNotOverlap) {
    const Box a{{0, 0, 0}, {1, 1, 1}};
    EXPECT_FALSE(overlap(a, Box{{1, 0, 0}, {2, 1, 1}}));
    EXPECT_TRUE(overlap(a, Box{{0.9, 0, 0}, {2, 1, 1}}));
    EXPECT_FALSE(overlap(a, Box{{0.9, 0, 0}, {2, 1, 1}}, 0.1001));
    EXPECT_DOUBLE_EQ(gap(a, Box{{4, 5, 0}, {5, 6, 1}}), 5);
    EXPECT_DOUBLE_EQ(gap(a, Box{{0.2, 0.2, 0.2}, {0.3, 0.3, 0.3}}), 0);
}

TEST(Solids, GapIsExactForParallelCrossingAndEndToEndBars) {
    const Solid x = Cylinder{{0, 0, 0}, {4, 0, 0}, 0.1};
    EXPECT_NEAR(gap(x, Cylinder{{0, 1, 0}, {4, 1, 0}, 0.2}), 0.7, 1e-12);
    EXPECT_NEAR(gap(x, Cylinder{{2, -3, 1}, {2, 3, 1}, 0.3}), 0.6, 1e-12);
    EXPECT_NEAR(gap(x, Cylinder{{4.5, 0, 0}, {6, 0, 0}, 0.1}), 0.5, 1e-12);
    EXPECT_NEAR(gap(x, Box{{1, 0.4, -0.1}, {2, 1, 0.1}}), 0.3, 1e-12);
    EXPECT_EQ(gap(x, Cylinder{{2, -1, 0}, {2, 1, 0}, 0.1}), 0);
}

TEST(Solids, GapNeverExceedsTheTrueDistanceAndIsCloseToIt) {
    std::mt19937 rng(11);
    for (int k = 0; k < 150; ++k) {
        const Solid a = random_solid(rng), b = random_solid(rng);
        const double found = gap(a, b), sampled = sampled_gap(a, b, 4);
        EXPECT_LE(found, sampled + 1e-9);
        EXPECT_NEAR(found, gap(b, a), 1e-9);
        EXPECT_GT(found, sampled - 0.35) << "no bar here is thicker than 0.2 and no sample farther apart than 0.15";
    }
}

TEST(Solids, GapCountsTheFlatEnds) {
    const Solid x = Cylinder{{0, 0, 0}, {1, 0, 0}, 0.1};
    EXPECT_NEAR(gap(x, Cylinder{{2, 1, 0}, {2, 2, 0}, 0.2}), std::hypot(0.8, 0.9), 1e-9) << "edge to edge";
    EXPECT_NEAR(gap(x, Cylinder{{1.3, 0.5, 0}, {2, 0.5, 0}, 0.1}), std::hypot(0.3, 0.3), 1e-12);
    EXPECT_NEAR(gap(x, Box{{1.3, 0.5, -1}, {2, 2, 1}}), std::hypot(0.3, 0.4), 1e-12);
    EXPECT_NEAR(gap(x, Box{{1.3, 0.3, 0.4}, {2, 2, 1}}), std::hypot(0.3, 0.4), 1e-12) << "the corner, off both axes";
    EXPECT_EQ(gap(x, Cylinder{{0.95, 0.05, 0}, {0.95, 1, 0}, 0.1}), 0);
}

TEST(Solids, Volume) {
    EXPECT_NEAR(volume(Cylinder{{0, 0, 0}, {0, 0, 2}, 0.5}), std::numbers::pi / 2, 1e-12);
    EXPECT_DOUBLE_EQ(volume(Box{{0, 0, 0}, {1, 2, 3}}), 6);
    EXPECT_EQ(box_of({1, 0, 3}, {0, 2, 1}), (Box{{0, 0, 1}, {1, 2, 3}}));
    EXPECT_EQ(joined(Box{{0, 0, 0}, {1, 1, 1}}, Box{{2, -1, 0}, {3, 0, 5}}), (Box{{0, -1, 0}, {3, 1, 5}}));
}

TEST(Placements, FourQuarterTurnsComeBack) {
    const Vec v{1, 2, 3};
    Placement quarter{1, {}};
    EXPECT_EQ(quarter(v), (Vec{-2, 1, 3}));
    EXPECT_EQ(quarter(quarter(quarter(quarter(v)))), v);
    for (int q = 0; q < 4; ++q) EXPECT_EQ(dot((Placement{q, {}}.turn(v)), (Placement{q, {}}.turn({-2, 1, 0}))), 0);
}
