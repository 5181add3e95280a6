// SPDX-License-Identifier: MIT
// A room as intricate as a survey may make it is designed in a time one would wait for.
#include <fmt/format.h>

#include "ran.h"

namespace bw::test {
namespace {

using Time = Bench;

/// The hostel's room, 40 ft by 20 ft, with a toothed wall in place of its far one.
std::string of_many_corners(int corners) {
    auto text = text_of(source / "examples/hostel.toml");
    const auto change = [&](const std::string& from, const std::string& until, const std::string& to) {
        const auto at = text.find(from), end = text.find(until, at);
        ASSERT_NE(end, std::string::npos) << from;
        text.replace(at, end - at, to);
    };
    std::string plan = "plan = [[\"0 ft\", \"0 ft\"], [\"40 ft\", \"0 ft\"], [\"40 ft\", \"20 ft\"]";
    const int teeth = (corners - 4) / 4;
    const double step = 40.0 / (2 * teeth + 1);
    for (int i = 0; i < teeth; ++i) {
        const double near = 40 - (2 * i + 1) * step, far = near - step;
        for (const auto& [x, y] : {std::pair{near, 20.0}, {near, 20.5}, {far, 20.5}, {far, 20.0}})
            plan += fmt::format(", [\"{:.3f} ft\", \"{} ft\"]", x, y);
    }
    change("plan = [[", "\n", plan + ", [\"0 ft\", \"20 ft\"]]");
    change("[[room.obstacle]]", "# ----", "");
    change("[[room.door]]\nwall = 4", "\noffset", fmt::format("[[room.door]]\nwall = {}", corners));
    return text;
}

TEST_F(Time, OfADesignIsBoundedWhateverTheWalls) {
#if defined(__SANITIZE_ADDRESS__) || defined(__SANITIZE_THREAD__)
    GTEST_SKIP() << "the sanitizers take ten times as long";
#endif
    write("teeth.toml", of_many_corners(60));
    const auto ran = shell("(ulimit -t 25; '" + program + "' compare teeth.toml)", folder);
    EXPECT_THAT(ran.status, testing::AnyOf(0, 2)) << ran.err << "(a limit of processor time, not of the verdict)";
    EXPECT_NE(ran.out.find("are bettered in everything by none"), std::string::npos) << ran.out << ran.err;
}

}  // namespace
}  // namespace bw::test
