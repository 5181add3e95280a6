// SPDX-License-Identifier: MIT
// The house keeps its order: a room includes only itself and the rooms its CMake line names, and those stand above it.
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <map>
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

bool is_code(const fs::path& path) { return path.extension() == ".cpp" || path.extension() == ".h"; }

/// Files under a room, its sub-rooms' too.
std::vector<fs::path> code_under(const fs::path& folder) {
    std::vector<fs::path> found;
    for (const auto& entry : fs::recursive_directory_iterator(folder))
        if (entry.is_regular_file() && is_code(entry.path())) found.push_back(entry.path());
    return found;
}

/// What a file includes of this house: "proof/gas/gas_run.h".
std::vector<std::string> includes_of(const fs::path& file) {
    static const std::regex include(R"re(#include "(\w+/[\w./]+)")re");
    const auto text = text_of(file);
    std::vector<std::string> found;
    for (std::sregex_iterator at(text.begin(), text.end(), include), end; at != end; ++at) found.push_back((*at)[1]);
    return found;
}

std::string first_folder(const std::string& path) { return path.substr(0, path.find('/')); }
/// "gas" of "proof/gas/gas_run.h"; empty at the room's own level.
std::string second_folder(const std::string& path) {
    const auto from = path.find('/') + 1, to = path.find('/', from);
    return to == std::string::npos ? "" : path.substr(from, to - from);
}

/// The comment that begins a header, right behind its `#pragma once`.
std::string first_comment(const fs::path& header) {
    std::istringstream lines(text_of(header));
    std::string comment;
    bool begun = false;
    for (std::string line; std::getline(lines, line);) {
        if (begun && !line.starts_with("// ")) break;
        if (begun) comment += (comment.empty() ? "" : " ") + line.substr(3);
        begun = begun || line == "#pragma once";
    }
    return comment;
}

struct SubRoom {
    std::string name;
    std::string header;  ///< the one that says what the sub-room makes; empty: it holds only checks of `proof/checks.h`
};

/// Sub-rooms in their order: a file includes only its own sub-room, those before it and the room's own headers. What
/// stands at the room's own level may include them all.
const std::map<std::string, std::vector<SubRoom>> sub_rooms{
    {"reason", {{"register", "register.h"}}},
    {"network", {{"run", "level_runs.h"}}},
    {"piping",
     {{"kit", "builder.h"},
      {"main", "main_parts.h"},
      {"size", "sizing.h"},
      {"bank", "banks.h"},
      {"vent", "vent.h"},
      {"drain", "drain.h"},
      {"power", "electric.h"},
      {"support", "structure.h"}}},
    {"proof",
     {{"base", "plant_index.h"},
      {"gas", "gas_run.h"},
      {"water", "water_run.h"},
      {"vent", "vent_run.h"},
      {"drain", ""},
      {"support", "level_runs.h"},
      {"space", "clearances.h"},
      {"power", "power_run.h"}}},
};

/// Includes against the order of sub-rooms that are still to be mended: file and what it includes.
const std::set<std::pair<std::string, std::string>> against_the_order{};

constexpr std::ptrdiff_t most_sources = 15;
/// Folders past it, each with the reason why it is not cut.
const std::map<std::string, std::string> large_folders{
    {"code", "one file a clause"},          {"demand", "one file a method"},
    {"reckon", "one file a topic"},         {"draw", "one file a sheet; sub-rooms are owed"},
    {"serve", "one file a part of a view"}, {"survey", "one file a section of the survey"},
};

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
    int seen = 0;
    for (const auto& room : rooms())
        for (const auto& file : code_under(root / "src" / room.name))
            for (const auto& included : includes_of(file)) {
                ++seen;
                const auto used = first_folder(included);
                EXPECT_TRUE(used == room.name || room.uses.contains(used)) << file << " includes " << included;
            }
    EXPECT_GT(seen, 1000);
}

TEST(House, IncludesFollowTheOrderOfSubRooms) {
    auto owed = against_the_order;
    for (const auto& [room, order] : sub_rooms) {
        const auto place = [&](const std::string& name) {
            return std::ranges::find(order, name, &SubRoom::name) - order.begin();
        };
        for (const auto& path : code_under(root / "src" / room)) {
            const auto file = fs::relative(path, root / "src").string();
            const auto own = second_folder(file);
            if (own.empty()) continue;
            ASSERT_LT(place(own), std::ssize(order)) << own << " has no place in the order of " << room;
            for (const auto& included : includes_of(path)) {
                const auto used = second_folder(included);
                if (first_folder(included) != room || used.empty() || owed.erase({file, included}) > 0) continue;
                EXPECT_LE(place(used), place(own)) << file << " includes " << included << ", which stands below it";
            }
        }
    }
    for (const auto& [file, included] : owed)
        ADD_FAILURE() << file << " no longer includes " << included << ": take it off the list";
}

TEST(House, EverySubRoomHasItsPlaceAndSaysWhatItMakes) {
    for (const auto& room : rooms())
        for (const auto& entry : fs::directory_iterator(root / "src" / room.name))
            if (entry.is_directory()) {
                EXPECT_TRUE(sub_rooms.contains(room.name)) << entry.path() << ": its room has no order of sub-rooms";
            }
    for (const auto& [room, order] : sub_rooms)
        for (const auto& sub : order) {
            const auto folder = root / "src" / room / sub.name;
            ASSERT_TRUE(fs::is_directory(folder)) << folder;
            const auto files = code_under(folder);
            if (sub.header.empty()) {
                EXPECT_TRUE(std::ranges::none_of(files, [](const auto& f) { return f.extension() == ".h"; }))
                    << folder << " has headers: name the one that says what it makes";
                continue;
            }
            const auto says = first_comment(folder / sub.header);
            EXPECT_TRUE(!says.empty() && std::isupper(static_cast<unsigned char>(says.front())) &&
                        says.find('.') != std::string::npos)
                << folder / sub.header << " does not say what it makes: " << says;
        }
}

TEST(House, NoFolderHoldsTooManySources) {
    const auto folders = [] {
        std::vector<fs::path> found;
        for (const auto& entry : fs::recursive_directory_iterator(root / "src"))
            if (entry.is_directory()) found.push_back(entry.path());
        return found;
    }();
    ASSERT_GT(folders.size(), 30u);
    for (const auto& folder : folders) {
        const auto sources = std::ranges::count_if(
            fs::directory_iterator(folder), [](const auto& entry) { return entry.path().extension() == ".cpp"; });
        const auto name = fs::relative(folder, root / "src").string();
        if (large_folders.contains(name))
            EXPECT_GT(sources, most_sources) << name << " has shrunk: take it off the list";
        else
            EXPECT_LE(sources, most_sources) << name << " wants sub-rooms";
    }
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
