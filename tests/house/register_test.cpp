// SPDX-License-Identifier: MIT
// Checks are made from the register of checks and nowhere else.
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <regex>
#include <set>
#include <sstream>

#include "reason/register/register.h"

namespace {

namespace fs = std::filesystem;
const fs::path sources = fs::path(BANKWRIGHT_SOURCE) / "src";

std::string text_of(const fs::path& path) {
    std::ifstream in(path);
    std::stringstream text;
    text << in.rdbuf();
    return text.str();
}

/// What a pattern's first group matches in the code outside the room of checks.
std::vector<std::pair<std::string, std::string>> found(const std::regex& pattern) {
    std::vector<std::pair<std::string, std::string>> all;
    for (const auto& entry : fs::recursive_directory_iterator(sources)) {
        const auto file = fs::relative(entry.path(), sources).string();
        if (!entry.is_regular_file() || file.starts_with("reason/")) continue;
        const auto text = text_of(entry.path());
        for (std::sregex_iterator at(text.begin(), text.end(), pattern), end; at != end; ++at)
            all.emplace_back(file, (*at)[1]);
    }
    return all;
}

TEST(House, NoCheckIsMadeByHand) {
    for (const auto& [file, name] : found(std::regex(R"(\b(?:reason::)?Check (\w+)(?:;|\{\}|\{\.))")))
        ADD_FAILURE() << file << " makes the check '" << name << "': make it from its row, by reason::new_check";
}

TEST(House, EveryRowIsMadeSomewhereAndNothingElseIs) {
    std::set<std::string> made;
    for (const auto& [file, row] : found(std::regex(R"re("([a-z]+\.[a-z0-9<>.-]+)")re"))) made.insert(row);
    for (const auto& group : bw::reason::check_register())
        for (const auto& row : group.rows)
            EXPECT_TRUE(made.contains(std::string(row.id)))
                << std::string_view(row.id) << " is made nowhere: delete it";
    std::set<std::string_view> rows;
    for (const auto& group : bw::reason::check_register())
        for (const auto& row : group.rows) rows.insert(row.id);
    for (const auto& [file, row] : found(std::regex(R"re(new_check\(\s*"([^"]+)")re")))
        EXPECT_TRUE(rows.contains(row)) << file << " makes " << row
                                        << ", which is no row: add it to src/reason/register/";
}

}  // namespace
