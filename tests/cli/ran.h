// SPDX-License-Identifier: MIT
#pragma once
// The real program, run as a user runs it.

#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>

namespace bw::test {

namespace fs = std::filesystem;

inline const std::string program = std::string(BANKWRIGHT_BINARY) + "/bankwright";
inline const fs::path source = BANKWRIGHT_SOURCE;

inline std::string text_of(const fs::path& path) {
    std::ifstream in(path, std::ios::binary);
    std::stringstream text;
    text << in.rdbuf();
    return text.str();
}

struct Ran {
    int status = 0;
    std::string out, err;
};

/// Runs a shell command; standard output and error apart.
inline Ran shell(const std::string& command, const fs::path& folder) {
    const auto err = folder / "stderr.txt", out = folder / "stdout.txt";
    const int status = std::system(
        ("cd '" + folder.string() + "' && " + command + " >'" + out.string() + "' 2>'" + err.string() + "'").c_str());
    return {WIFEXITED(status) ? WEXITSTATUS(status) : 128, text_of(out), text_of(err)};
}

/// A folder of its own for each test, taken away afterwards.
class Bench : public ::testing::Test {
protected:
    void SetUp() override {
        const auto* info = ::testing::UnitTest::GetInstance()->current_test_info();
        folder = fs::temp_directory_path() / (std::string("bankwright-") + info->test_suite_name() + "-" +
                                              info->name() + "-" + std::to_string(::getpid()));
        fs::create_directories(folder);
    }
    void TearDown() override { fs::remove_all(folder); }
    Ran bankwright(const std::string& arguments) { return shell("'" + program + "' " + arguments, folder); }
    fs::path write(const std::string& name, const std::string& text) {
        std::ofstream(folder / name, std::ios::binary) << text;
        return folder / name;
    }
    static std::string example(const std::string& name) {
        return "'" + (source / "examples" / (name + ".toml")).string() + "'";
    }
    fs::path folder;
};

}  // namespace bw::test
