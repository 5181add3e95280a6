// SPDX-License-Identifier: MIT
// The store keeps what it said it kept, whatever happens to the process or the disk.
#include <fcntl.h>
#include <fmt/format.h>
#include <gtest/gtest.h>
#include <signal.h>
#include <sys/mount.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <filesystem>
#include <fstream>
#include <random>
#include <sstream>
#include <thread>

#include "jobs/store.h"
#include "jobs/store_file.h"
#include "units/error.h"

namespace {

using namespace bw;  // NOLINT
using jobs::Store;
namespace fs = std::filesystem;

class Stores : public testing::Test {
protected:
    fs::path folder = fs::temp_directory_path() / ("bankwright-jobs-" + std::to_string(::getpid()));
    std::string file = (folder / "deeper" / "jobs.db").string();
    void SetUp() override { fs::create_directories(folder); }
    void TearDown() override { fs::remove_all(folder); }

    std::unique_ptr<Store> open() {
        auto store = Store::open(file);
        EXPECT_TRUE(store) << (store ? "" : units::describe(store.error()));
        return store ? std::move(*store) : nullptr;
    }
    std::string why_not() {
        const auto store = Store::open(file);
        return store ? "" : store.error().what;
    }
    /// Runs in a process of its own; its exit status.
    template <class Do>
    int apart(Do what) {
        const auto child = ::fork();
        if (child == 0) ::_exit(what());
        int status = 0;
        ::waitpid(child, &status, 0);
        return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
    }
};

TEST_F(Stores, KeepsJobsOverItsEnd) {
    std::string id;
    {
        const auto store = open();
        const auto job = store->create("Häuser \"x\"; DROP TABLE jobs", "text 1\n'quoted'\n");
        ASSERT_TRUE(job);
        id = job->id;
        EXPECT_EQ((*store->save(id, 1, "text 2"))->revision, 2);
    }
    const auto store = open();
    const auto job = *store->job(id);
    ASSERT_TRUE(job);
    EXPECT_EQ(job->name, "Häuser \"x\"; DROP TABLE jobs");
    EXPECT_EQ(job->revision, 2);
    EXPECT_EQ(**store->text(id, 1), "text 1\n'quoted'\n");
    EXPECT_EQ(**store->text(id, 2), "text 2");
    EXPECT_FALSE(*store->text(id, 3));
    EXPECT_EQ(store->list()->jobs.size(), 1u);
    EXPECT_FALSE(*store->job("nobody"));
}

TEST_F(Stores, UndoAndRedoWalkWhatWasSaved) {
    const auto store = open();
    const auto id = store->create("job", "1")->id;
    EXPECT_FALSE((*store->job(id))->can_undo);
    EXPECT_FALSE(*store->undo(id));
    for (int i = 1; i < 4; ++i) ASSERT_TRUE(*store->save(id, i, std::to_string(i + 1)));
    EXPECT_EQ((*store->undo(id))->revision, 3);
    auto job = *store->undo(id);
    EXPECT_EQ(job->revision, 2);
    EXPECT_TRUE(job->can_redo && job->can_undo);
    EXPECT_EQ((*store->redo(id))->revision, 3);
    EXPECT_EQ((*store->undo(id))->revision, 2);
    // another way from here: what was undone is no longer ahead, but still there
    job = *store->save(id, 2, "another");
    EXPECT_EQ(job->revision, 5);
    EXPECT_FALSE(job->can_redo);
    EXPECT_FALSE(*store->redo(id));
    EXPECT_EQ((*store->undo(id))->revision, 2);
    EXPECT_EQ((*store->redo(id))->revision, 5);
    EXPECT_EQ(**store->text(id, 4), "4");
}

TEST_F(Stores, AnEditOfAnOldRevisionIsNotKept) {
    const auto store = open();
    const auto id = store->create("job", "1")->id;
    ASSERT_TRUE(*store->save(id, 1, "2"));
    EXPECT_FALSE(*store->save(id, 1, "other"));
    EXPECT_FALSE(*store->save("nobody", 1, "2"));
    EXPECT_EQ((*store->job(id))->newest, 2);
}

TEST_F(Stores, ADeletedJobComesBackWhole) {
    const auto store = open();
    const auto id = store->create("job", "1")->id;
    ASSERT_TRUE(*store->save(id, 1, "2"));
    EXPECT_TRUE((*store->mark_deleted(id, true))->deleted);
    EXPECT_FALSE(*store->save(id, 2, "3"));
    EXPECT_FALSE(*store->undo(id));
    EXPECT_FALSE((*store->mark_deleted(id, false))->deleted);
    EXPECT_EQ(**store->text(id, 2), "2");
    EXPECT_TRUE(*store->undo(id));
}

TEST_F(Stores, KilledAtAnyMomentItLosesNothing) {
    constexpr int saves = 300, rounds = 4;
    std::mt19937 chance(std::random_device{}());
    int kept = 0;
    for (int round = 0; round < rounds; ++round) {
        int pipe[2];
        ASSERT_EQ(::pipe(pipe), 0);
        const auto id = open()->create("job", "text 1")->id;
        const auto child = ::fork();
        if (child == 0) {
            auto store = Store::open(file);
            if (!store) ::_exit(1);
            for (int i = 1; i < saves; ++i) {
                const auto job = (*store)->save(id, i, "text " + std::to_string(i + 1));
                if (!job || !*job || ::write(pipe[1], &i, sizeof i) != sizeof i) ::_exit(2);
            }
            ::_exit(0);
        }
        ::close(pipe[1]);
        const int last = round + 1 == rounds ? saves : static_cast<int>(chance() % saves);
        int told = 0, count = 0;
        while (count < last && ::read(pipe[0], &told, sizeof told) == sizeof told) ++count;
        ::kill(child, SIGKILL);
        while (::read(pipe[0], &told, sizeof told) == sizeof told) ++count;  // told before it died
        ::close(pipe[0]);
        ::waitpid(child, nullptr, 0);
        const auto store = open();
        const auto job = *store->job(id);
        ASSERT_GE(job->revision, count + 1);
        for (int i = 1; i <= job->revision; ++i) EXPECT_EQ(**store->text(id, i), "text " + std::to_string(i));
        kept += count;
    }
    EXPECT_GE(kept, saves - 1);
}

TEST_F(Stores, TwoProgramsShareOneFile) {
    const auto one = open(), two = open();
    const auto id = one->create("job", "1")->id;
    ASSERT_TRUE(*two->save(id, 1, "2"));
    EXPECT_FALSE(*one->save(id, 1, "other"));
    EXPECT_EQ((*one->job(id))->revision, 2);
}

TEST_F(Stores, ANewerFileIsLeftAlone) {
    open();
    std::fstream bytes(file, std::ios::in | std::ios::out | std::ios::binary);
    bytes.seekp(60);  // user_version, by SQLite's file format, section 1.3
    bytes.write("\0\0\0\x09", 4);
    bytes.close();
    EXPECT_NE(why_not().find("written by a newer version"), std::string::npos) << why_not();
}

TEST_F(Stores, WhatIsNoStoreIsSaidSo) {
    fs::create_directories(fs::path(file).parent_path());
    std::ofstream(file) << std::string(5000, 'x');
    EXPECT_NE(why_not().find("no store of jobs"), std::string::npos) << why_not();
    fs::remove(file);
    fs::create_directories(file);
    EXPECT_NE(why_not().find("cannot be opened"), std::string::npos) << why_not();
    file = "/proc/nowhere/jobs.db";
    EXPECT_NE(why_not(), "");
}

TEST_F(Stores, AFileThatMayOnlyBeReadIsSaidSo) {
    open();
    const auto status = apart([&] {
        // as nobody, since the superuser may write whatever it is told
        fs::permissions(folder, fs::perms::owner_all | fs::perms::group_read | fs::perms::group_exec |
                                    fs::perms::others_read | fs::perms::others_exec);
        fs::permissions(file, fs::perms::owner_read | fs::perms::group_read | fs::perms::others_read);
        fs::permissions(fs::path(file).parent_path(), fs::perms::owner_read | fs::perms::owner_exec |
                                                          fs::perms::group_read | fs::perms::group_exec |
                                                          fs::perms::others_read | fs::perms::others_exec);
        if (::geteuid() == 0 && ::seteuid(65534) != 0) return 3;
        const auto why = why_not();
        return why.find("may only be read") != std::string::npos || why.find("cannot be opened") != std::string::npos
                   ? 0
                   : 1;
    });
    fs::permissions(fs::path(file).parent_path(), fs::perms::owner_all);
    EXPECT_EQ(status, 0);
}

TEST_F(Stores, AFileAnotherHoldsIsSaidSo) {
    const auto store = open();
    int pipe[2], done[2];
    ASSERT_EQ(::pipe(pipe), 0);
    ASSERT_EQ(::pipe(done), 0);
    const auto child = ::fork();
    if (child == 0) {
        // takes SQLite's write lock of the -shm file's first lock byte, as a writer does (WAL-index format,
        // section 2.3)
        const auto path = file + "-shm";
        FILE* shared = std::fopen(path.c_str(), "r+b");
        struct flock lock {};
        lock.l_type = F_WRLCK, lock.l_whence = SEEK_SET, lock.l_start = 120, lock.l_len = 1;
        char byte = shared != nullptr && ::fcntl(::fileno(shared), F_SETLK, &lock) == 0 ? 'y' : 'n';
        if (::write(pipe[1], &byte, 1) != 1 || ::read(done[0], &byte, 1) < 0) ::_exit(1);
        ::_exit(0);
    }
    char byte = 0;
    ASSERT_EQ(::read(pipe[0], &byte, 1), 1);
    ASSERT_EQ(byte, 'y');
    const auto job = store->create("job", "1");
    ASSERT_FALSE(job);
    EXPECT_NE(job.error().what.find("locked"), std::string::npos) << job.error().what;
    ASSERT_EQ(::write(done[1], &byte, 1), 1);
    ::waitpid(child, nullptr, 0);
    EXPECT_TRUE(store->create("job", "1"));
}

TEST_F(Stores, AFullDiskLosesNothingThatWasKept) {
    const auto small = folder / "small";
    fs::create_directories(small);
    if (::mount("none", small.c_str(), "tmpfs", 0, "size=400k") != 0) GTEST_SKIP() << "no small disk can be made here";
    file = (small / "jobs.db").string();
    std::string why;
    int saved = 0;
    {
        const auto store = open();
        const auto id = store->create("job", "1")->id;
        for (saved = 1; saved < 100; ++saved) {
            const auto job = store->save(id, saved, std::string(10000, 'x'));
            if (job) continue;
            why = job.error().what;
            break;
        }
        EXPECT_EQ((*store->job(id))->revision, saved);
        EXPECT_EQ((**store->text(id, saved)).size(), saved == 1 ? 1u : 10000u);
    }
    ::umount2(small.c_str(), MNT_DETACH);
    EXPECT_NE(why.find("the disk is full"), std::string::npos) << why;
    EXPECT_GT(saved, 5);
}

std::string bytes_of(const std::string& path) {
    std::ostringstream out;
    out << std::ifstream(path, std::ios::binary).rdbuf();
    return std::move(out).str();
}

/// By another program, in one go.
void sql(const std::string& path, const std::vector<std::string>& statements) {
    soci::session other(soci::sqlite3, "db=" + path);
    for (const auto& statement : statements) other << statement;
}

TEST_F(Stores, AMovedOrRemovedFileTakesNoMoreEdits) {
    const auto store = open();
    const auto id = store->create("job", "1")->id;
    const auto refused = [&] {
        for (const auto& saved : {store->save(id, 1, "2"), store->rename(id, "x"), store->mark_deleted(id, true)}) {
            if (saved) return std::string();
            EXPECT_NE(saved.error().what.find("nothing was saved"), std::string::npos);
            if (saved.error().what.find("moved or removed") == std::string::npos) return saved.error().what;
        }
        return std::string(store->create("other", "1") ? "" : "moved");
    };
    for (const auto* which : {"", "-wal"}) {
        fs::rename(file + which, file + ".away");
        EXPECT_EQ(refused(), "moved") << which;
        EXPECT_EQ(**store->text(id, 1), "1") << "what is there can still be read and kept";
        std::ofstream(file + which) << "";
        EXPECT_EQ(refused(), "moved") << which;
        fs::rename(file + ".away", file + which);
    }
    EXPECT_EQ((*store->save(id, 1, "2"))->revision, 2) << "put back, it goes on";
    fs::remove(file);
    EXPECT_EQ(refused(), "moved");
}

TEST_F(Stores, AnotherProgramsFileIsLeftAsItIs) {
    fs::create_directories(fs::path(file).parent_path());
    const std::string ours = "CREATE TABLE jobs (id TEXT PRIMARY KEY, name TEXT)",
                      also = "CREATE TABLE revisions (job TEXT, number INTEGER)";
    for (const auto& made : std::vector<std::vector<std::string>>{
             {"CREATE TABLE songs (name TEXT)"},
             {"CREATE TABLE songs (name TEXT)", "PRAGMA user_version = 1"},
             {"CREATE TABLE songs (name TEXT)", "PRAGMA user_version = -1"},
             {"PRAGMA application_id = 77"},
             {"PRAGMA user_version = 3"},
             {ours, also, "PRAGMA user_version = 1"},
             {"PRAGMA journal_mode = WAL", "CREATE TABLE songs (name TEXT)", "PRAGMA user_version = 1"}}) {
        fs::remove(file);
        sql(file, made);
        const auto before = bytes_of(file);
        EXPECT_NE(why_not().find("another program"), std::string::npos) << made.back() << ": " << why_not();
        EXPECT_EQ(bytes_of(file), before) << made.back();
    }
}

TEST_F(Stores, AStoreOfBeforeIsTakenOver) {
    open();
    const auto id = [&] {
        soci::session other(soci::sqlite3, "db=" + file);
        long long value = 0;
        other << "PRAGMA application_id", soci::into(value);
        return value;
    };
    const auto own = id();
    EXPECT_NE(own, 0);
    sql(file, {"PRAGMA application_id = 0"});  // as the program wrote it before it signed its files
    const auto job = open()->create("job", "1");
    EXPECT_EQ(id(), own);
    EXPECT_EQ(**open()->text(job->id, 1), "1");
    sql(file, {"PRAGMA application_id = 0", "CREATE TABLE songs (name TEXT)"});
    EXPECT_NE(why_not().find("another program"), std::string::npos) << why_not();
    sql(file, {fmt::format("PRAGMA application_id = {}", own), "DROP TABLE revisions"});
    EXPECT_NE(why_not().find("no store of jobs"), std::string::npos) << why_not();
}

TEST_F(Stores, NobodyElseMayReadIt) {
    ::umask(022);
    const auto store = open();
    ASSERT_TRUE(store->create("job", "1"));
    const auto mode = [](const std::string& path) {
        struct stat about {};
        return ::stat(path.c_str(), &about) == 0 ? about.st_mode & 0777U : 0U;
    };
    EXPECT_EQ(mode(fs::path(file).parent_path().string()), 0700U);
    for (const auto* which : {"", "-wal", "-shm"}) EXPECT_EQ(mode(file + which), 0600U) << which;
}

TEST_F(Stores, MemoryIsNoFile) {
    for (const auto* name : {":memory:", "", "file::memory:", "file:x?mode=memory"}) {
        file = name;
        EXPECT_NE(why_not().find("a name that cannot be used"), std::string::npos) << name << why_not();
    }
}

TEST_F(Stores, AReadOnlyFileInAWritableFolderIsToldAtTheStart) {
    open();
    const auto status = apart([&] {
        const auto inner = fs::path(file).parent_path();
        fs::permissions(file, fs::perms::owner_read | fs::perms::group_read | fs::perms::others_read);
        fs::permissions(folder, fs::perms::all), fs::permissions(inner, fs::perms::all);
        if (::geteuid() == 0 && ::seteuid(65534) != 0) return 3;
        return why_not().find("may only be read") != std::string::npos ? 0 : 1;
    });
    EXPECT_EQ(status, 0);
}

/// The page of the file in which a text stands, filled with zeros.
void damage(const std::string& file, const std::string& text) {
    const auto bytes = bytes_of(file);
    const auto at = bytes.find(text);
    ASSERT_NE(at, std::string::npos);
    std::fstream out(file, std::ios::in | std::ios::out | std::ios::binary);
    out.seekp(static_cast<std::streamoff>(at / 4096 * 4096));
    out << std::string(4096, '\0');
}

TEST_F(Stores, ADamagedPageHidesNoOtherJob) {
    {
        const auto store = open();
        for (int i = 0; i < 300; ++i)
            ASSERT_TRUE(
                store->create("name " + std::to_string(i), "text " + std::to_string(i) + std::string(500, '.')));
    }
    damage(file, "text 150.");
    {
        const auto listed = open()->list();
        ASSERT_TRUE(listed) << listed.error().what;
        EXPECT_EQ(listed->jobs.size(), 300u) << "texts are not needed for it";
        EXPECT_TRUE(listed->whole);
    }
    damage(file, "name 150");
    const auto store = open();
    const auto listed = store->list();
    ASSERT_TRUE(listed) << listed.error().what;
    EXPECT_FALSE(listed->whole);
    EXPECT_GT(listed->jobs.size(), 150u);
    EXPECT_LT(listed->jobs.size(), 300u);
    for (std::size_t i = 1; i < listed->jobs.size(); ++i)
        EXPECT_GE(listed->jobs[i - 1].changed, listed->jobs[i].changed);
}

TEST_F(Stores, AtItsEndTheOneFileHoldsEverything) {
    std::string id;
    soci::session other;
    {
        const auto store = open();
        other.open(soci::sqlite3, "db=" + file);  // by which the log stays
        int count = 0;
        other << "SELECT COUNT(*) FROM jobs", soci::into(count);
        id = store->create("job", "1")->id;
        ASSERT_TRUE(*store->save(id, 1, "2"));
    }
    fs::copy_file(file, file + ".copy");
    file += ".copy";
    EXPECT_EQ(**open()->text(id, 2), "2");
}

TEST_F(Stores, ANewFileHoldsItsTablesWithoutItsLog) {
    const auto store = open();
    EXPECT_NE(bytes_of(file).find("CREATE TABLE revisions"), std::string::npos);
}

TEST_F(Stores, AnotherProgramsLockHoldsNoReader) {
    const auto store = open();
    const auto id = store->create("job", "1")->id;
    soci::session other(soci::sqlite3, "db=" + file);
    other << "BEGIN IMMEDIATE";
    const auto begin = std::chrono::steady_clock::now();
    std::vector<std::thread> writers;
    for (int i = 0; i < 4; ++i)
        writers.emplace_back([&] {
            const auto saved = store->save(id, 1, "2");
            ASSERT_FALSE(saved);
            EXPECT_NE(saved.error().what.find("locked by another program, so nothing was saved"), std::string::npos);
        });
    std::this_thread::sleep_for(std::chrono::milliseconds(100));
    for (int i = 0; i < 10; ++i) EXPECT_EQ(**store->text(id, 1), "1");
    EXPECT_EQ(store->list()->jobs.size(), 1u);
    EXPECT_LT(std::chrono::steady_clock::now() - begin, std::chrono::seconds(1));
    for (auto& writer : writers) writer.join();
    EXPECT_LT(std::chrono::steady_clock::now() - begin, std::chrono::seconds(5));
    other << "ROLLBACK";
    EXPECT_TRUE(*store->save(id, 1, "2"));
}

TEST_F(Stores, AReadersTroubleDoesNotSpeakOfSaving) {
    for (const int code : {SQLITE_BUSY, SQLITE_READONLY, SQLITE_FULL, SQLITE_IOERR, SQLITE_CORRUPT, SQLITE_ERROR}) {
        EXPECT_EQ(jobs::told(file, code, jobs::Doing::reading).what.find("saved"), std::string::npos) << code;
        EXPECT_FALSE(jobs::told(file, code, jobs::Doing::writing).expected.empty());
    }
    EXPECT_NE(jobs::told(file, SQLITE_BUSY, jobs::Doing::writing).what.find("nothing was saved"), std::string::npos);
}

TEST_F(Stores, ANameIsKeptWithoutControlCharacters) {
    const auto store = open();
    const auto job = store->create("\x1b]0;x\x07 a\tb\xc2\x9b\x7f ", "1");
    EXPECT_EQ(job->name, "]0;x a b");
    EXPECT_EQ((*store->rename(job->id, "\xc3\xbc\n\x01"))->name, "\xc3\xbc");
}

TEST_F(Stores, TheUsualFileFollowsTheDesktop) {
    ::setenv("XDG_DATA_HOME", "/somewhere/data", 1);
    EXPECT_EQ(*jobs::usual_file(), "/somewhere/data/bankwright/jobs.db");
    ::setenv("XDG_DATA_HOME", "relative", 1);  // to be ignored, by the base directory specification 0.8
    ::setenv("HOME", "/home/someone", 1);
    EXPECT_EQ(*jobs::usual_file(), "/home/someone/.local/share/bankwright/jobs.db");
    ::unsetenv("XDG_DATA_HOME"), ::unsetenv("HOME");
    EXPECT_FALSE(jobs::usual_file());
}

}  // namespace
