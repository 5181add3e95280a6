// SPDX-License-Identifier: MIT
// The report's part on demand, read back from the PDF as a reader's program does.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <array>
#include <cstdio>
#include <filesystem>
#include <fstream>

#include "catalogue/catalogue.h"
#include "paper/paper.h"
#include "survey/survey.h"

namespace bw::paper {
namespace {

using testing::HasSubstr;
using testing::Not;

std::string words_of(const std::string& pdf, const std::string& name) {
    const auto file = std::filesystem::temp_directory_path() / ("bankwright-" + name + ".pdf");
    std::ofstream(file, std::ios::binary) << pdf;
    std::string out;
    if (auto* pipe = popen(("pdftotext -layout '" + file.string() + "' - 2>/dev/null").c_str(), "r")) {
        std::array<char, 4096> buffer{};
        for (std::size_t n = 0; (n = std::fread(buffer.data(), 1, buffer.size(), pipe)) > 0;)
            out.append(buffer.data(), n);
        EXPECT_EQ(pclose(pipe), 0) << "pdftotext (poppler-utils)";
    }
    std::filesystem::remove(file);
    return out;
}

/// Demand and heaters alone: what is placed and piped has its own tests.
design::Result sized(const std::string& example) {
    design::Result out;
    const auto survey = survey::read(std::string(BANKWRIGHT_SOURCE) + "/examples/" + example);
    const auto catalogue = catalogue::load();
    if (!survey || !catalogue) return out;
    out.survey = *survey;
    out.demand = demand::peak_demand(*survey).value();
    out.capacity = demand::capacity(*survey, out.demand, *catalogue).value();
    return out;
}

std::string report_of(const design::Result& result, const std::string& name, units::System system) {
    const auto bytes = report(result, *catalogue::load(), system);
    EXPECT_TRUE(bytes);
    return words_of(bytes.value_or(""), name);
}

TEST(DemandReport, ShowsEveryMethodTheDayAndTheRisk) {
    auto result = sized("hostel.toml");
    result.checks = result.capacity.advice;  // the only checks of a plant not yet laid
    const auto text = report_of(result, "hostel", units::System::us);
    for (const auto& answer : result.demand.answers) EXPECT_THAT(text, HasSubstr(answer.title.substr(0, 20)));
    for (const auto* words :
         {"How the day runs", "Fixtures in the busiest hour", "What each heater more or less would mean",
          "enough by chance", "1 in a million", "Recovery against storage", "installed", "Peak Water Demand Study"})
        EXPECT_THAT(text, HasSubstr(words));
    EXPECT_THAT(text, HasSubstr("CAUTION"));
    EXPECT_THAT(text, HasSubstr("REFER"));
    EXPECT_THAT(text, Not(HasSubstr("nan")));
    EXPECT_THAT(text, Not(HasSubstr("-0.0 ")));
}

TEST(DemandReport, TellsWhatTheCurveLeavesOut) {
    EXPECT_THAT(report_of(sized("sports-hall.toml"), "hall", units::System::us),
                HasSubstr("No chance is known for service-sink"));
}

TEST(DemandReport, ATankWishedForIsMarked) {
    auto result = sized("hostel.toml");
    result.survey.preferences.tank = 400.0 * units::gallon;
    EXPECT_THAT(report_of(result, "tank", units::System::us), HasSubstr("with the tank wished for"));
}

TEST(DemandReport, SpeaksSiWhereItIsAsked) {
    const auto text = report_of(sized("wash-house.toml"), "wash", units::System::si);
    EXPECT_THAT(text, HasSubstr("L/s"));
    const auto risk = text.substr(text.find("What each heater more or less would mean"));
    EXPECT_THAT(risk.substr(0, risk.find("Recovery against storage")), HasSubstr("60.0 degC"));
}

TEST(DemandReport, ManyHeatersAndNoFixturesAreDrawnToo) {
    auto result = sized("wash-house.toml");
    result.survey.use.fixtures.clear();
    result.demand = demand::peak_demand(result.survey).value();
    result.capacity = demand::capacity(result.survey, result.demand, *catalogue::load()).value();
    EXPECT_THAT(report_of(result, "blocks", units::System::us), HasSubstr("Block loads"));
}

}  // namespace
}  // namespace bw::paper
