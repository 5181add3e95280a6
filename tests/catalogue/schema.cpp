// SPDX-License-Identifier: MIT
// The editors' schema says the same as the reader: its words are the vocabulary's, its keys those that are read.

#include <nlohmann/json.hpp>
#include <set>

#include "catalogue/fields.h"
#include "files.h"
#include "text/toml.h"

namespace bw::catalogue {
namespace {

nlohmann::json schema() {
    std::ifstream in(BANKWRIGHT_SOURCE "/docs/schema/catalogue.schema.json");
    return nlohmann::json::parse(in);
}

std::set<std::string> words(const nlohmann::json& list) { return list.get<std::set<std::string>>(); }

template <class Enum>
std::set<std::string> vocabulary() {
    const auto names = text::names<Enum>();
    return {names.begin(), names.end()};
}

std::set<std::string> keys(const nlohmann::json& object) {
    std::set<std::string> out;
    for (const auto& [key, value] : object.items()) out.insert(key);
    return out;
}

TEST(CatalogueSchema, UsesTheVocabulary) {
    const auto defs = schema()["$defs"];
    auto parts = vocabulary<Part>();
    for (const auto* own_section : {"heater", "pipe", "vent-pipe", "connection"}) parts.erase(own_section);
    EXPECT_EQ(words(defs["item"]["properties"]["part"]["enum"]), parts);
    EXPECT_EQ(words(defs["item"]["properties"]["materials"]["items"]["enum"]), vocabulary<Material>());
    EXPECT_EQ(words(defs["item"]["properties"]["services"]["items"]["enum"]), vocabulary<Service>());
    EXPECT_EQ(words(defs["pipe"]["properties"]["material"]["enum"]), vocabulary<Material>());
    EXPECT_EQ(words(defs["item"]["properties"]["gas"]["enum"]), vocabulary<Gas>());
    EXPECT_EQ(words(defs["heater"]["properties"]["gas"]["items"]["properties"]["kind"]["enum"]), vocabulary<Gas>());
}

TEST(CatalogueSchema, KnowsEveryNumberOfAnItem) {
    const auto known = keys(schema()["$defs"]["item"]["properties"]);
    for (const auto& number : item_numbers()) EXPECT_TRUE(known.contains(std::string(number.name))) << number.name;
    for (const auto& field : data_fields()) EXPECT_TRUE(known.contains(std::string(field.name))) << field.name;
}

TEST(CatalogueSchema, TheDocumentedHeaterHasEachOfItsKeys) {
    const auto document = text::Document::parse(documented(0), "own.toml");
    ASSERT_TRUE(document);
    std::set<std::string> written;
    for (const auto& [key, node] : document->root().get("heater")->items().front().entries()) written.insert(key);
    EXPECT_EQ(written, keys(schema()["$defs"]["heater"]["properties"]));
}

TEST(CatalogueSchema, RequiresWhatTheReaderRequires) {
    for (const auto& key : words(schema()["$defs"]["heater"]["required"]))
        EXPECT_NE(
            refusal(with(documented(0), "\n" + key + " =", "\nx-" + key + " =")).find("missing key '" + key + "'"),
            std::string::npos)
            << key;
}

}  // namespace
}  // namespace bw::catalogue
