// SPDX-License-Identifier: MIT
// Texts and edits that no survey has: refused or carried out, and soon.
#include <gtest/gtest.h>

#include <ctime>
#include <functional>

#include "jobs/edit.h"
#include "survey/survey.h"

namespace {

using namespace bw;        // NOLINT
using namespace bw::jobs;  // NOLINT

Edit set(Path path, Json value) { return {std::move(path), Edit::What::set, std::move(value)}; }

std::string many(const std::string& part, std::size_t times) {
    std::string out;
    for (std::size_t i = 0; i < times; ++i) out += part;
    return out;
}

/// Of this program's own work, whatever else the computer does.
double seconds_of(const std::function<void()>& work) {
    const auto begin = std::clock();
    work();
    return static_cast<double>(std::clock() - begin) / CLOCKS_PER_SEC;
}

TEST(Bounds, ARemarkThatIsNoValueIsLeftWhereItStands) {
    for (const auto& remark : {std::string("[see sheet 2}"), std::string("{ see = sheet"), std::string("\"open"),
                               std::string("ask Joe, twice"), std::string("= ="), many("[", 40000), many("{a=", 20000),
                               many("[{a=", 20000), std::string("'''")}) {
        const auto line = "# prepared-by = " + remark + "\n";
        const auto out = apply("[job]\ntitle = \"x\"\n" + line, {set({"job", "prepared-by"}, "me")});
        ASSERT_TRUE(out) << remark.substr(0, 40) << out.error().what;
        EXPECT_EQ(*out, "[job]\ntitle = \"x\"\nprepared-by = \"me\"\n" + line) << remark.substr(0, 40);
    }
}

TEST(Bounds, WhatLooksLikeARemarkInsideAValueIsNone) {
    for (const std::string value : {"\"\"\"\n# prepared-by = 'x'\n\"\"\"", "[1,\n# prepared-by = 'x'\n2]"}) {
        const auto text = "[job]\nwords = " + value + "\n";
        const auto out = apply(text, {set({"job", "prepared-by"}, "me")});
        ASSERT_TRUE(out) << out.error().what;
        EXPECT_EQ(*out, text + "prepared-by = \"me\"\n");
    }
}

TEST(Bounds, ALongListOfTablesIsWrittenAtOnceOrRefused) {
    Json tables = Json::array();
    for (int i = 0; i < 5000; ++i) tables.push_back({{"n", i}});
    auto more = tables;
    while (more.size() < 110000) more.push_back({{"n", more.size()}});
    for (const std::string start : {"[room]\nceiling = \"9 ft\"\n", "[[room.obstacle]]\nn = 1\n"}) {
        Result<std::string> out, refused;
        EXPECT_LT(seconds_of([&] {
                      out = apply(start, {set({"room", "obstacle"}, tables)});
                      refused = apply(start, {set({"room", "obstacle"}, more)});
                  }),
                  3);
        ASSERT_TRUE(out) << out.error().what;
        EXPECT_EQ(tree(*out, {})->at("room").at("obstacle"), tables);
        ASSERT_FALSE(refused);
        EXPECT_EQ(refused.error().what, "the survey's text grows too large");
    }
}

TEST(Bounds, ManyLargeEditsAreRefusedSoon) {
    std::vector<Edit> edits;
    for (int i = 0; i < 200; ++i) edits.push_back(set({"job", "note-" + std::to_string(i)}, std::string(4800, 'x')));
    Result<std::string> out;
    EXPECT_LT(seconds_of([&] { out = jobs::apply(survey::starter(), edits); }), 1.5);
    ASSERT_FALSE(out);
    EXPECT_EQ(out.error().what, "this changes too much at once");
    edits.resize(20);
    EXPECT_TRUE(jobs::apply(survey::starter(), edits));
}

TEST(Bounds, ATableOfTooManyKeysIsRefusedSoon) {
    std::string text = "[job]\n";
    for (int i = 0; i < 70000; ++i) text += "k" + std::to_string(i) + "=1\n";
    const auto said = [&](const auto& out) { return out ? std::string() : out.error().what; };
    EXPECT_LT(seconds_of([&] { EXPECT_EQ(said(tree(text, {})), "a table holds too many keys"); }), 1);
    Json table = Json::object();
    for (int i = 0; i < 3000; ++i) table["k" + std::to_string(i)] = i;
    EXPECT_EQ(said(read_edits(Json::array({{{"path", {"job"}}, {"value", table}}}))),
              "an edit's value is nothing a survey holds");
}

}  // namespace
