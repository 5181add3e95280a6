// SPDX-License-Identifier: MIT
#pragma once
// The examples of docs/catalogue.md as files, whole or with one thing wrong.

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>

#include "catalogue/catalogue.h"

namespace bw::catalogue {

/// The n-th TOML block of docs/catalogue.md: 0 is the heater, 1 the valve.
inline std::string documented(int n) {
    std::ifstream in(BANKWRIGHT_SOURCE "/docs/catalogue.md");
    std::stringstream text;
    text << in.rdbuf();
    std::string rest = text.str();
    for (;; --n) {
        const auto start = rest.find("```toml\n");
        if (start == std::string::npos) throw std::runtime_error("no such block");
        rest = rest.substr(start + 8);
        if (n == 0) return rest.substr(0, rest.find("```"));
    }
}

/// A text with one passage changed; the passage must be there.
inline std::string with(std::string text, const std::string& from, const std::string& to) {
    const auto at = text.find(from);
    if (at == std::string::npos) throw std::runtime_error("not in the text: " + from);
    return text.replace(at, from.size(), to);
}

/// A file of this name in a folder of the running test's own.
inline std::string file_of(const std::string& text, const std::string& name = "own.toml") {
    const auto* info = testing::UnitTest::GetInstance()->current_test_info();
    const auto folder = std::filesystem::temp_directory_path() / (std::string("bankwright-catalogue-") + info->name());
    std::filesystem::create_directories(folder);
    std::ofstream(folder / name, std::ios::binary) << text;
    return (folder / name).string();
}

/// What `catalogue check` says of such a file, without the folder; empty when it is sound.
inline std::string refusal(const std::string& text) {
    const auto path = file_of(text);
    const auto judged = check_file(path);
    if (judged) return {};
    const std::string said = describe(judged.error());
    return said.starts_with(path) ? "own.toml" + said.substr(path.size()) : said;
}

/// "own.toml:12:" for the first line that holds a passage.
inline std::string line_of(const std::string& text, const std::string& passage) {
    const auto at = text.find(passage);
    if (at == std::string::npos) throw std::runtime_error("not in the text: " + passage);
    return "own.toml:" +
           std::to_string(1 + std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(at), '\n')) + ":";
}

}  // namespace bw::catalogue
