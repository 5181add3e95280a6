// SPDX-License-Identifier: MIT
// A package appears whole or not at all, and nothing of the user's is taken for ours.
#include <fcntl.h>
#include <signal.h>
#include <sys/stat.h>

#include <chrono>
#include <set>
#include <thread>

#include "ran.h"

namespace bw::test {
namespace {

using namespace std::chrono_literals;

class Output : public Bench {
protected:
    Ran design(const std::string& where) { return bankwright("design " + example("sports-hall") + " -o " + where); }
    /// What stands in the folder besides what the shell left there.
    std::set<std::string> entries() {
        std::set<std::string> names;
        for (const auto& entry : fs::directory_iterator(folder)) names.insert(entry.path().filename());
        names.erase("stdout.txt"), names.erase("stderr.txt");
        return names;
    }
    std::set<std::string> package_of(const std::string& name) {
        std::set<std::string> names;
        for (const auto& entry : fs::directory_iterator(folder / name)) names.insert(entry.path().filename());
        return names;
    }
};

using Names = std::set<std::string>;

TEST_F(Output, FilesOfTheUsersAreNeverTakenForAPackage) {
    ASSERT_EQ(design("job").status, 0);
    write("job/sheet-holiday.svg", "mine");
    const auto refused = design("job");
    EXPECT_EQ(refused.status, 1);
    EXPECT_NE(refused.err.find("sheet-holiday.svg"), std::string::npos) << refused.err;
    EXPECT_EQ(text_of(folder / "job/sheet-holiday.svg"), "mine");
    EXPECT_TRUE(fs::exists(folder / "job/report.pdf"));
    EXPECT_EQ(entries(), Names({"job"}));

    fs::create_directories(folder / "mine/report.pdf");
    write("mine/report.pdf/letter.txt", "mine");
    EXPECT_EQ(design("mine").status, 1);
    EXPECT_EQ(text_of(folder / "mine/report.pdf/letter.txt"), "mine");

    fs::create_directories(folder / "older");
    write("older/report.pdf", "a report of somebody's");
    EXPECT_EQ(design("older").status, 1);
    EXPECT_EQ(text_of(folder / "older/report.pdf"), "a report of somebody's");
}

TEST_F(Output, ALinkIsNotReplacedByAFolder) {
    fs::create_directories(folder / "there");
    fs::create_directory_symlink("there", folder / "link");
    for (const auto* name : {"link", "link/"}) {
        const auto ran = design(name);
        EXPECT_EQ(ran.status, 1);
        EXPECT_NE(ran.err.find("it is a link, to `there`"), std::string::npos) << ran.err;
    }
    EXPECT_TRUE(fs::is_symlink(folder / "link"));
    EXPECT_TRUE(fs::is_empty(folder / "there"));
}

TEST_F(Output, NothingIsWrittenThroughWhatAnotherPlanted) {
    const auto precious = write("precious", "mine");
    const auto ran = shell("mkdir job.part-$$ && ln -s '" + precious.string() + "' job.part-$$/report.pdf && exec '" +
                               program + "' design " + example("sports-hall") + " -o job",
                           folder);
    EXPECT_EQ(ran.status, 0) << ran.err;
    EXPECT_EQ(text_of(precious), "mine");
}

TEST_F(Output, APackageHasTheRightsThatNewFoldersHave) {
    ASSERT_EQ(shell("umask 027; '" + program + "' design " + example("sports-hall") + " -o job", folder).status, 0);
    struct stat is {};
    ASSERT_EQ(::stat((folder / "job").c_str(), &is), 0);
    EXPECT_EQ(is.st_mode & 0777, 0750u);
    fs::permissions(folder / "job", fs::perms::owner_all);
    ASSERT_EQ(design("job").status, 0);
    ASSERT_EQ(::stat((folder / "job").c_str(), &is), 0);
    EXPECT_EQ(is.st_mode & 0777, 0700u) << "as the earlier one";
}

TEST_F(Output, WhatAKilledProgramLeftIsClearedByTheNext) {
    const auto left = folder / ".bankwright-unfinished-AbCdEf", mine = folder / ".bankwright-unfinished-GhIjKl";
    for (const auto& each : {left, mine}) {
        fs::create_directory(each);
        std::ofstream(each / ".bankwright-package") << "report.pdf\nplant.step\n";
        std::ofstream(each / "report.pdf") << "half";
    }
    std::ofstream(mine / "letter.txt") << "mine";
    ASSERT_EQ(design("job").status, 0);
    EXPECT_FALSE(fs::exists(left));
    EXPECT_TRUE(fs::exists(mine / "report.pdf"));
    EXPECT_EQ(entries(), Names({"job", mine.filename().string()}));
}

TEST_F(Output, AReadOnlyEarlierPackageIsKeptAndNothingLeft) {
    const auto as_nobody = ::geteuid() == 0 ? std::string("setpriv --reuid=65534 --clear-groups ") : "";
    fs::permissions(folder, fs::perms::all);
    const auto again = as_nobody + "'" + program + "' design " + example("sports-hall") + " -o job";
    ASSERT_EQ(shell(again, folder).status, 0);
    const auto before = package_of("job");
    ASSERT_EQ(shell(as_nobody + "chmod 0555 job", folder).status, 0);
    const auto ran = shell(again, folder);
    EXPECT_EQ(ran.status, 1);
    EXPECT_NE(ran.err.find("cannot be written: Permission denied"), std::string::npos) << ran.err;
    EXPECT_EQ(package_of("job"), before);
    EXPECT_EQ(entries(), Names({"job"}));
    fs::permissions(folder / "job", fs::perms::all);
}

TEST_F(Output, AFileThatMayNotGrowSoLargeIsAnErrorWithItsMessage) {
    const auto ran = shell("ulimit -f 20; '" + program + "' design " + example("sports-hall") + " -o job", folder);
    EXPECT_EQ(ran.status, 1);
    EXPECT_NE(ran.err.find("job: cannot be written: File too large"), std::string::npos) << ran.err;
    EXPECT_EQ(entries(), Names());
}

/// The program, started by itself so that it can be sent signals.
class Started {
public:
    Started(const fs::path& folder, const std::vector<std::string>& arguments) {
        child_ = ::fork();
        if (child_ != 0) return;
        if (::chdir(folder.c_str()) != 0) ::_exit(99);
        for (const int stream : {1, 2}) ::dup2(::open("/dev/null", O_WRONLY), stream);
        std::vector<char*> argv{const_cast<char*>(program.c_str())};
        for (const auto& argument : arguments) argv.push_back(const_cast<char*>(argument.c_str()));
        argv.push_back(nullptr);
        ::execv(program.c_str(), argv.data());
        ::_exit(99);
    }
    ~Started() {
        if (child_ > 0) ::kill(child_, SIGKILL), ::waitpid(child_, nullptr, 0);
    }
    void send(int signal) { ::kill(child_, signal); }
    bool ended() {
        if (child_ > 0 && ::waitpid(child_, &status, WNOHANG) == child_) child_ = 0;
        return child_ == 0;
    }
    bool ends_within(std::chrono::milliseconds time) {
        for (const auto last = std::chrono::steady_clock::now() + time; std::chrono::steady_clock::now() < last;) {
            if (ended()) return true;
            std::this_thread::sleep_for(1ms);
        }
        return ended();
    }
    int status = 0;

private:
    pid_t child_ = 0;
};

TEST_F(Output, ASignalLeavesTheWholePackageOrNothing) {
    const auto survey = (source / "examples/sports-hall.toml").string();
    for (const int signal : {SIGTERM, SIGINT, SIGHUP, SIGTERM}) {
        fs::remove_all(folder / "job");
        const auto before = entries();
        Started run(folder, {"design", survey, "-o", "job"});
        while (entries() == before && !run.ended()) std::this_thread::sleep_for(100us);
        for (const auto& entry : fs::directory_iterator(folder))
            if (entry.path().filename().string().starts_with(".bankwright")) {
                EXPECT_EQ(fs::status(entry.path()).permissions() & fs::perms(077), fs::perms::none) << entry.path();
            }
        run.send(signal);
        ASSERT_TRUE(run.ends_within(1000ms));
        const bool whole = fs::exists(folder / "job/result.json");
        EXPECT_TRUE(whole || (WIFSIGNALED(run.status) && WTERMSIG(run.status) == signal)) << run.status;
        EXPECT_EQ(entries(), whole ? Names({"job"}) : Names());
    }
}

TEST_F(Output, ASignalEndsADesignWithinASecondWhateverItDoes) {
    const auto survey = (source / "examples/hostel.toml").string();
    for (const auto after : {0ms, 20ms, 100ms, 400ms, 900ms, 1500ms}) {
        Started run(folder, {"design", survey, "-o", "job"});
        std::this_thread::sleep_for(after);
        run.send(SIGINT);
        EXPECT_TRUE(run.ends_within(1000ms)) << after.count() << " ms";
        fs::remove_all(folder / "job");
        EXPECT_EQ(entries(), Names());
    }
}

TEST_F(Output, ASignalThatIsToBeIgnoredIsIgnored) {
    const auto ran = shell(
        "trap '' INT; (sleep 0.3; kill -INT $$) & exec '" + program + "' design " + example("sports-hall") + " -o job",
        folder);
    EXPECT_EQ(ran.status, 0) << ran.err;
}

}  // namespace
}  // namespace bw::test
