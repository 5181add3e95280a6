// SPDX-License-Identifier: MIT
#pragma once
// Files judged by independent readers, which Node runs.

#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>
#include <string>

namespace bw::test {

using Json = nlohmann::json;

inline std::string text_in(const std::filesystem::path& path) {
    std::ifstream in(path, std::ios::binary);
    std::stringstream text;
    text << in.rdbuf();
    return text.str();
}

/// What a reader of tests/readers says of a file with these bytes. A reader that is missing or stops is a failure.
[[nodiscard]] inline Json read_by(const std::string& reader, const std::string& bytes, const std::string& name) {
    namespace fs = std::filesystem;
    const fs::path readers = fs::path(BANKWRIGHT_SOURCE) / "tests/readers";
    EXPECT_TRUE(fs::exists(readers / "node_modules"))
        << "the readers are missing: run ./test, or npm ci in " << readers;
    const auto folder = fs::temp_directory_path() / ("bankwright-read-" + std::to_string(::getpid()));
    fs::create_directories(folder);
    const auto file = folder / name, out = folder / "told.json", err = folder / "said.txt";
    std::ofstream(file, std::ios::binary) << bytes;
    const int status = std::system(("node '" + (readers / (reader + ".mjs")).string() + "' '" + file.string() + "' >'" +
                                    out.string() + "' 2>'" + err.string() + "'")
                                       .c_str());
    const auto told = text_in(out), said = text_in(err);
    fs::remove_all(folder);
    EXPECT_TRUE(WIFEXITED(status) && WEXITSTATUS(status) == 0) << reader << " stopped: " << said;
    EXPECT_EQ(said, "") << reader;
    return Json::parse(told);
}

}  // namespace bw::test
