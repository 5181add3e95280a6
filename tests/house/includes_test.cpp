// SPDX-License-Identifier: MIT
// The house keeps its order: a room includes only itself and the rooms its CMake line names, and those stand above it.
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <regex>
#include <set>
#include <sstream>

namespace {

namespace fs = std::filesystem;
const fs::path root = BANKWRIGHT_SOURCE;

std::string text_of(const fs::path& path) {
    std::ifstream in(path);
    std::stringstream text;
    text << in.rdbuf();
    return text.str();
}

struct Room {
    std::string name;
    std::set<std::string> uses;
};

std::vector<Room> rooms() {
    const auto cmake = text_of(root / "CMakeLists.txt");
    const std::regex line(R"(bw_room\((\w+)(?: USES ([\w ]+?))?(?: LIBRARIES [^)]*)?\))");
    std::vector<Room> found;
    for (std::sregex_iterator at(cmake.begin(), cmake.end(), line), end; at != end; ++at) {
        Room room{(*at)[1], {}};
        std::istringstream words((*at)[2].str());
        for (std::string word; words >> word;) room.uses.insert(word);
        found.push_back(room);
    }
    return found;
}

TEST(House, RoomsUseOnlyRoomsAbove) {
    const auto all = rooms();
    ASSERT_GE(all.size(), 15u);
    std::set<std::string> above;
    for (const auto& room : all) {
        for (const auto& used : room.uses)
            EXPECT_TRUE(above.contains(used)) << room.name << " uses " << used << " below it";
        above.insert(room.name);
    }
}

TEST(House, EveryFolderIsARoom) {
    std::set<std::string> known{"cli"};
    for (const auto& room : rooms()) known.insert(room.name);
    for (const auto& entry : fs::directory_iterator(root / "src"))
        if (entry.is_directory()) {
            EXPECT_TRUE(known.contains(entry.path().filename().string())) << entry.path();
        }
}

TEST(House, IncludesFollowTheRooms) {
    const std::regex include(R"re(#include "(\w+)/[\w./]+")re");
    int seen = 0;
    for (const auto& room : rooms())
        for (const auto& entry : fs::directory_iterator(root / "src" / room.name)) {
            const auto text = text_of(entry.path());
            for (std::sregex_iterator at(text.begin(), text.end(), include), end; at != end; ++at, ++seen) {
                const std::string used = (*at)[1];
                EXPECT_TRUE(used == room.name || room.uses.contains(used)) << entry.path() << " includes " << used;
            }
        }
    EXPECT_GT(seen, 100);
}

TEST(House, SourcesCarryTheirLicenceAndNoMachinePaths) {
    // split so that this file does not hold what it looks for
    const std::regex machine(std::string("/wo") + "rk/|/ro" + "ot/");
    for (const auto* folder : {"src", "tests", "bench", "fuzz", "data", "examples", "docs", "tools"}) {
        if (!fs::exists(root / folder)) continue;
        for (const auto& entry : fs::recursive_directory_iterator(root / folder)) {
            const auto extension = entry.path().extension();
            if (extension != ".cpp" && extension != ".h" && extension != ".toml" && extension != ".md" &&
                extension != ".csv")
                continue;
            const auto text = text_of(entry.path());
            if (extension == ".cpp" || extension == ".h") {
                EXPECT_TRUE(text.starts_with("// SPDX-License-Identifier: MIT")) << entry.path();
            }
            EXPECT_FALSE(std::regex_search(text, machine)) << entry.path();
        }
    }
}

}  // namespace
