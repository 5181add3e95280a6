// SPDX-License-Identifier: MIT
// Bad input: exit 1, one clear line with its place and what was expected, and nothing left behind.
#include "ran.h"

namespace bw::test {
namespace {

using BadInput = Bench;

std::size_t lines(const std::string& text) {
    return static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n'));
}

std::string hostel_with(const std::string& from, const std::string& to) {
    auto text = text_of(source / "examples/hostel.toml");
    const auto at = text.find(from);
    EXPECT_NE(at, std::string::npos) << from;
    return text.replace(at, from.size(), to);
}

struct Bad {
    const char* name;
    std::string text;
    const char* says;  ///< a word the message must hold
};

TEST_F(BadInput, EachFaultHasItsPlaceAndItsReason) {
    const Bad all[] = {
        {"unknown-key", hostel_with("delivery-pressure", "delivry-pressure"), "delivery-pressure"},
        {"wrong-unit", hostel_with("\"7 inH2O\"   # where", "\"7 ft\"   # where"), "inH2O"},
        {"negative", hostel_with("shower-public = 13", "shower-public = -3"), "shower-public"},
        {"fraction", hostel_with("shower-public = 13", "shower-public = 2.5"), "whole"},
        {"unknown-fixture", hostel_with("shower-public = 13", "shower-pubic = 13"), "shower-public"},
        {"absurd", hostel_with("ceiling = \"10 ft\"", "ceiling = \"10000 ft\""), "ft"},
        {"self-crossing",
         hostel_with("[\"20 ft\", \"0 ft\"], [\"20 ft\", \"14 ft\"]", "[\"20 ft\", \"14 ft\"], [\"20 ft\", \"0 ft\"]"),
         "cross"},
        {"wide-door", hostel_with("width = \"34 in\"", "width = \"34 ft\""), "door"},
        {"unknown-model", hostel_with("[preferences]", "[preferences]\nheater = \"demo-1999\""), "demo-199"},
        {"not-toml", "[job\ntitle = 3", ":1:"},
        {"empty", "", ""},
        {"deep", "a = " + std::string(5000, '[') + std::string(5000, ']'), ""},
        {"not-utf8", std::string("[job]\ntitle = \"caf\xe9\"\n"), "UTF-8"},
    };
    for (const auto& bad : all) {
        SCOPED_TRACE(bad.name);
        const auto file = std::string(bad.name) + ".toml";
        write(file, bad.text);
        const auto ran = bankwright("design " + file + " -o out");
        EXPECT_EQ(ran.status, 1) << ran.out << ran.err;
        EXPECT_EQ(lines(ran.err), 1u) << ran.err;
        EXPECT_TRUE(ran.err.starts_with(file + ":")) << ran.err;
        EXPECT_NE(ran.err.find(bad.says), std::string::npos) << ran.err;
        EXPECT_EQ(ran.out, "");
        EXPECT_FALSE(fs::exists(folder / "out"));
    }
}

TEST_F(BadInput, FilesThatCannotBeRead) {
    for (const auto* path : {"missing.toml", "."}) {
        const auto ran = bankwright(std::string("design ") + path);
        EXPECT_EQ(ran.status, 1);
        EXPECT_EQ(lines(ran.err), 1u) << ran.err;
        EXPECT_NE(ran.err.find(path), std::string::npos) << ran.err;
    }
    write("huge.toml", std::string(50u << 20, '#'));
    const auto ran = bankwright("survey check huge.toml");
    EXPECT_EQ(ran.status, 1);
    EXPECT_EQ(lines(ran.err), 1u) << ran.err;
}

TEST_F(BadInput, UnknownCommandsAndOptions) {
    for (const auto* arguments :
         {"desgin x.toml", "design", "design a b c", "--units metric design x.toml", "serve", "simulate x.toml"}) {
        const auto ran = bankwright(arguments);
        EXPECT_EQ(ran.status, 1) << arguments;
        EXPECT_EQ(lines(ran.err), 1u) << ran.err;
    }
}

TEST_F(BadInput, TheOutputFolderIsWholeOrUntouched) {
    ASSERT_EQ(bankwright("design " + example("hostel") + " -o job").status, 0);
    const auto before = text_of(folder / "job/report.pdf");
    write("bad.toml", "[job]\n");
    EXPECT_EQ(bankwright("design bad.toml -o job").status, 1);
    EXPECT_EQ(text_of(folder / "job/report.pdf"), before);

    fs::create_directory(folder / "mine");
    write("mine/letter.txt", "not ours");
    EXPECT_EQ(bankwright("design " + example("hostel") + " -o mine").status, 1);
    EXPECT_EQ(std::distance(fs::directory_iterator(folder / "mine"), fs::directory_iterator()), 1);

    write("file", "a file");
    EXPECT_EQ(bankwright("design " + example("hostel") + " -o file").status, 1);
    EXPECT_EQ(text_of(folder / "file"), "a file");
    EXPECT_EQ(bankwright("design " + example("hostel") + " -o file/below").status, 1);
    EXPECT_EQ(bankwright("design " + example("hostel") + " -o /proc/nowhere").status, 1);
    for (const auto& entry : fs::directory_iterator(folder))
        EXPECT_EQ(entry.path().string().find(".part-"), std::string::npos) << entry.path();
}

TEST_F(BadInput, ANewSurveyNeverOverwrites) {
    EXPECT_EQ(bankwright("survey new job.toml").status, 0);
    EXPECT_EQ(bankwright("survey check job.toml").status, 0);
    const auto design = bankwright("design job.toml -o job");
    EXPECT_EQ(design.status, 0) << design.out << design.err;
    const auto text = text_of(folder / "job.toml");
    EXPECT_EQ(bankwright("survey new job.toml").status, 1);
    EXPECT_EQ(text_of(folder / "job.toml"), text);
}

}  // namespace
}  // namespace bw::test
