// SPDX-License-Identifier: MIT
#include "jobs/store.h"

#include <fmt/format.h>
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wconversion"
#pragma GCC diagnostic ignored "-Wshadow"
#pragma GCC diagnostic ignored "-Wold-style-cast"
#pragma GCC diagnostic ignored "-Wpedantic"
#include <soci/soci.h>
#include <soci/sqlite3/soci-sqlite3.h>
#pragma GCC diagnostic pop

#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <mutex>
#include <random>

namespace bw::jobs {
namespace {

using soci::into;
using soci::use;

constexpr auto make_tables = {
    "CREATE TABLE jobs (id TEXT PRIMARY KEY, name TEXT NOT NULL, created BIGINT NOT NULL, changed BIGINT NOT NULL,"
    " revision INTEGER NOT NULL, newest INTEGER NOT NULL, tip INTEGER NOT NULL, deleted INTEGER NOT NULL)",
    "CREATE TABLE revisions (job TEXT NOT NULL REFERENCES jobs(id), number INTEGER NOT NULL,"
    " previous INTEGER NOT NULL, saved BIGINT NOT NULL, text TEXT NOT NULL, PRIMARY KEY (job, number))",
};

std::int64_t now() {
    using namespace std::chrono;
    return duration_cast<milliseconds>(system_clock::now().time_since_epoch()).count();
}

std::string fresh_id() {
    constexpr std::string_view letters = "abcdefghjkmnpqrstvwxyz0123456789";  // none that is mistaken for another
    std::random_device chance;
    std::string id;
    for (int i = 0; i < 10; ++i) id += letters[chance() % letters.size()];
    return id;
}

/// What went wrong, for the person at the page.
Error told(const std::string& file, int code) {
    const auto error = [&](const char* what, const char* next) { return Error{what, next, {file}}; };
    switch (code & 0xFF) {
        case SQLITE_BUSY:
        case SQLITE_LOCKED:
            return error("the file of jobs is locked by another program, so nothing was saved",
                         "the other program closed; then try again");
        case SQLITE_READONLY:
        case SQLITE_PERM:
        case SQLITE_AUTH:
            return error("the file of jobs may only be read, so nothing was saved",
                         "leave to write the file and its folder");
        case SQLITE_FULL:
            return error("the disk is full, so nothing was saved", "some space on the disk; then try again");
        case SQLITE_IOERR:
            return error("the disk refuses, so nothing was saved: it may be full or failing",
                         "some space on a sound disk; then try again");
        case SQLITE_CORRUPT:
        case SQLITE_NOTADB:
            return error("the file is no store of jobs, or it is damaged",
                         "another file by --jobs, or a copy from a backup");
        case SQLITE_CANTOPEN:
            return error("the file of jobs cannot be opened", "a path that may be written, by --jobs");
        default: return error("the file of jobs does not answer", "the program started again");
    }
}

/// BEGIN IMMEDIATE to COMMIT; rolled back where it is not committed.
class Transaction {
public:
    explicit Transaction(soci::session& sql) : sql_(sql) { sql_ << "BEGIN IMMEDIATE"; }
    Transaction(const Transaction&) = delete;
    Transaction& operator=(const Transaction&) = delete;
    ~Transaction() {
        if (done_) return;
        try {
            sql_ << "ROLLBACK";
        } catch (const std::exception&) {  // the store has rolled back by itself
        }
    }
    void commit() {
        sql_ << "COMMIT";
        done_ = true;
    }

private:
    soci::session& sql_;
    bool done_ = false;
};

}  // namespace

struct Store::Inside {
    std::string file;
    std::mutex mutex;
    soci::session sql;

    /// Runs with the store to itself; trouble of the file becomes an error.
    template <class Do>
    auto alone(Do what) -> Result<decltype(what())> {
        const std::lock_guard lock(mutex);
        try {
            return what();
        } catch (const soci::sqlite3_soci_error& trouble) {
            return tl::unexpected(told(file, trouble.result()));
        } catch (const soci::soci_error&) {
            return tl::unexpected(told(file, SQLITE_ERROR));
        }
    }

    std::optional<Job> job(const std::string& id, int* tip = nullptr) {
        Job job;
        int deleted = 0, latest = 0, previous = 0;
        long long created = 0, changed = 0;
        sql << "SELECT j.id, j.name, j.created, j.changed, j.revision, j.newest, j.tip, j.deleted, r.previous"
               " FROM jobs j JOIN revisions r ON r.job = j.id AND r.number = j.revision WHERE j.id = :id",
            use(id), into(job.id), into(job.name), into(created), into(changed), into(job.revision), into(job.newest),
            into(latest), into(deleted), into(previous);
        if (!sql.got_data()) return std::nullopt;
        job.created = created, job.changed = changed, job.deleted = deleted != 0;
        job.can_undo = previous > 0, job.can_redo = latest != job.revision;
        if (tip != nullptr) *tip = latest;
        return job;
    }

    void add_revision(const std::string& id, int number, int previous, const std::string& text) {
        const long long saved = now();
        sql << "INSERT INTO revisions (job, number, previous, saved, text) VALUES (:j, :n, :p, :s, :t)", use(id),
            use(number), use(previous), use(saved), use(text);
    }

    void move_to(const std::string& id, int revision) {
        const long long changed = now();
        sql << "UPDATE jobs SET revision = :r, changed = :c WHERE id = :id", use(revision), use(changed), use(id);
    }
};

Store::Store() : inside_(std::make_unique<Inside>()) {}
Store::~Store() = default;

Result<std::unique_ptr<Store>> Store::open(const std::string& file) {
    std::error_code trouble;
    const auto folder = std::filesystem::path(file).parent_path();
    if (!folder.empty()) std::filesystem::create_directories(folder, trouble);
    if (file.find_first_of("'\"") != std::string::npos || file.empty())
        return fail("the file of jobs has a name that cannot be used", "a path without quotes", {file});
    std::unique_ptr<Store> store(new Store);
    auto& in = *store->inside_;
    in.file = file;
    int version = 0;
    const auto opened = in.alone([&] {
        in.sql.open(soci::sqlite3, fmt::format("db=\"{}\" timeout=3", file));
        in.sql << "PRAGMA user_version", into(version);
        std::string mode;
        if (version <= store_version) in.sql << "PRAGMA journal_mode = WAL", into(mode);
        in.sql << "PRAGMA synchronous = FULL";
        in.sql << "PRAGMA foreign_keys = ON";
        if (version == 0) {
            Transaction transaction(in.sql);
            in.sql << "PRAGMA user_version", into(version);  // another process may have been quicker
            if (version == 0) {
                for (const auto* table : make_tables) in.sql << table;
                in.sql << fmt::format("PRAGMA user_version = {}", store_version);
            }
            transaction.commit();
        } else if (version == store_version) {
            Transaction(in.sql).commit();  // may it be written?
        }
        return true;
    });
    if (!opened) return tl::unexpected(opened.error());
    if (version > store_version)
        return fail(
            fmt::format(
                "the file of jobs was written by a newer version of this program (layout {}, this one knows {})",
                version, store_version),
            "that version, or another file by --jobs", {file});
    return store;
}

Result<std::vector<Job>> Store::list() {
    return inside_->alone([&] {
        std::vector<std::string> ids(1000);
        std::vector<Job> out;
        int count = 0;
        inside_->sql << "SELECT COUNT(*) FROM jobs", into(count);
        if (count == 0) return out;
        ids.resize(static_cast<std::size_t>(count));
        inside_->sql << "SELECT id FROM jobs ORDER BY changed DESC, id", into(ids);
        for (const auto& id : ids)
            if (auto job = inside_->job(id)) out.push_back(std::move(*job));
        return out;
    });
}

Result<std::optional<Job>> Store::job(const std::string& id) {
    return inside_->alone([&] { return inside_->job(id); });
}

Result<std::optional<std::string>> Store::text(const std::string& id, int revision) {
    return inside_->alone([&]() -> std::optional<std::string> {
        std::string text;
        inside_->sql << "SELECT text FROM revisions WHERE job = :j AND number = :n", use(id), use(revision), into(text);
        return inside_->sql.got_data() ? std::optional(text) : std::nullopt;
    });
}

Result<Job> Store::create(const std::string& name, const std::string& text) {
    return inside_->alone([&] {
        const auto id = fresh_id();
        const long long created = now();
        Transaction transaction(inside_->sql);
        inside_->sql << "INSERT INTO jobs (id, name, created, changed, revision, newest, tip, deleted)"
                        " VALUES (:i, :n, :c, :h, 1, 1, 1, 0)",
            use(id), use(name), use(created), use(created);
        inside_->add_revision(id, 1, 0, text);
        auto job = inside_->job(id);
        transaction.commit();
        return *job;
    });
}

Result<std::optional<Job>> Store::save(const std::string& id, int on, const std::string& text) {
    return inside_->alone([&]() -> std::optional<Job> {
        Transaction transaction(inside_->sql);
        const auto before = inside_->job(id);
        if (!before || before->deleted || before->revision != on) return std::nullopt;
        const int number = before->newest + 1;
        const long long changed = now();
        inside_->add_revision(id, number, on, text);
        inside_->sql << "UPDATE jobs SET revision = :r, newest = :n, tip = :t, changed = :c WHERE id = :id",
            use(number), use(number), use(number), use(changed), use(id);
        auto job = inside_->job(id);
        transaction.commit();
        return job;
    });
}

Result<std::optional<Job>> Store::undo(const std::string& id) {
    return inside_->alone([&]() -> std::optional<Job> {
        Transaction transaction(inside_->sql);
        const auto before = inside_->job(id);
        if (!before || before->deleted || !before->can_undo) return std::nullopt;
        int previous = 0;
        inside_->sql << "SELECT previous FROM revisions WHERE job = :j AND number = :n", use(id), use(before->revision),
            into(previous);
        inside_->move_to(id, previous);
        auto job = inside_->job(id);
        transaction.commit();
        return job;
    });
}

Result<std::optional<Job>> Store::redo(const std::string& id) {
    return inside_->alone([&]() -> std::optional<Job> {
        Transaction transaction(inside_->sql);
        int tip = 0, next = 0;
        const auto before = inside_->job(id, &tip);
        if (!before || before->deleted || !before->can_redo) return std::nullopt;
        inside_->sql << "WITH RECURSIVE way(number, previous) AS ("
                        " SELECT number, previous FROM revisions WHERE job = :a AND number = :t"
                        " UNION ALL SELECT r.number, r.previous FROM revisions r JOIN way w ON r.number = w.previous"
                        " WHERE r.job = :b) SELECT number FROM way WHERE previous = :p",
            use(id), use(tip), use(id), use(before->revision), into(next);
        if (!inside_->sql.got_data()) return std::nullopt;
        inside_->move_to(id, next);
        auto job = inside_->job(id);
        transaction.commit();
        return job;
    });
}

Result<std::optional<Job>> Store::rename(const std::string& id, const std::string& name) {
    return inside_->alone([&]() -> std::optional<Job> {
        Transaction transaction(inside_->sql);
        const auto before = inside_->job(id);
        if (!before || before->deleted) return std::nullopt;
        const long long changed = now();
        inside_->sql << "UPDATE jobs SET name = :n, changed = :c WHERE id = :id", use(name), use(changed), use(id);
        auto job = inside_->job(id);
        transaction.commit();
        return job;
    });
}

Result<std::optional<Job>> Store::mark_deleted(const std::string& id, bool deleted) {
    return inside_->alone([&]() -> std::optional<Job> {
        Transaction transaction(inside_->sql);
        if (!inside_->job(id)) return std::nullopt;
        const long long changed = now();
        const int flag = deleted ? 1 : 0;
        inside_->sql << "UPDATE jobs SET deleted = :d, changed = :c WHERE id = :id", use(flag), use(changed), use(id);
        auto job = inside_->job(id);
        transaction.commit();
        return job;
    });
}

Result<std::string> usual_file() {
    const auto named = [](const char* variable) -> std::string {
        const char* value = std::getenv(variable);  // NOLINT(concurrency-mt-unsafe)
        return value != nullptr && value[0] == '/' ? value : "";
    };
    if (const auto data = named("XDG_DATA_HOME"); !data.empty()) return data + "/bankwright/jobs.db";
    if (const auto home = named("HOME"); !home.empty()) return home + "/.local/share/bankwright/jobs.db";
    return fail("there is no folder to keep jobs in: neither XDG_DATA_HOME nor HOME is set", "a file by --jobs");
}

}  // namespace bw::jobs
