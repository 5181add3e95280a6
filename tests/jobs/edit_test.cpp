// SPDX-License-Identifier: MIT
// Edits change what they name and nothing else: values come back byte for byte, comments stay.
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <random>
#include <sstream>

#include "jobs/edit.h"
#include "survey/survey.h"
#include "text/toml.h"
#include "text/utf8.h"

namespace {

using namespace bw;        // NOLINT
using namespace bw::jobs;  // NOLINT

std::vector<std::pair<std::string, std::string>> surveys() {
    std::vector<std::pair<std::string, std::string>> out{{"starter", survey::starter()}};
    for (const auto* folder : {"/examples", "/bench/data"})
        for (const auto& entry : std::filesystem::directory_iterator(std::string(BANKWRIGHT_SOURCE) + folder))
            if (entry.path().extension() == ".toml")
                out.emplace_back(entry.path().filename().string(), *text::read_file(entry.path().string()));
    std::sort(out.begin(), out.end());
    return out;
}

void gather(const Json& value, Path path, std::vector<Path>& leaves, std::vector<Path>& tables) {
    if (!path.empty()) (value.is_structured() ? tables : leaves).push_back(path);
    std::size_t at = 0;
    if (value.is_object())
        for (const auto& [key, inner] : value.items()) {
            auto deeper = path;
            deeper.emplace_back(key);
            gather(inner, deeper, leaves, tables);
        }
    if (value.is_array())
        for (const auto& inner : value) {
            auto deeper = path;
            deeper.emplace_back(at++);
            gather(inner, deeper, leaves, tables);
        }
}

const Json& at(const Json& tree, const Path& path) {
    const Json* here = &tree;
    for (const auto& step : path)
        here = std::holds_alternative<std::string>(step) ? &here->at(std::get<std::string>(step))
                                                         : &here->at(std::get<std::size_t>(step));
    return *here;
}

Edit set(Path path, Json value) { return {std::move(path), Edit::What::set, std::move(value)}; }
Edit gone(Path path) { return {std::move(path), Edit::What::remove, {}}; }
Edit append(Path path, Json value) { return {std::move(path), Edit::What::append, std::move(value)}; }

std::string made(const std::string& text, const Edit& edit) {
    const auto out = apply(text, {edit});
    EXPECT_TRUE(out.has_value()) << written(edit.path) << ": " << (out ? "" : units::describe(out.error()));
    return out.value_or(text);
}

/// Lines that are nothing but a remark.
std::vector<std::string> remarks(const std::string& text) {
    std::vector<std::string> out;
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);)
        if (line.starts_with('#')) out.push_back(line);
    return out;
}

TEST(Edits, AValueChangedAndChangedBackLeavesEveryByte) {
    int changed = 0;
    for (const auto& [name, text] : surveys()) {
        const auto whole = tree(text, name);
        ASSERT_TRUE(whole) << name;
        std::vector<Path> leaves, tables;
        gather(*whole, {}, leaves, tables);
        for (const auto& path : leaves) {
            const auto& old = at(*whole, path);
            if (old.is_number_float()) continue;  // 0.60 comes back as 0.6
            const Json other = old.is_string()    ? Json(old.get<std::string>() + " \"x\"")
                               : old.is_boolean() ? Json(!old)
                                                  : Json(old.get<int>() + 1);
            const auto there = made(text, set(path, other));
            EXPECT_NE(there, text);
            EXPECT_EQ(made(there, set(path, old)), text) << name << ": " << written(path);
            ++changed;
        }
    }
    EXPECT_GT(changed, 400);
}

TEST(Edits, WhatIsTakenOutTakesNoRemarkWithIt) {
    for (const auto& [name, text] : surveys()) {
        std::vector<Path> leaves, tables;
        gather(*tree(text, name), {}, leaves, tables);
        for (const auto& path : leaves)
            EXPECT_EQ(remarks(made(text, gone(path))), remarks(text)) << name << ": " << written(path);
        for (const auto& path : tables)
            EXPECT_LT(made(text, gone(path)).size(), text.size()) << name << ": " << written(path);
    }
}

TEST(Edits, AKeyTakesThePlaceOfTheRemarkThatShowsIt) {
    const auto before = survey::starter();
    const auto text = made(before, set({"supply", "pressure"}, "65 psi"));
    EXPECT_NE(before.find("\n# pressure = \"60 psi\"            # static, gauge\n"), std::string::npos);
    EXPECT_NE(text.find("\npressure = \"65 psi\"              # static, gauge\n"), std::string::npos);
    EXPECT_EQ(text.size(), before.size());
}

TEST(Edits, ANewTableStandsAmongItsLike) {
    const auto text = made(
        "# head\n[job]\ntitle = \"x\"\n\n[connections.gas]\nat = [1]\n# size = \"2\"\n\n# by which "
        "rules\n[[codes]]\ndocument = \"IPC\"\n",
        set({"connections", "drain", "size"}, "2"));
    EXPECT_EQ(text,
              "# head\n[job]\ntitle = \"x\"\n\n[connections.gas]\nat = [1]\n# size = "
              "\"2\"\n\n[connections.drain]\nsize = \"2\"\n\n"
              "# by which rules\n[[codes]]\ndocument = \"IPC\"\n");
}

TEST(Edits, ListsOfTablesGrowAndShrink) {
    auto text = made("[room]\nceiling = \"9 ft\"\n",
                     append({"room", "obstacle"}, {{"name", "column"}, {"from", {"1 ft", "2 ft", "0 ft"}}}));
    EXPECT_EQ(
        text,
        "[room]\nceiling = \"9 ft\"\n\n[[room.obstacle]]\nname = \"column\"\nfrom = [\"1 ft\", \"2 ft\", \"0 ft\"]\n");
    text = made(text, append({"room", "obstacle"}, {{"name", "duct"}}));
    text = made(text, set({"room", "obstacle", 0u, "name"}, "post"));
    text = made(text, gone({"room", "obstacle", 0u}));
    EXPECT_EQ(text, "[room]\nceiling = \"9 ft\"\n\n[[room.obstacle]]\nname = \"duct\"\n");
    text = made(text, set({"room", "obstacle"}, Json::array({{{"name", "a"}}, {{"name", "b"}}})));
    EXPECT_EQ(text,
              "[room]\nceiling = \"9 ft\"\n\n[[room.obstacle]]\nname = \"a\"\n\n[[room.obstacle]]\nname = \"b\"\n");
}

TEST(Edits, WhatStandsInBracesAndBracketsIsEditedThere) {
    auto text = made("[gas]\nother = []  # nothing\n", append({"gas", "other"}, {{"name", "range"}}));
    EXPECT_EQ(text, "[gas]\nother = [{ name = \"range\" }]  # nothing\n");
    text = made(text, set({"gas", "other", 0u, "input"}, "9 kW"));
    EXPECT_EQ(text, "[gas]\nother = [{ name = \"range\", input = \"9 kW\" }]  # nothing\n");
    text = made(text, gone({"gas", "other", 0u, "name"}));
    EXPECT_EQ(text, "[gas]\nother = [{ input = \"9 kW\" }]  # nothing\n");
    text = made("plan = [ [1, 2], # a corner\n  [3, 4],\n  [5, 6] ]\n", gone({"plan", 1u}));
    EXPECT_EQ(text, "plan = [ [1, 2], # a corner\n  \n  [5, 6] ]\n");
    text = made("[building]\nbusy.shower = \"4 %\"\n", set({"building", "busy", "basin-public"}, "3 %"));
    EXPECT_EQ(text, "[building]\nbusy.shower = \"4 %\"\nbusy.basin-public = \"3 %\"\n");
}

TEST(Edits, NoTextBreaksOutOfItsQuotes) {
    for (const std::string nasty : {"a\" # b", "x\"\n[safety]\nco-alarm-required = false", "\\", "\"\"\"", "''' \t\r\n",
                                    "<script>alert(1)</script>", "\x7f\x01", "ü€😀"}) {
        const auto text = made(survey::starter(), set({"job", "title"}, nasty));
        EXPECT_EQ(tree(text, "")->at("job").at("title"), nasty);
        EXPECT_EQ(tree(text, "")->at("safety"), tree(survey::starter(), "")->at("safety"));
        const auto keyed = made(survey::starter(), set({"preferences", "prices", nasty}, "1 USD"));
        EXPECT_EQ(tree(keyed, "")->at("preferences").at("prices").at(nasty), "1 USD");
    }
}

TEST(Edits, APathThatLeadsNowhereIsRefused) {
    for (const auto& edit :
         {set({"job", 3u}, 1), set({"job", "title", "x"}, 1), gone({"job", "nothing"}), gone({"room", "wall", 99u}),
          append({"job", "title"}, 1), append({"job"}, 1), set({"room", "wall", 7u, "number"}, 1)}) {
        const auto out = apply(survey::starter(), {edit});
        ASSERT_FALSE(out) << written(edit.path);
        EXPECT_EQ(out.error().what.find("cannot be changed"), std::string::npos) << out.error().what;
    }
}

/// Whatever is done at random, in any order: the text reads as the tree does, which `apply` itself proves.
TEST(Edits, AnySequenceKeepsTextAndTreeTogether) {
    std::mt19937 chance(6);
    const auto one_of = [&](const auto& list) { return list[chance() % list.size()]; };
    int done = 0;
    for (const auto& [name, start] : surveys()) {
        for (int round = 0; round < 4; ++round) {
            auto text = start;
            for (int i = 0; i < 40; ++i) {
                std::vector<Path> leaves, tables;
                gather(*tree(text, name), {}, leaves, tables);
                const std::vector<Json> values{"5 ft",
                                               3,
                                               true,
                                               0.25,
                                               Json::array({"1 ft", 2}),
                                               {{"a", "b"}, {"c d", Json::array({1})}},
                                               Json::array({{{"n", 1}}, {{"m", 2}}}),
                                               Json::object(),
                                               Json::array()};
                Edit edit = gone(one_of(chance() % 3 == 0 ? tables : leaves));
                if (chance() % 3 != 0) {
                    edit.what = Edit::What::set, edit.value = one_of(values);
                    if (chance() % 2 == 0) {
                        edit.path = one_of(tables);
                        edit.path.emplace_back(one_of(std::vector<std::string>{"pressure", "new", "x y", "build"}));
                        if (chance() % 4 == 0) edit.path.emplace_back("deeper");
                    } else if (chance() % 3 == 0) {
                        edit.path = one_of(tables), edit.what = Edit::What::append;
                    }
                }
                const auto out = apply(text, {edit});
                if (!out) {
                    EXPECT_EQ(out.error().what.find("cannot be changed"), std::string::npos)
                        << name << ": " << to_json(edit).dump() << "\n"
                        << text;
                    continue;
                }
                text = *out;
                ++done;
            }
        }
    }
    EXPECT_GT(done, 300);
}

TEST(Edits, AnEditThatIsNoneIsRefused) {
    for (const auto* text : {"3", "[]", "[1]", R"([{"path":[]}])", R"([{"path":[1],"value":1}])", R"([{"path":["a"]}])",
                             R"([{"path":["a"],"value":null}])", R"([{"path":["a"],"value":[[[[[[[1]]]]]]]}])",
                             R"([{"path":["a"],"remove":false}])", R"([{"path":["a",-1],"value":1}])",
                             R"([{"path":["a",1.5],"value":1}])", R"([{"path":["a"],"value":1,"append":1}])",
                             R"([{"path":["a","a","a","a","a","a","a","a","a","a","a","a","a"],"value":1}])"})
        EXPECT_FALSE(read_edits(Json::parse(text))) << text;
    EXPECT_TRUE(read_edits(
        Json::parse(R"([{"path":["a",0],"value":1},{"path":["b"],"remove":true},{"path":["c"],"append":{}}])")));
}

TEST(Outline, AFaultsPlaceIsNamedByItsPath) {
    const std::string text =
        "[supply]\npressure = \"60 gpm\"\n\n[[room.wall]]\nnumber = 1\n[[room.wall]]\nplan = [[\"1 ft\",\n \"x\"]]\n";
    const auto at = [&](std::size_t byte) {
        const auto [line, column] = text::line_column(text, byte);
        return written(path_at(text, {"", line, column}));
    };
    EXPECT_EQ(at(text.find("60 gpm")), "supply.pressure");
    EXPECT_EQ(at(text.find("\"x\"")), "room.wall.1.plan.0.1");
    EXPECT_EQ(at(2), "supply");
    EXPECT_EQ(at(text.size() + 9), "");
    EXPECT_TRUE(path_at(text + "[", {"", 2, 1}).empty());
}

}  // namespace
