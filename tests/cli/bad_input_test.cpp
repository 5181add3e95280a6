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
    // what would be waited for, and what never ends
    ASSERT_EQ(shell("mkfifo pipe", folder).status, 0);
    for (const std::string path : {"pipe", "/dev/zero", "/dev/tty", "/proc/kmsg"})
        for (const auto& arguments :
             {"survey check " + path, "catalogue check " + path, "design " + path,
              "--data " + path + " design " + example("hostel"), "--data " + path + " catalogue list"}) {
            const auto ran = shell("timeout 5 '" + program + "' " + arguments, folder);
            EXPECT_EQ(ran.status, 1) << arguments;
            EXPECT_EQ(lines(ran.err), 1u) << ran.err;
            EXPECT_TRUE(ran.err.starts_with(path + ":")) << ran.err;
        }
    EXPECT_EQ(bankwright("survey check pipe").err, "pipe: is a pipe or a device, expected a regular file\n");
    write("huge.toml", std::string(50u << 20, '#'));
    const auto ran = bankwright("survey check huge.toml");
    EXPECT_EQ(ran.status, 1);
    EXPECT_EQ(lines(ran.err), 1u) << ran.err;
}

TEST_F(BadInput, UnknownCommandsAndOptions) {
    for (const auto* arguments : {"desgin x.toml", "design", "design a b c", "--units metric design x.toml",
                                  "serve --port nine", "simulate x.toml"}) {
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
        EXPECT_EQ(entry.path().string().find("unfinished"), std::string::npos) << entry.path();
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

std::string with(std::string text, const std::vector<std::pair<std::string, std::string>>& changes) {
    for (const auto& [from, to] : changes) {
        const auto at = text.find(from);
        EXPECT_NE(at, std::string::npos) << from;
        if (at != std::string::npos) text.replace(at, from.size(), to);
    }
    return text;
}

std::string hostel_without_obstacle() {
    auto text = text_of(source / "examples/hostel.toml");
    const auto from = text.find("[[room.obstacle]]"), to = text.find("# ----", from);
    return text.erase(from, to - from);
}

std::string hostel_with_obstacle(const std::string& name, const std::string& from, const std::string& to) {
    return hostel_with("[[room.obstacle]]", "[[room.obstacle]]\nname = \"" + name + "\"\nfrom = " + from +
                                                "\nto = " + to + "\n\n[[room.obstacle]]");
}

/// A sound survey of a room that cannot be: exit 2, what is lacking, by how much, and what would help.
TEST_F(BadInput, RoomsNothingFitsInSayWhatWouldHelp) {
    const auto empty = hostel_without_obstacle();
    struct Room {
        const char* name;
        std::string text;
        std::vector<const char*> says;
    };
    const Room all[] = {
        {"low",
         with(empty, {{"ceiling = \"10 ft\"\nair", "ceiling = \"7 ft 2 in\"\nair"},
                      {"\"12 ft\", \"9 ft\"]", "\"12 ft\", \"6 ft 10 in\"]"},
                      {"\"1 ft 6 in\", \"9 ft\"]", "\"1 ft 6 in\", \"6 ft 10 in\"]"}}),
         {"FAIL layout.fit", "no room above the heaters", "a higher ceiling"}},
        {"small",
         with(empty, {{"[\"20 ft\", \"0 ft\"], [\"20 ft\", \"14 ft\"], [\"0 ft\", \"14 ft\"]",
                       "[\"8 ft\", \"0 ft\"], [\"8 ft\", \"7 ft\"], [\"0 ft\", \"7 ft\"]"},
                      {"[\"20 ft\", \"8 ft\", \"1 ft", "[\"8 ft\", \"6 ft\", \"1 ft"},
                      {"[\"20 ft\", \"7 ft\", \"2", "[\"8 ft\", \"5 ft\", \"2"},
                      {"[\"20 ft\", \"6 ft\", \"7", "[\"8 ft\", \"4 ft\", \"7"},
                      {"[\"20 ft\", \"5 ft\", \"2", "[\"8 ft\", \"3 ft\", \"2"},
                      {"[\"18 ft\", \"7 ft\", \"0", "[\"6 ft\", \"5 ft\", \"0"},
                      {"[\"20 ft\", \"12 ft\", \"9", "[\"8 ft\", \"6 ft 6 in\", \"9"},
                      {"[\"20 ft\", \"1 ft 6", "[\"8 ft\", \"0 ft 6"},
                      {"offset = \"6 ft\"", "offset = \"3 ft\""},
                      {"[\"0 ft\", \"3 ft\", \"5", "[\"0 ft\", \"1 ft\", \"5"}}),
         {"Nothing fits", "short", "Remedy: clear"}},
        {"buried",
         hostel_with_obstacle("old boiler", "[\"18 ft 6 in\", \"7 ft 6 in\", \"0 ft\"]",
                              "[\"20 ft\", \"8 ft 6 in\", \"5 ft\"]"),
         {"before the gas connection old boiler leaves", "Remedy: move the gas connection", "or take old boiler away"}},
        {"drain",
         hostel_with_obstacle("plinth", "[\"17 ft\", \"6 ft\", \"0 ft\"]", "[\"19 ft\", \"8 ft\", \"1 ft\"]"),
         {"the drain connection stands", "deep inside plinth", "move the drain connection"}},
        {"walled-in",
         with(
             hostel_with_obstacle("chase", "[\"18 ft\", \"4 ft\", \"0 ft\"]", "[\"18 ft 6 in\", \"10 ft\", \"10 ft\"]"),
             {{"[[room.obstacle]]",
               "[[room.obstacle]]\nname = \"its side\"\nfrom = [\"18 ft 6 in\", "
               "\"9 ft 6 in\", \"0 ft\"]\nto = [\"20 ft\", \"10 ft\", \"10 ft\"]\n\n"
               "[[room.obstacle]]\nname = \"other side\"\nfrom = [\"18 ft 6 in\", "
               "\"4 ft\", \"0 ft\"]\nto = [\"20 ft\", \"4 ft 6 in\", \"10 ft\"]\n\n"
               "[[room.obstacle]]"}}),
         {"the gas connection is walled in", "Remedy: move the gas connection", "or take its side away"}},
    };
    for (const auto& room : all) {
        SCOPED_TRACE(room.name);
        const auto file = std::string(room.name) + ".toml";
        write(file, room.text);
        const auto ran = bankwright("design " + file + " -o out-" + room.name);
        EXPECT_EQ(ran.status, 2) << ran.out << ran.err;
        for (const auto* says : room.says) EXPECT_NE(ran.out.find(says), std::string::npos) << says << "\n" << ran.out;
    }
}

TEST_F(BadInput, ACeilingBelowTheVentsOutletIsRefusedWithItsHeight) {
    write("below.toml",
          with(hostel_without_obstacle(), {{"ceiling = \"10 ft\"\nair", "ceiling = \"8 ft 6 in\"\nair"}}));
    const auto ran = bankwright("design below.toml -o out");
    EXPECT_EQ(ran.status, 1);
    EXPECT_EQ(lines(ran.err), 1u) << ran.err;
    EXPECT_NE(ran.err.find("connections.exhaust"), std::string::npos) << ran.err;
    EXPECT_NE(ran.err.find("6 in above the ceiling of 8 ft 6 in"), std::string::npos) << ran.err;
}

}  // namespace
}  // namespace bw::test
