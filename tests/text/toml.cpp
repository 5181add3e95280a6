// SPDX-License-Identifier: MIT
#include "text/toml.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/stat.h>

#include <cstdio>
#include <filesystem>
#include <fstream>

namespace bw::text {
namespace {

using testing::HasSubstr;
using units::Kind;
using units::Pressure;
using units::psi;

Node root(std::string text) {
    auto document = Document::parse(std::move(text), "a.toml");
    if (!document) throw std::runtime_error(describe(document.error()));
    return document->root();
}

std::string refusal_of(std::string text) {
    const auto document = Document::parse(std::move(text), "a.toml");
    return document ? "" : describe(document.error());
}

TEST(Toml, BadSyntaxNamesItsPlace) {
    EXPECT_THAT(refusal_of("a = 1\nb = \n"), HasSubstr("a.toml:2:"));
    EXPECT_THAT(refusal_of("a = 1\na = 2\n"), HasSubstr("a.toml:2:"));
    EXPECT_THAT(refusal_of("a = \"open\n"), HasSubstr("a.toml:1:"));
    EXPECT_THAT(refusal_of("a = \"caf\xe9\"\n"), HasSubstr("a.toml:1:9: not UTF-8"));
}

TEST(Toml, LinesTheParserBreaksDownOnAreRefused) {
    EXPECT_THAT(refusal_of("a = 1\n[[# x\nb = 2\n"), HasSubstr("a.toml:2:1: not TOML"));
}

TEST(Toml, ALetterMayStandWhereWhiteSpaceIsPassedOver) {
    for (const std::string letter : {"\u00E9", "\u03BB", "\u1681", "\u2070", "\u3042", "\uFB26"}) {
        const auto value = root("a = \"\"\"one \\\n  " + letter + "two\"\"\"\n").get("a")->as_string();
        ASSERT_TRUE(value) << describe(value.error());
        EXPECT_EQ(*value, "one " + letter + "two");
    }
}

TEST(Toml, LettersBeyondAsciiStandInQuotesAndCommentsAlone) {
    EXPECT_THAT(refusal_of("a = 1\nb\xd2\x89 = 2\n"), HasSubstr("a.toml:2:2: a letter beyond ASCII outside of quotes"));
    EXPECT_THAT(refusal_of("\xef\xb9\xbf"), HasSubstr("a letter beyond ASCII"));
    EXPECT_THAT(refusal_of("a = 12\"\xef\xbb\xbc\n"), HasSubstr("a.toml:1:7: a quote in the midst of something"));
    EXPECT_EQ(refusal_of("'a' . \"b\" = [ 'c', \"d\" ] # \"\n[ \"e\" ]\nf = { \"g\" = \"\"\"h\"\"\"\"\" }\n"), "");
    EXPECT_EQ(refusal_of("\xef\xbb\xbf# \xd2\x89\na = \"\xc3\xa9\"\n'\xc3\xa9' = 1\n"), "");
}

TEST(Toml, DeepNestingIsRefusedHoweverItIsWritten) {
    EXPECT_THAT(refusal_of("a = " + std::string(100, '[') + std::string(100, ']')), HasSubstr("nested too deeply"));
    std::string dotted = "a";
    for (int i = 0; i < 200000; ++i) dotted += ".a";
    EXPECT_THAT(refusal_of(dotted + " = 1"), HasSubstr("nested too deeply"));
    EXPECT_THAT(refusal_of("[" + dotted + "]"), HasSubstr("nested too deeply"));
    std::string inside = "a";
    for (int i = 0; i < 40; ++i) inside += ".a";
    EXPECT_THAT(refusal_of("[" + inside + "]\n" + inside + " = 1"), HasSubstr("nested too deeply"));
}

TEST(Toml, BracketsInTextsAndCommentsAreNotNesting) {
    const std::string brackets(100, '[');
    EXPECT_EQ(refusal_of("a = \"" + brackets + "\" # " + brackets + "\nb = '''\n" + brackets + "'''\n"), "");
    std::string numbers = "a = [0.5";
    for (int i = 0; i < 200; ++i) numbers += ", 0.5";
    EXPECT_EQ(refusal_of(numbers + "]"), "");
}

TEST(Toml, EntriesKeepTheFilesOrder) {
    std::vector<std::string> keys;
    for (const auto& [key, node] : root("zebra = 1\napple = 2\n[mango]\n[kiwi]\n").entries()) keys.push_back(key);
    EXPECT_THAT(keys, testing::ElementsAre("zebra", "apple", "mango", "kiwi"));
}

TEST(Toml, ValuesKnowTheirPlaceAndKind) {
    const auto table = root("a = 1\n[b]\n  c = [true, \"x\", 2.5]\n");
    const auto c = *table.get("b")->get("c");
    EXPECT_EQ(c.place(), (Place{"a.toml", 3, 7}));
    const auto items = c.items();
    ASSERT_EQ(items.size(), 3u);
    EXPECT_TRUE(*items[0].as_flag());
    EXPECT_EQ(*items[1].as_string(), "x");
    EXPECT_DOUBLE_EQ(*items[2].as_number(), 2.5);
    EXPECT_FALSE(items[2].as_integer());
    EXPECT_FALSE(items[1].as_number());
    EXPECT_EQ(*table.get("a")->as_integer(), 1);
    EXPECT_DOUBLE_EQ(*table.get("a")->as_number(), 1);
    EXPECT_FALSE(table.get("absent"));
}

TEST(Toml, QuantitiesAreTextsWithTheirUnit) {
    const auto table =
        root("p = \"7 inH2O\"\nn = 7\nsize = \"1-1/4\"\nbad = \"7 parsec\"\nwhen = 2001-01-01\ninf = inf\n");
    EXPECT_NEAR(table.get("p")->as_amount(Kind::gas_pressure)->si, 7 * 249.08891, 1e-9);
    EXPECT_DOUBLE_EQ(table.get("n")->as_amount(Kind::number)->si, 7);
    EXPECT_THAT(describe(table.get("n")->as_amount(Kind::gas_pressure).error()),
                HasSubstr("a.toml:2:5: '7' has no unit"));
    EXPECT_THAT(describe(table.get("bad")->as_amount(Kind::length).error()),
                HasSubstr("a.toml:4:7: '7 parsec' is not a length"));
    EXPECT_THAT(describe(table.get("when")->as_amount(Kind::length).error()), HasSubstr("a date or time"));
    EXPECT_FALSE(table.get("inf")->as_number());
    EXPECT_EQ(table.get("size")->as_nominal()->eighths, 10);
}

struct Row {
    std::string name;
    Pressure pressure{};
    double share = 0.5;
    std::int64_t count = 0;
    Gas gas{};
    units::Nominal size;
    bool flag = false;
};

Result<Row> read_row(std::string text) {
    Row row;
    TableReader r(root(std::move(text)));
    r.require("name", row.name);
    r.require("pressure", row.pressure, Kind::pressure, {0, 1e6});
    r.optional("share", row.share, {0, 1});
    r.optional("count", row.count, {1, 99});
    r.optional_named("gas", row.gas);
    r.optional("size", row.size);
    r.optional("flag", row.flag);
    if (auto ok = r.finish(); !ok) return tl::unexpected(ok.error());
    return row;
}

std::string refused_row(std::string text) {
    const auto row = read_row(std::move(text));
    return row ? "" : describe(row.error());
}

TEST(TableReader, ReadsFieldsAndLeavesAbsentOnesAlone) {
    const auto row = read_row("name = \"x\"\npressure = \"50 psi\"\ngas = \"propane\"\nsize = \"3/4\"\n");
    ASSERT_TRUE(row) << describe(row.error());
    EXPECT_EQ(row->name, "x");
    EXPECT_NEAR(row->pressure / psi, 50, 1e-9);
    EXPECT_EQ(row->share, 0.5);
    EXPECT_EQ(row->gas, Gas::propane);
    EXPECT_EQ(row->size.eighths, 6);
}

TEST(TableReader, SaysWhatIsWrongAndWhere) {
    EXPECT_THAT(refused_row("name = \"x\"\n"), HasSubstr("missing key 'pressure', expected a pressure"));
    EXPECT_THAT(refused_row("name = 5\npressure = \"50 psi\"\n"),
                HasSubstr("a.toml:1:8: name: is a number, expected a text"));
    EXPECT_THAT(refused_row("name = \"x\"\npressure = \"50 feet\"\n"),
                HasSubstr("a.toml:2:12: pressure: '50 feet' is not a pressure"));
    EXPECT_THAT(refused_row("name = \"x\"\npressure = \"-5 psi\"\n"),
                HasSubstr("-5.00 psi is out of range, expected 0.00 psi to 145.04 psi"));
    EXPECT_THAT(refused_row("name = \"x\"\npressure = \"5 psi\"\nshare = 2\n"),
                HasSubstr("share: 2 is out of range, expected 0 to 1"));
    EXPECT_THAT(refused_row("name = \"x\"\npressure = \"5 psi\"\ncount = 2.5\n"),
                HasSubstr("count: is a number, expected a whole number"));
    EXPECT_THAT(refused_row("name = \"x\"\npressure = \"5 psi\"\ngas = \"propan\"\n"),
                HasSubstr("a.toml:3:7: gas: unknown gas 'propan', expected 'propane' perhaps"));
    EXPECT_THAT(refused_row("name = \"x\"\npressure = \"5 psi\"\nprssure = \"5 psi\"\n"),
                HasSubstr("a.toml:3:11: unknown key 'prssure', expected 'pressure' perhaps"));
}

TEST(TableReader, RefusesTextsThatSteerAScreen) {
    for (const auto& [escape, code] : {std::pair{"\\u0000", "U+0000"},
                                       {"\\u001B]0;x\\u0007", "U+001B"},
                                       {"\\n", "U+000A"},
                                       {"\t", "U+0009"},
                                       {"\\u007F", "U+007F"},
                                       {"\xC2\x9B", "U+009B"},
                                       {"\xE2\x80\xAE", "U+202E"},
                                       {"\\u2067", "U+2067"},
                                       {"\\u2028", "U+2028"}})
        EXPECT_EQ(refused_row("pressure = \"5 psi\"\nname = \"a " + std::string(escape) + "b\"\n"),
                  std::string("a.toml:2:8: name: holds the control character ") + code +
                      ", expected a text on one line, without control characters");
    EXPECT_EQ(refused_row("pressure = \"5 psi\"\nname = \"Gro\u00dfe Dusche \u2014 \u05d0\u200f \U0001F6BF\"\n"), "");
}

TEST(TableReader, KeepsTheFirstErrorOnly) {
    EXPECT_THAT(refused_row("name = 5\npressure = 5\n"), HasSubstr("a.toml:1:8"));
}

TEST(TableReader, RefusesWhatIsNoTable) {
    TableReader r(*root("a = 1").get("a"));
    EXPECT_FALSE(r.ok());
    EXPECT_THAT(describe(r.finish().error()), HasSubstr("expected a table"));
}

struct Scratch {
    std::filesystem::path path = std::filesystem::path(testing::TempDir()) / "bankwright_text_test.toml";
    explicit Scratch(const std::string& bytes) { std::ofstream(path, std::ios::binary) << bytes; }
    ~Scratch() { std::filesystem::remove(path); }
};

TEST(Files, AreReadAsUtf8WithinALimit) {
    EXPECT_EQ(*read_file(Scratch("a = 1\n").path.string()), "a = 1\n");
    EXPECT_EQ(*read_file(Scratch("\xef\xbb\xbf"
                                 "a = 1\n")
                             .path.string()),
              "a = 1\n");
    const Scratch bad("ok\nnot \xff ok\n");
    const auto refused = read_file(bad.path.string());
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().place.line, 2);
    EXPECT_EQ(refused.error().place.column, 5);
    const Scratch large(std::string(largest_file + 1, ' '));
    EXPECT_THAT(describe(read_file(large.path.string()).error()), HasSubstr("too large, expected at most 4 MiB"));
    EXPECT_THAT(describe(read_file("/no/such/file").error()), HasSubstr("/no/such/file: cannot be read"));
    EXPECT_THAT(describe(read_file(testing::TempDir()).error()), HasSubstr("is a folder"));
}

TEST(Files, ThatAreNoFilesAreNotWaitedFor) {
    const auto pipe = testing::TempDir() + "bankwright_text_test_pipe";
    std::filesystem::remove(pipe);
    ASSERT_EQ(::mkfifo(pipe.c_str(), 0600), 0);
    for (const auto& path : {pipe, std::string("/dev/zero"), std::string("/dev/null")})
        EXPECT_EQ(describe(read_file(path).error()), path + ": is a pipe or a device, expected a regular file");
    std::filesystem::remove(pipe);
}

}  // namespace
}  // namespace bw::text
