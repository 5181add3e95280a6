// SPDX-License-Identifier: MIT
// Reading takes time in proportion to the file, whatever it holds.
#include <gtest/gtest.h>

#include <ctime>
#include <iostream>

#include "text/toml.h"

namespace bw::text {
namespace {

std::string repeated(std::string_view text, std::size_t bytes) {
    std::string out;
    while (out.size() + text.size() <= bytes) out += text;
    return out;
}

/// As large as a file may be and as wicked: read or refused in the time that reading takes.
TEST(Time, IsInProportionToTheFile) {
    constexpr std::size_t most = largest_file - 100;
    std::string tables, dotted, keys;
    for (int i = 0; tables.size() + 30 < most; ++i) tables += "[a." + std::to_string(i) + "]\n";
    for (int i = 0; dotted.size() + 30 < most; ++i) dotted += "a.b.c" + std::to_string(i) + " = 1\n";
    for (int i = 0; keys.size() + 30 < most; ++i) keys += "k" + std::to_string(i) + " = 1\n";
    const std::pair<const char*, std::string> all[] = {
        {"steps of a header", "[" + repeated("a.", 400000) + "a]\n"},
        {"steps of headers, each as deep as may be", repeated("[" + repeated("a.", 120) + "a]\nx = 1\n", most)},
        {"spaced steps", "[" + repeated("a . ", most) + "a]\n"},
        {"quoted steps", "[" + repeated("\"a\".", most) + "a]\n"},
        {"steps of a key", repeated("a.", most) + "a = 1\n"},
        {"steps over lines", repeated("a.\n", most)},
        {"brackets", repeated("[", most)},
        {"braces", repeated("{a=", most)},
        {"tables", tables},
        {"dotted keys", dotted},
        {"keys", keys},
        {"lists of tables", repeated("[[a]]\n", most)},
        {"lists of lists of tables", repeated("[[a]]\n[[a.b]]\n", most)},
        {"numbers", "a = [" + repeated("1,", most) + "]\n"},
        {"inline tables", "a = [" + repeated("{b=1},", most) + "]\n"},
        {"one text", "a = \"" + repeated("x", most) + "\"\n"},
        {"one number", "a = " + repeated("1", most) + "\n"},
        {"one key", repeated("k", most) + " = 1\n"},
        {"quotes", repeated("\"", most)},
        {"escapes", "a = \"" + repeated("\\u0041", most) + "\"\n"},
        {"lines", repeated("\n", most)},
        {"a comment", repeated("#", most)},
        {"a break-down at the end", repeated("\n", most) + "[[#"},
    };
    for (const auto& [name, text] : all) {
        const auto begin = std::clock();
        const auto document = Document::parse(text, "a.toml");
        if (document) (void)TableReader(document->root()).finish();
        const double took = static_cast<double>(std::clock() - begin) / CLOCKS_PER_SEC;  // of this process alone
        EXPECT_LT(took, 8) << name;
        if (took > 1) std::cout << name << ": " << took << " s\n";
    }
}

}  // namespace
}  // namespace bw::text
