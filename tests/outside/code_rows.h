// SPDX-License-Identifier: MIT
#pragma once
// Rows of published values under tests/outside/data, read as a header and quoted fields.

#include <gtest/gtest.h>

#include <fstream>
#include <functional>
#include <map>
#include <string>
#include <vector>

#include "reason/reason.h"

namespace bw::outside {

using Row = std::map<std::string, std::string>;

inline std::vector<std::string> fields_of(const std::string& line) {
    std::vector<std::string> out(1);
    bool quoted = false;
    for (char c : line) {
        if (c == '"')
            quoted = !quoted;
        else if (c == ',' && !quoted)
            out.emplace_back();
        else
            out.back() += c;
    }
    return out;
}

inline std::vector<Row> rows_of(const std::string& file) {
    std::ifstream in(BANKWRIGHT_SOURCE "/tests/outside/data/" + file);
    EXPECT_TRUE(in) << file;
    std::string line;
    std::getline(in, line);
    auto head = fields_of(line);
    std::vector<Row> out;
    while (std::getline(in, line)) {
        auto fields = fields_of(line);
        EXPECT_EQ(fields.size(), head.size()) << line;
        Row row;
        for (std::size_t i = 0; i < head.size() && i < fields.size(); ++i) row[head[i]] = fields[i];
        out.push_back(std::move(row));
    }
    EXPECT_FALSE(out.empty()) << file;
    return out;
}

/// What a kind of row means: its value as this house computes it, in the row's unit.
using Meaning = std::function<double(const Row&)>;

/// Holds every row of a file against its meaning; a row without one is an error, so none is passed over.
inline std::map<std::string, int> hold_all(const std::string& file, const std::map<std::string, Meaning>& meanings) {
    std::map<std::string, int> seen;
    for (const auto& row : rows_of(file)) {
        auto meaning = meanings.find(row.at("what"));
        if (meaning == meanings.end()) {
            ADD_FAILURE() << file << ": nothing computes a row of " << row.at("what");
            continue;
        }
        ++seen[meaning->first];
        EXPECT_NEAR(meaning->second(row), std::stod(row.at("expected")), std::stod(row.at("tolerance")) + 1e-12)
            << file << ": " << row.at("what") << " " << row.at("a") << " " << row.at("b") << " " << row.at("unit")
            << ", " << row.at("source") << " (" << row.at("standing") << ")";
    }
    return seen;
}

/// The standing a row's word names.
inline reason::Standing standing_of(const Row& row) {
    const auto& word = row.at("standing");
    if (word == "published") return reason::Standing::published;
    if (word == "computed") return reason::Standing::computed;
    EXPECT_EQ(word, "memory");
    return reason::Standing::memory;
}

inline double number_in(const Row& row, const char* field) { return std::stod(row.at(field)); }

}  // namespace bw::outside
