// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <regex>

#include "survey/fields.h"
#include "survey/survey.h"
#include "text/toml.h"
#include "units/parse.h"

namespace bw::survey {
namespace {

TEST(Schema, FileIsWhatTheProgramGives) {
    const auto file = text::read_file(fmt::format("{}/docs/schema/survey.schema.json", BANKWRIGHT_SOURCE));
    ASSERT_TRUE(file) << describe(file.error());
    EXPECT_EQ(*file, schema()) << "write what survey::schema() gives to docs/schema/survey.schema.json";
}

TEST(Schema, PatternsTakeTheDefaultsAndRefuseBareNumbers) {
    const auto json = nlohmann::json::parse(schema());
    const auto pressure = json["properties"]["gas"]["properties"]["delivery-pressure"]["pattern"].get<std::string>();
    EXPECT_TRUE(std::regex_match("7 inH2O", std::regex(pressure)));
    EXPECT_TRUE(std::regex_match("0.25 psi", std::regex(pressure)));
    EXPECT_FALSE(std::regex_match("7", std::regex(pressure)));
    EXPECT_FALSE(std::regex_match("7 ft", std::regex(pressure)));
    const auto ceiling = json["properties"]["room"]["properties"]["ceiling"]["pattern"].get<std::string>();
    for (const auto* good : {"9 ft", "9 ft 6-1/2 in", "9'6\"", "2.9 m", "114 in"})
        EXPECT_TRUE(std::regex_match(good, std::regex(ceiling))) << good;
    for (const auto* bad : {"9", "9 gpm", "nine ft", ""})
        EXPECT_FALSE(std::regex_match(bad, std::regex(ceiling))) << bad;
}

TEST(Fields, EveryDefaultAndLimitIsReadableAndInRange) {
    for (const auto& field : fields()) {
        const auto limits = range(field);
        EXPECT_LE(limits.least, limits.greatest) << field.path;
        EXPECT_FALSE(field.says.empty()) << field.path;
        if (field.fallback.empty()) continue;
        EXPECT_FALSE(field.why.empty()) << field.path;
        if (field.form == Form::flag) {
            EXPECT_TRUE(field.fallback == "true" || field.fallback == "false") << field.path;
        } else if (field.form == Form::word) {
            EXPECT_NE(std::find(field.words.begin(), field.words.end(), field.fallback), field.words.end())
                << field.path;
        } else {
            const auto kind = field.form == Form::quantity ? field.kind : units::Kind::number;
            const auto value = units::parse(field.fallback, kind);
            ASSERT_TRUE(value) << field.path;
            EXPECT_GE(value->si, limits.least) << field.path;
            EXPECT_LE(value->si, limits.greatest) << field.path;
        }
    }
}

}  // namespace
}  // namespace bw::survey
