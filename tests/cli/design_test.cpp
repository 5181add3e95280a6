// SPDX-License-Identifier: MIT
#include <nlohmann/json.hpp>

#include "ran.h"

namespace bw::test {
namespace {

using Json = nlohmann::json;
using Design = Bench;

/// Every {"value", "unit"} in the document: how many there are, and whether each is a number with a unit.
int quantities(const Json& json) {
    int found = 0;
    if (json.is_object() && json.contains("value") &&
        !json["value"].is_object()) {  // a check holds a quantity as its value
        EXPECT_TRUE(json["value"].is_number()) << json;
        EXPECT_TRUE(json.contains("unit") && json["unit"].is_string() && !json["unit"].get<std::string>().empty())
            << json;
        ++found;
    }
    if (json.is_structured())
        for (const auto& child : json) found += quantities(child);
    return found;
}

class Examples : public Bench, public ::testing::WithParamInterface<const char*> {};
INSTANTIATE_TEST_SUITE_P(All, Examples, ::testing::Values("hostel", "wash-house", "sports-hall"));

TEST_P(Examples, WritesAWholePackage) {
    SCOPED_TRACE(GetParam());
    const auto ran = shell("'" + program + "' design " + example(GetParam()) + " -o job", folder);
    EXPECT_EQ(ran.status, 0) << ran.out << ran.err;
    EXPECT_EQ(ran.err, "");
    for (const auto* name : {"report.pdf", "sheets.pdf", "sheets.dxf", "sheet-plan.svg", "sheet-isometric.svg",
                             "sheet-gas.svg", "sheet-water.svg", "sheet-vent.svg", "sheet-wiring.svg", "parts.csv",
                             "plant.glb", "plant.ifc", "plant.step", "result.json"})
        EXPECT_GT(fs::file_size(folder / "job" / name), 1000u) << name;
    const auto result = Json::parse(text_of(folder / "job/result.json"));
    EXPECT_GT(quantities(result), 1000);
    EXPECT_EQ(result["tally"]["fail"], 0);
    if (result["tally"]["refer"] > 0) {
        EXPECT_EQ(ran.out.find("proved"), std::string::npos) << ran.out;
    }
}

TEST_P(Examples, GivesTheSameBytesTwice) {
    for (const auto* to : {"one", "two"})
        ASSERT_EQ(bankwright("design " + example(GetParam()) + " -o " + to).status, 0);
    for (const auto& entry : fs::directory_iterator(folder / "one"))
        EXPECT_EQ(text_of(entry.path()), text_of(folder / "two" / entry.path().filename())) << entry.path();
}

TEST_P(Examples, ReportReadsAsText) {
    ASSERT_EQ(bankwright("design " + example(GetParam()) + " -o job").status, 0);
    const auto text = shell("pdftotext -raw job/report.pdf -", folder);
    ASSERT_EQ(text.status, 0) << text.err;
    const auto result = Json::parse(text_of(folder / "job/result.json"));
    EXPECT_NE(text.out.find(result["survey"]["job"].get<std::string>()), std::string::npos);
    EXPECT_NE(text.out.find("page 1 of"), std::string::npos);
    EXPECT_NE(text.out.find("Cautions"), std::string::npos);
    for (const auto& entry : fs::directory_iterator(folder / "job"))
        if (const auto name = entry.path().filename().string();
            name != "report.pdf" && !name.starts_with('.') && !name.ends_with(".svg")) {
            EXPECT_NE(text.out.find(name), std::string::npos) << "the report does not tell of " << name;
        }
    auto solid = text.out;  // a long id may be broken over two lines of a table
    std::erase_if(solid, [](unsigned char c) { return std::isspace(c); });
    for (const auto& check : result["checks"])
        EXPECT_NE(solid.find(check["id"].get<std::string>()), std::string::npos) << check["id"];
    const auto fonts = shell("pdffonts job/report.pdf && pdffonts job/sheets.pdf", folder);
    EXPECT_NE(fonts.out.find("Liberation"), std::string::npos);
    std::istringstream lines(fonts.out);
    for (std::string line; std::getline(lines, line);)
        if (line.find("CID") != std::string::npos || line.find("Type") != std::string::npos) {
            EXPECT_NE(line.find(" yes "), std::string::npos) << "not embedded: " << line;
        }
}

TEST_P(Examples, JsonIsOneDocumentAndNothingElse) {
    const auto ran = bankwright("design " + example(GetParam()) + " --json");
    EXPECT_EQ(ran.status, 0);
    const auto result = Json::parse(ran.out);
    EXPECT_EQ(result["format"], "bankwright-result-1");
    EXPECT_FALSE(fs::exists(folder / (std::string(GetParam()) + "-package")));
    const auto si = Json::parse(bankwright("--units si design " + example(GetParam()) + " --json").out);
    EXPECT_EQ(si["demand"]["peak"]["unit"], "L/s");
    EXPECT_EQ(result["demand"]["peak"]["unit"], "gpm");
    EXPECT_NEAR(si["demand"]["peak"]["value"].get<double>() / 0.0630901964,
                result["demand"]["peak"]["value"].get<double>(), 1e-6);
}

TEST_P(Examples, CompareListsCandidatesBestFirst) {
    const auto ran = bankwright("compare " + example(GetParam()) + " --json");
    const auto candidates = Json::parse(ran.out)["candidates"];
    ASSERT_GE(candidates.size(), 2u);
    int fails = 0, chosen = 0;
    for (const auto& c : candidates) {
        chosen += c["chosen"].get<bool>();
        if (c.contains("refused")) continue;
        EXPECT_GE(c["checks"]["fail"].get<int>(), fails);
        fails = c["checks"]["fail"];
        EXPECT_GT(c["parts-cost"]["value"].get<double>(), 1000);
    }
    EXPECT_EQ(chosen, 1);
    EXPECT_NE(bankwright("compare " + example(GetParam())).out.find(candidates[0]["layout"].get<std::string>()),
              std::string::npos);
}

TEST_F(Design, ALaterPackageTakesTheEarlierOnesPlace) {
    const auto where = " -o job";
    ASSERT_EQ(bankwright("design " + example("hostel") + where).status, 0);
    const auto first = text_of(folder / "job/plant.ifc");
    const auto again = bankwright("design " + example("wash-house") + where);
    EXPECT_EQ(again.status, 0) << again.err;
    EXPECT_NE(text_of(folder / "job/plant.ifc"), first);
    std::ofstream(folder / "job/mine.txt") << "kept";
    EXPECT_EQ(bankwright("design " + example("hostel") + where).status, 1) << "holds something of the user's";
    EXPECT_EQ(text_of(folder / "job/mine.txt"), "kept");
}

TEST_F(Design, TheCadKernelIsLoadedWhenStepIsWrittenAndNotBefore) {
    // a program without its module starts and says what it lacks when it is to write STEP
    fs::copy_file(program, folder / "bankwright");
    EXPECT_EQ(shell("./bankwright --version", folder).status, 0);
    const auto without = shell("./bankwright design " + example("sports-hall") + " -o job", folder);
    EXPECT_EQ(without.status, 1);
    EXPECT_NE(without.err.find("plant.step needs the module with the CAD kernel"), std::string::npos) << without.err;
    EXPECT_FALSE(fs::exists(folder / "job"));
    write("libbankwright_kernel.so", "no module");
    const auto broken = shell("./bankwright design " + example("sports-hall") + " -o job", folder);
    EXPECT_EQ(broken.status, 1);
    EXPECT_NE(broken.err.find("does not load: libbankwright_kernel.so: "), std::string::npos) << broken.err;
    EXPECT_EQ(broken.err.find(folder.string()), std::string::npos) << "it goes to the page, too: " << broken.err;
    // as installed: the module in a library folder beside the program's
    const auto installed = shell("cmake --install '" BANKWRIGHT_BINARY "' --prefix there", folder);
    ASSERT_EQ(installed.status, 0) << installed.err;
    const auto with = shell("there/bin/bankwright design " + example("sports-hall") + " -o job", folder);
    EXPECT_EQ(with.status, 0) << with.err;
    EXPECT_TRUE(fs::exists(folder / "job/plant.step"));
}

TEST_F(Design, PartsListEqualsThePieces) {
    ASSERT_EQ(bankwright("design " + example("hostel") + " -o job").status, 0);
    const auto result = Json::parse(text_of(folder / "job/result.json"));
    int pieces = 0, parts = 0;
    for (const auto& piece : result["pieces"]) pieces += piece["part"] != "connection";
    for (const auto& line : result["parts"]) parts += line["count"].get<int>();
    EXPECT_EQ(parts, pieces);
    const auto csv = text_of(folder / "job/parts.csv");
    EXPECT_EQ(static_cast<std::size_t>(std::count(csv.begin(), csv.end(), '\n')), result["parts"].size() + 1);
}

TEST_F(Design, ARoomTooSmallEndsInANamedFailureAndStatusTwo) {
    auto text = text_of(source / "examples/hostel.toml");
    text +=
        "\n[[room.obstacle]]\nname = \"store\"\nfrom = [\"1 ft\", \"1 ft\", \"0 ft\"]\nto = [\"17 ft\", \"13 ft\", \"6 "
        "ft\"]\n";
    write("full.toml", text);
    const auto ran = bankwright("design full.toml -o job");
    EXPECT_EQ(ran.status, 2) << ran.out << ran.err;
    const auto result = Json::parse(text_of(folder / "job/result.json"));
    EXPECT_TRUE(result["layout"].is_null());
    ASSERT_EQ(result["checks"].size(), 1u);
    EXPECT_EQ(result["checks"][0]["id"], "layout.fit");
    EXPECT_EQ(result["checks"][0]["status"], "fail");
    for (const auto* name : {"sheets.pdf", "plant.glb", "plant.ifc", "plant.step"})
        EXPECT_FALSE(fs::exists(folder / "job" / name)) << name;
    EXPECT_GT(fs::file_size(folder / "job/report.pdf"), 1000u);
}

}  // namespace
}  // namespace bw::test
