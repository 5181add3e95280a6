// SPDX-License-Identifier: MIT
// A plant's networks are read and solved in one place, `network::solve`; whoever reads them anew says why.
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <map>
#include <regex>
#include <set>
#include <sstream>

namespace {

namespace fs = std::filesystem;
const fs::path sources = fs::path(BANKWRIGHT_SOURCE) / "src";

/// What a file may call itself, beside the stage.
const std::map<std::string, std::set<std::string>> allowed{
    {"design/prove.cpp", {"solve"}},                                     // the stage itself, once a plant
    {"piping/size/water_economy.cpp", {"water_feed", "water_network"}},  // sizes tried before the plant stands
    {"proof/gas/gas_mend.cpp", {"gas_network"}},                         // larger pipe tried, that is not laid
    {"proof/water/loop_plant.cpp", {"water_network"}},                   // the loop's own flow and water
};

TEST(House, ThePlantIsSolvedInOnePlace) {
    const std::regex call(R"(network::(solve|(?:gas|water|vent)_(?:feed|networks?|flows|split))\()");
    auto expected = allowed;
    for (const auto& entry : fs::recursive_directory_iterator(sources)) {
        const auto file = fs::relative(entry.path(), sources).string();
        if (!entry.is_regular_file() || file.starts_with("network/")) continue;
        std::ifstream in(entry.path());
        std::stringstream text;
        text << in.rdbuf();
        const auto all = text.str();
        for (std::sregex_iterator at(all.begin(), all.end(), call), end; at != end; ++at) {
            const auto known = allowed.find(file);
            EXPECT_TRUE(known != allowed.end() && known->second.contains((*at)[1]))
                << file << " calls network::" << (*at)[1] << ": read it from Hydraulics";
            expected[file].erase((*at)[1]);
        }
    }
    for (const auto& [file, calls] : expected)
        EXPECT_TRUE(calls.empty()) << file << " no longer calls " << *calls.begin() << ": take it off the list";
}

}  // namespace
