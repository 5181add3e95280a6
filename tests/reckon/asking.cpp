// SPDX-License-Identifier: MIT
// What a user is told.
#include <gmock/gmock.h>

#include "kit.h"

namespace bw::reckon {
namespace {

using testing::AllOf;
using testing::HasSubstr;

TEST(Asking, AnUnknownTopicNamesTheTopics) {
    EXPECT_THAT(refusal("watr", {}),
                AllOf(HasSubstr("unknown topic 'watr'"), HasSubstr("'water' perhaps"), HasSubstr("gas-pipe")));
    EXPECT_THAT(refusal("", {}), HasSubstr("one of"));
}

TEST(Asking, AnUnknownNameNamesTheNames) {
    EXPECT_THAT(refusal("water", {"temprature=60 degF"}),
                AllOf(HasSubstr("unknown name 'temprature'"), HasSubstr("'temperature' perhaps")));
    EXPECT_THAT(refusal("hourly-demand", {"building=hotel", "showr=3"}), HasSubstr("'shower' perhaps"));
}

TEST(Asking, AMissingNameSaysWhatItTakes) {
    EXPECT_THAT(refusal("water", {}), AllOf(HasSubstr("'temperature' is missing"), HasSubstr("degF")));
    EXPECT_THAT(refusal("combustion", {"excess-air=20"}),
                AllOf(HasSubstr("'gas' is missing"), HasSubstr("natural, propane")));
}

TEST(Asking, AWrongUnitNamesTheRightOnes) {
    EXPECT_THAT(refusal("water", {"temperature=60 psi"}),
                AllOf(HasSubstr("temperature: '60 psi' is not a temperature"), HasSubstr("degC")));
    EXPECT_THAT(refusal("water", {"temperature=60"}), HasSubstr("has no unit"));
    EXPECT_THAT(refusal("combustion-air", {"input=100 gpm"}), HasSubstr("kBtu/h"));
}

TEST(Asking, AWrongWordNamesTheChoices) {
    EXPECT_THAT(refusal("combustion", {"gas=butane", "excess-air=20"}), HasSubstr("natural, propane"));
    EXPECT_THAT(refusal("hourly-demand", {"building=hotl", "shower=3"}), HasSubstr("'hotel' perhaps"));
}

TEST(Asking, ValuesOutOfRangeAreRefused) {
    EXPECT_THAT(refusal("combustion-air", {"input=-5 kBtu/h"}), HasSubstr("out of range"));
    EXPECT_THAT(refusal("combustion", {"gas=natural", "excess-air=-5"}), HasSubstr("excess air"));
    EXPECT_THAT(refusal("hourly-demand", {"building=hotel", "shower=-3"}), HasSubstr("out of range"));
    EXPECT_THAT(refusal("hourly-demand", {"building=hotel", "shower=2.5"}), HasSubstr("whole number"));
    EXPECT_NE(refusal("combustion-air", {"input=1e300 MBH", "air-changes=1e-300"}), "");
}

TEST(Asking, TheSameNameTwiceIsRefused) {
    EXPECT_THAT(refusal("water", {"temperature=60 degF", "temperature=70 degF"}), HasSubstr("given twice"));
}

TEST(Asking, ArgumentsAreNameAndValue) {
    EXPECT_FALSE(split_argument("temperature"));
    EXPECT_FALSE(split_argument("=60 degF"));
    EXPECT_EQ(split_argument("a=b=c")->second, "b=c");
}

TEST(Answering, EveryTopicExplainsItself) {
    for (const auto& topic : topics()) {
        const auto text = help(topic);
        EXPECT_THAT(text, HasSubstr(std::string(topic.name)));
        for (const auto& name : topic.names) EXPECT_THAT(text, HasSubstr(std::string(name.name)));
    }
    EXPECT_EQ(topics().size(), 16u);
}

TEST(Answering, ForPeopleShowsGivenResultWorkingAndSources) {
    const auto answer = ask("combustion", {"gas=natural", "excess-air=25"});
    ASSERT_TRUE(answer);
    const auto text = print(*answer, units::System::us);
    EXPECT_THAT(text, AllOf(HasSubstr("Given"), HasSubstr("Result"), HasSubstr("Working"), HasSubstr("Sources"),
                            HasSubstr("CH4 + 2 O2"), HasSubstr("degF"), HasSubstr("(taken, not given)")));
    EXPECT_THAT(print(*answer, units::System::si), HasSubstr("degC"));
}

TEST(Answering, JsonHasTheContractsShape) {
    const auto json = json_of("water", {"temperature=60 degF"});
    std::vector<std::string> keys;
    for (const auto& [key, value] : json.items()) keys.push_back(key);
    EXPECT_THAT(keys, testing::ElementsAre("topic", "given", "result", "derivation", "source"));
    EXPECT_TRUE(json["source"].is_array());
    EXPECT_EQ(json["given"]["temperature"]["unit"], "degF");
    EXPECT_EQ(json["given"]["temperature"]["value"], 60);
}

}  // namespace
}  // namespace bw::reckon
