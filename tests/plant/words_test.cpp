// SPDX-License-Identifier: MIT
#include "plant/words.h"

#include <gtest/gtest.h>

namespace bw::plant {
namespace {

TEST(InWords, PiecesAreNamedByWhatTheyBelongTo) {
    EXPECT_EQ(in_words("heater-3"), "heater 3");
    EXPECT_EQ(in_words("heater-3.gas.valve"), "heater 3's gas valve");
    EXPECT_EQ(in_words("heater-12.cold.flexible"), "heater 12's cold flexible connector");
    EXPECT_EQ(in_words("main.gas.regulator"), "the regulator of the gas main");
    EXPECT_EQ(in_words("main.cold.isolation"), "the isolation valve of the cold main");
    EXPECT_EQ(in_words("main.recirculation.isolation-2"), "isolation valve 2 of the recirculation main");
    EXPECT_EQ(in_words("main.cold.expansion.vessel"), "the expansion vessel of the cold main");
    EXPECT_EQ(in_words("main.hot.hanger-4.rod-1"), "rod 1 of hanger 4 of the hot main");
    EXPECT_EQ(in_words("bank-1.hot.header.tee-2"), "tee 2 of bank 1's hot header");
    EXPECT_EQ(in_words("bank-2.exhaust.hanger-7"), "hanger 7 of bank 2's exhaust line");
    EXPECT_EQ(in_words("vent-1.terminal"), "the terminal of vent 1");
    EXPECT_EQ(in_words("vent-1.drain.pipe-3"), "drain pipe 3 of vent 1");
    EXPECT_EQ(in_words("circuit-2.breaker"), "the breaker of circuit 2");
    EXPECT_EQ(in_words("emergency-stop.button"), "the button of the emergency stop");
    EXPECT_EQ(in_words("room.co-alarm"), "the carbon monoxide alarm");
    EXPECT_EQ(in_words("site.panel"), "the building's panel");
}

TEST(InWords, SoAreLines) {
    EXPECT_EQ(in_words("main"), "the main");
    EXPECT_EQ(in_words("main.hot"), "the hot main");
    EXPECT_EQ(in_words("bank-1"), "bank 1");
    EXPECT_EQ(in_words("bank-1-branch"), "bank 1's branches");
    EXPECT_EQ(in_words("bank-1.cold"), "bank 1's cold line");
    EXPECT_EQ(in_words("bank-1.cold-branch"), "bank 1's cold branches");
    EXPECT_EQ(in_words("vent-2"), "vent 2");
}

TEST(InWords, WhateverIsGivenIsAnswered) {
    for (const auto* odd : {"", ".", "-", "bank", "bank.", "heater-", "main..", "-1", "site", "room"})
        EXPECT_NO_THROW((void)in_words(odd)) << odd;
}

}  // namespace
}  // namespace bw::plant
