// SPDX-License-Identifier: MIT
// Places as a view writes them.
#include <gtest/gtest.h>

#include <cmath>

#include "serve/writer.h"

namespace bw::test {
namespace {

std::string written(double metres) { return serve::Writer().place(metres).take(); }

TEST(Writer, PlacesAreTenthsOfAMillimetreWithoutIdleNoughts) {
    EXPECT_EQ(written(0), "0");
    EXPECT_EQ(written(3), "3");
    EXPECT_EQ(written(1.25), "1.25");
    EXPECT_EQ(written(-0.0254), "-0.0254");
    EXPECT_EQ(written(12.00009), "12.0001");
}

/// 0.0254 / 16 m is 15.875 tenths of a millimetre: every fourth of them lies on the half.
TEST(Writer, TheSamePlaceButForItsLastBitIsWrittenAlike) {
    for (int sixteenths = -6400; sixteenths <= 6400; ++sixteenths) {
        const double at = sixteenths * 0.0254 / 16;
        EXPECT_EQ(written(std::nextafter(at, -100)), written(std::nextafter(at, 100))) << sixteenths;
        EXPECT_NEAR(std::stod(written(at)), at, 0.5e-4 + 1e-9);
    }
}

}  // namespace
}  // namespace bw::test
