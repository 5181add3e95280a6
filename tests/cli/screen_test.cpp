// SPDX-License-Identifier: MIT
// What the program says arrives whole, or its exit status tells; and none of it steers the terminal.
#include <sys/mount.h>

#include "ran.h"

namespace bw::test {
namespace {

class Screen : public Bench {
protected:
    /// Commands that say something on standard output.
    static std::vector<std::string> all() {
        return {"--help",
                "--version",
                "design --help",
                "survey check " + example("hostel"),
                "reckon",
                "reckon water temperature='60 degC'",
                "catalogue list",
                "compare " + example("sports-hall"),
                "design " + example("sports-hall") + " --json",
                "design " + example("sports-hall") + " -o job"};
    }
    /// Exit 1 and one line on standard error that holds `why`.
    void fails(const std::string& arguments, const std::string& to, const std::string& why) {
        SCOPED_TRACE(arguments + to);
        const auto ran = shell("('" + program + "' " + arguments + to + ")", folder);
        EXPECT_EQ(ran.status, 1) << ran.err;
        EXPECT_EQ(ran.err, "standard output: cannot be written: " + why + "\n");
    }
};

TEST_F(Screen, AFullDiskIsNoticed) {
    for (const auto& each : all()) fails(each, " > /dev/full", "No space left on device");
}

TEST_F(Screen, AClosedOutputIsNoticedAndNoFileTakesItsPlace) {
    for (const auto& each : all()) fails(each, " >&-", "Bad file descriptor");
    EXPECT_EQ(shell("('" + program + "' survey new fresh.toml >&-)", folder).status, 1);
    EXPECT_EQ(bankwright("survey check fresh.toml").status, 0);
}

TEST_F(Screen, AFileThatMayNotGrowIsNoticed) {
    const auto ran =
        shell("(ulimit -f 20; '" + program + "' design " + example("sports-hall") + " --json > result.json)", folder);
    EXPECT_EQ(ran.status, 1);
    EXPECT_EQ(ran.err, "standard output: cannot be written: File too large\n");
}

TEST_F(Screen, ADiskThatFillsAtAnyByteIsNoticed) {
    const auto disk = folder / "disk";
    fs::create_directory(disk);
    if (::mount("none", disk.c_str(), "tmpfs", 0, "size=1m") != 0) GTEST_SKIP() << "no disk of one's own to fill";
    const auto whole = bankwright("reckon").out;
    ASSERT_GT(whole.size(), 4096u);
    const auto pages = (whole.size() + 4095) / 4096;
    for (std::size_t free = 0; free <= pages; ++free) {
        fs::remove(disk / "out");
        write("disk/filling", std::string((256 - free) * 4096, 'x'));
        const auto ran = shell("('" + program + "' reckon > disk/out)", folder);
        EXPECT_EQ(text_of(disk / "out") == whole, free == pages) << free << " of " << pages << " pages";
        EXPECT_EQ(ran.status, free == pages ? 0 : 1) << free;
        EXPECT_EQ(ran.err, free == pages ? "" : "standard output: cannot be written: No space left on device\n");
    }
    ::umount(disk.c_str());
}

bool steers(const std::string& text) {
    for (std::size_t i = 0; i < text.size(); ++i) {
        const auto c = static_cast<unsigned char>(text[i]);
        if ((c < 0x20 && c != '\n') || c == 0x7f) return true;
        if (text.compare(i, 2, "\xc2\x9b") == 0 || text.compare(i, 3, "\xe2\x80\xae") == 0) return true;
    }
    return false;
}

TEST_F(Screen, NamesOfFilesAndArgumentsDoNotSteerTheTerminal) {
    const std::string nasty = "$'x\\e]0;y\\a\\x7f\\u009b\\u202e.toml'";
    const auto bash = [&](const std::string& arguments) {
        write("run.sh", "LC_ALL=C.UTF-8\n'" + program + "' " + arguments + "\n");
        return shell("bash run.sh", folder);
    };
    for (const auto& arguments : {"survey new " + nasty, "survey check " + nasty, "survey check missing" + nasty,
                                  "design " + nasty + " -o out" + nasty, "catalogue check " + nasty, "reckon " + nasty,
                                  "reckon water " + nasty + "=1", "--units " + nasty + " reckon", nasty,
                                  "--data " + nasty + " catalogue list"}) {
        SCOPED_TRACE(arguments);
        const auto ran = bash(arguments);
        EXPECT_FALSE(steers(ran.out)) << ran.out;
        EXPECT_FALSE(steers(ran.err)) << ran.err;
        EXPECT_FALSE(ran.out.empty() && ran.err.empty());
    }
}

TEST_F(Screen, OnlyTheWordsOfAChoiceAreTaken) {
    for (const auto* wrong : {"zz", "1", "0", "SI", ""}) {
        const auto ran = bankwright(std::string("--units '") + wrong + "' reckon");
        EXPECT_EQ(ran.status, 1) << wrong;
        EXPECT_EQ(ran.err, std::string("bankwright: --units: '") + wrong +
                               "' is not a choice here, expected us or si (bankwright --help lists the commands)\n");
    }
    const auto paper = bankwright("design x.toml --paper 0");
    EXPECT_NE(paper.err.find("--paper: '0' is not a choice here, expected a3, a4, tabloid or letter"),
              std::string::npos)
        << paper.err;
    EXPECT_EQ(bankwright("--units si reckon").status, 0);
    EXPECT_EQ(bankwright("reckon --units us").status, 0);
}

}  // namespace
}  // namespace bw::test
