// SPDX-License-Identifier: MIT
#include "jobs/store_file.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <filesystem>

#include "jobs/store.h"

namespace bw::jobs {
namespace {

using soci::into;

/// SQLite keeps it in the file's header (file format, section 1.3.17), so that a file tells whose it is.
constexpr long long application = 0x42776A62;  // "Bwjb"

constexpr std::array<const char*, 2> make_tables{
    "CREATE TABLE jobs (id TEXT PRIMARY KEY, name TEXT NOT NULL, created BIGINT NOT NULL, changed BIGINT NOT NULL,"
    " revision INTEGER NOT NULL, newest INTEGER NOT NULL, tip INTEGER NOT NULL, deleted INTEGER NOT NULL)",
    "CREATE TABLE revisions (job TEXT NOT NULL REFERENCES jobs(id), number INTEGER NOT NULL,"
    " previous INTEGER NOT NULL, saved BIGINT NOT NULL, text TEXT NOT NULL, PRIMARY KEY (job, number))",
};

constexpr std::size_t readers_at_once = 4;

void open_session(soci::session& sql, const std::string& file, std::string_view how) {
    sql.open(soci::sqlite3, fmt::format("db=\"{}\" {}", file, how));
}

void open_to_read(soci::session& sql, const std::string& file) {
    open_session(sql, file, fmt::format("timeout={} readonly=true", patience.count()));
}

struct Contents {
    long long application = 0, version = 0;
    std::vector<std::string> made;  ///< the statements that made what is in it

    [[nodiscard]] bool empty() const { return application == 0 && version == 0 && made.empty(); }
    [[nodiscard]] bool ours() const {
        return std::equal(made.begin(), made.end(), make_tables.begin(), make_tables.end());
    }
    /// Of a time when files were not signed.
    [[nodiscard]] bool unsigned_store() const { return application == 0 && version == 1 && ours(); }
};

Contents contents_of(soci::session& sql) {
    Contents out;
    sql << "PRAGMA application_id", into(out.application);
    sql << "PRAGMA user_version", into(out.version);
    std::string one;
    soci::statement all =
        (sql.prepare << "SELECT sql FROM sqlite_master WHERE sql IS NOT NULL ORDER BY name", into(one));
    for (all.execute(); all.fetch();) out.made.push_back(one);
    return out;
}

/// What is in the way of using the file, if anything.
Result<void> judged(const Contents& contents, const std::string& file) {
    if (contents.empty() || contents.unsigned_store()) return {};
    if (contents.application != application)
        return fail("the file belongs to another program, so it was left as it is", "another file by --jobs", {file});
    if (contents.version > store_version)
        return fail(
            fmt::format(
                "the file of jobs was written by a newer version of this program (layout {}, this one knows {})",
                contents.version, store_version),
            "that version, or another file by --jobs", {file});
    if (contents.version < 1 || !contents.ours()) return tl::unexpected(told(file, SQLITE_CORRUPT, Doing::reading));
    return {};
}

/// Folders that are missing, for the user alone.
void make_folders(const std::filesystem::path& folder) {
    std::error_code trouble;
    if (folder.empty() || std::filesystem::exists(folder, trouble)) return;
    make_folders(folder.parent_path());
    ::mkdir(folder.c_str(), S_IRWXU);
}

/// The file is there, made for the user alone where it was not, and may be written.
Result<void> made_ready(const std::string& file) {
    make_folders(std::filesystem::path(file).parent_path());
    const int made = ::open(file.c_str(), O_RDWR | O_CREAT | O_EXCL | O_CLOEXEC, S_IRUSR | S_IWUSR);
    if (made >= 0)
        ::close(made);
    else if (errno != EEXIST)
        return tl::unexpected(told(file, errno == ENOSPC ? SQLITE_FULL : SQLITE_CANTOPEN, Doing::writing));
    struct stat about {};
    if (::stat(file.c_str(), &about) != 0 || !S_ISREG(about.st_mode))
        return tl::unexpected(told(file, SQLITE_CANTOPEN, Doing::reading));
    if (::faccessat(AT_FDCWD, file.c_str(), W_OK, AT_EACCESS) != 0)
        return tl::unexpected(told(file, SQLITE_READONLY, Doing::reading));
    return {};
}

void begin_store(soci::session& sql) {
    sql << "BEGIN IMMEDIATE";
    if (contents_of(sql).empty()) {  // else another process was quicker
        for (const auto* table : make_tables) sql << table;
        sql << fmt::format("PRAGMA user_version = {}", store_version);
        sql << fmt::format("PRAGMA application_id = {}", application);
    }
    sql << "COMMIT";
}

void open_for_writing(soci::session& sql, const std::string& file, const Contents& contents) {
    open_session(sql, file, fmt::format("timeout={}", patience.count()));
    sql << "PRAGMA synchronous = FULL";
    if (contents.empty()) begin_store(sql);  // before there is a log, so that the tables are in the file itself
    std::string mode;
    sql << "PRAGMA journal_mode = WAL", into(mode);
    sql << "PRAGMA foreign_keys = ON";
    sql << "BEGIN IMMEDIATE";  // may it be written?
    if (contents.unsigned_store()) sql << fmt::format("PRAGMA application_id = {}", application);
    sql << "COMMIT";
    sql << "PRAGMA busy_timeout = 0";  // from now on who waits lets go of the connection meanwhile
}

}  // namespace

Error told(const std::string& file, int code, Doing doing) {
    const auto error = [&](std::string what, const char* next, bool saving = true) {
        if (saving && doing == Doing::writing) what += ", so nothing was saved";
        return Error{std::move(what), next, {file}};
    };
    switch (code & 0xFF) {
        case SQLITE_BUSY:
        case SQLITE_LOCKED:
            return error("the file of jobs is locked by another program", "the other program closed; then try again");
        case SQLITE_READONLY:
        case SQLITE_PERM:
        case SQLITE_AUTH: return error("the file of jobs may only be read", "leave to write the file and its folder");
        case SQLITE_FULL: return error("the disk is full", "some space on the disk; then try again");
        case SQLITE_IOERR:
            return error("the disk refuses, as where it is full or failing",
                         "some space on a sound disk; then try again");
        case SQLITE_CORRUPT:
        case SQLITE_NOTADB:
            return error("the file is no store of jobs, or it is damaged",
                         "another file by --jobs, or a copy from a backup", false);
        case SQLITE_CANTOPEN:
            return error("the file of jobs cannot be opened", "a path that may be written, by --jobs", false);
        default: return error("the file of jobs does not answer", "the program started again", false);
    }
}

Result<void> open_file(const std::string& file, soci::session& sql) {
    if (file.empty() || file.find_first_of("'\"") != std::string::npos || file.starts_with(":memory:") ||
        file.starts_with("file:"))
        return fail("the file of jobs has a name that cannot be used", "a path without quotes", {file});
    if (auto ok = made_ready(file); !ok) return ok;
    const auto contents = attempted(file, Doing::reading, [&] {
        soci::session looking;
        open_to_read(looking, file);
        return contents_of(looking);
    });
    if (!contents) return tl::unexpected(contents.error());
    if (auto ok = judged(*contents, file); !ok) return ok;
    const auto opened = attempted(file, Doing::writing, [&] {
        open_for_writing(sql, file, *contents);
        return true;
    });
    if (!opened) return tl::unexpected(opened.error());
    return {};
}

std::pair<Identity::About, Identity::About> Identity::look() const {
    const auto about = [](const std::string& path) {
        struct stat found {};
        return ::stat(path.c_str(), &found) == 0 ? About{true, found.st_dev, found.st_ino} : About{};
    };
    return {about(file_), about(file_ + "-wal")};
}

Result<void> Readers::open() {
    const auto made = attempted(file_, Doing::reading, [&] {
        while (idle_.size() < readers_at_once) {
            auto& sql = *idle_.emplace_back(std::make_unique<soci::session>());
            open_to_read(sql, file_);
            (void)contents_of(sql);  // finds the log now
        }
        return true;
    });
    if (!made) return tl::unexpected(made.error());
    return {};
}

std::unique_ptr<soci::session> Readers::take() {
    std::unique_lock lock(mutex_);
    free_.wait(lock, [this] { return !idle_.empty(); });
    auto session = std::move(idle_.back());
    idle_.pop_back();
    return session;
}

void Readers::give(std::unique_ptr<soci::session> session) {
    {
        const std::lock_guard lock(mutex_);
        idle_.push_back(std::move(session));
    }
    free_.notify_one();
}

}  // namespace bw::jobs
