// SPDX-License-Identifier: MIT
#include "jobs/store.h"

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <random>
#include <set>
#include <thread>

#include "jobs/store_file.h"

namespace bw::jobs {
namespace {

using soci::into;
using soci::session;
using soci::use;
using Clock = std::chrono::steady_clock;

constexpr std::size_t longest_name = 400;
constexpr auto between_tries = std::chrono::milliseconds(10);

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

/// BEGIN IMMEDIATE to COMMIT; rolled back where it is not committed.
class Transaction {
public:
    explicit Transaction(session& sql) : sql_(sql) { sql_ << "BEGIN IMMEDIATE"; }
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
    session& sql_;
    bool done_ = false;
};

/// The job as its row has it; `tip` is where redo leads.
std::optional<Job> row_of(session& sql, const std::string& id, int* tip = nullptr) {
    Job job;
    int deleted = 0, latest = 0;
    long long created = 0, changed = 0;
    sql << "SELECT id, name, created, changed, revision, newest, tip, deleted FROM jobs WHERE id = :id", use(id),
        into(job.id), into(job.name), into(created), into(changed), into(job.revision), into(job.newest), into(latest),
        into(deleted);
    if (!sql.got_data()) return std::nullopt;
    job.created = created, job.changed = changed, job.deleted = deleted != 0, job.can_redo = latest != job.revision;
    if (tip != nullptr) *tip = latest;
    return job;
}

int previous_of(session& sql, const std::string& id, int revision) {
    int previous = 0;
    sql << "SELECT previous FROM revisions WHERE job = :j AND number = :n", use(id), use(revision), into(previous);
    return previous;
}

std::optional<Job> job_of(session& sql, const std::string& id, int* tip = nullptr) {
    auto job = row_of(sql, id, tip);
    if (job) job->can_undo = previous_of(sql, id, job->revision) > 0;
    return job;
}

void add_revision(session& sql, const std::string& id, int number, int previous, const std::string& text) {
    const long long saved = now();
    sql << "INSERT INTO revisions (job, number, previous, saved, text) VALUES (:j, :n, :p, :s, :t)", use(id),
        use(number), use(previous), use(saved), use(text);
}

std::optional<Job> moved_to(session& sql, const std::string& id, int revision) {
    const long long changed = now();
    sql << "UPDATE jobs SET revision = :r, changed = :c WHERE id = :id", use(revision), use(changed), use(id);
    return job_of(sql, id);
}

/// Adds what a query finds, up to where the file is damaged; whether it got to the end.
bool gather(session& sql, const char* query, std::set<std::string>& ids) {
    try {
        std::string id;
        soci::statement all = (sql.prepare << query, into(id));
        for (all.execute(); all.fetch();) ids.insert(id);
        return true;
    } catch (const soci::sqlite3_soci_error& trouble) {
        if ((trouble.result() & 0xFF) != SQLITE_CORRUPT) throw;
        return false;
    }
}

/// Where a page of the rows is damaged their index may still lead to the others, and the other way about.
Listed all_of(session& sql) {
    Listed out;
    std::set<std::string> ids;
    out.whole = gather(sql, "SELECT id FROM jobs NOT INDEXED", ids);
    if (!out.whole) gather(sql, "SELECT id FROM jobs ORDER BY id", ids);
    for (const auto& id : ids) {
        try {
            if (auto job = row_of(sql, id)) out.jobs.push_back(std::move(*job));
        } catch (const soci::sqlite3_soci_error& trouble) {
            if ((trouble.result() & 0xFF) != SQLITE_CORRUPT) throw;
            out.whole = false;
        }
    }
    std::stable_sort(out.jobs.begin(), out.jobs.end(),
                     [](const Job& a, const Job& b) { return a.changed > b.changed; });
    return out;
}

}  // namespace

std::string plain_name(std::string_view name) {
    std::string out;
    for (std::size_t at = 0; at < name.size(); ++at) {
        const auto byte = static_cast<unsigned char>(name[at]);
        const bool of_two = byte == 0xC2 && at + 1 < name.size() && static_cast<unsigned char>(name[at + 1]) < 0xA0;
        if (of_two)
            ++at;  // U+0080 to U+009F
        else if (byte == '\t' || byte == '\n' || byte == '\r')
            out += ' ';
        else if (byte >= 0x20 && byte != 0x7F)
            out += name[at];
    }
    const auto first = out.find_first_not_of(' ');
    if (first == std::string::npos) return {};
    out = out.substr(first, out.find_last_not_of(' ') + 1 - first);
    if (out.size() <= longest_name) return out;
    auto end = longest_name;
    while (end > 0 && (static_cast<unsigned char>(out[end]) & 0xC0) == 0x80) --end;  // letters stay whole
    return out.substr(0, end);
}

struct Store::Inside {
    explicit Inside(const std::string& path) : file(path), readers(path) {}

    const std::string file;
    std::timed_mutex mutex;
    session sql;  ///< the one that writes
    std::optional<Identity> identity;
    Readers readers;

    /// The file's write lock. Who waits for another program's lets others of this one try.
    std::unique_ptr<Transaction> held(std::unique_lock<std::timed_mutex>& lock) {
        const auto deadline = Clock::now() + patience;
        for (;;) {
            if (!lock.try_lock_until(deadline)) return nullptr;
            try {
                return std::make_unique<Transaction>(sql);
            } catch (const soci::sqlite3_soci_error& trouble) {
                if ((trouble.result() & 0xFF) != SQLITE_BUSY) throw;
            }
            lock.unlock();
            if (Clock::now() >= deadline) return nullptr;
            std::this_thread::sleep_for(between_tries);
        }
    }

    /// Done with the file to itself, and on the disk afterwards.
    template <class Do>
    auto write(const Held& now_held, Do what) -> Result<decltype(what())> {
        using Out = Result<decltype(what())>;
        const auto done = attempted(file, Doing::writing, [&]() -> Out {
            std::unique_lock lock(mutex, std::defer_lock);
            const auto transaction = held(lock);
            if (!transaction) return tl::unexpected(told(file, SQLITE_BUSY, Doing::writing));
            if (now_held) now_held();
            auto out = what();
            if (!identity->stands())
                return fail("the file of jobs was moved or removed while the program ran, so nothing was saved",
                            "the file put back, or the program started again", {file});
            transaction->commit();
            return out;
        });
        return done ? *done : tl::unexpected(done.error());
    }
};

Store::Store() = default;

Store::~Store() {
    if (!inside_ || !inside_->identity) return;
    try {
        inside_->sql << "PRAGMA wal_checkpoint(TRUNCATE)";  // the one file holds everything
    } catch (const std::exception&) {                       // it is done when the file is opened again
    }
}

Result<std::unique_ptr<Store>> Store::open(const std::string& file) {
    std::unique_ptr<Store> store(new Store);
    store->inside_ = std::make_unique<Inside>(file);
    if (auto ok = open_file(file, store->inside_->sql); !ok) return tl::unexpected(ok.error());
    if (auto ok = store->inside_->readers.open(); !ok) return tl::unexpected(ok.error());
    store->inside_->identity.emplace(file);
    return store;
}

Result<Listed> Store::list() {
    return inside_->readers.read([](session& sql) { return all_of(sql); });
}

Result<std::optional<Job>> Store::job(const std::string& id) {
    return inside_->readers.read([&](session& sql) { return job_of(sql, id); });
}

Result<std::optional<std::string>> Store::text(const std::string& id, int revision) {
    return inside_->readers.read([&](session& sql) -> std::optional<std::string> {
        std::string text;
        sql << "SELECT text FROM revisions WHERE job = :j AND number = :n", use(id), use(revision), into(text);
        return sql.got_data() ? std::optional(text) : std::nullopt;
    });
}

Result<Job> Store::create(const std::string& name, const std::string& text) {
    return inside_->write({}, [&] {
        auto& sql = inside_->sql;
        const auto id = fresh_id(), kept = plain_name(name);
        const long long created = now();
        sql << "INSERT INTO jobs (id, name, created, changed, revision, newest, tip, deleted)"
               " VALUES (:i, :n, :c, :h, 1, 1, 1, 0)",
            use(id), use(kept), use(created), use(created);
        add_revision(sql, id, 1, 0, text);
        return *job_of(sql, id);
    });
}

Result<std::optional<Job>> Store::save(const std::string& id, int on, const std::string& text, const Held& held) {
    return inside_->write(held, [&]() -> std::optional<Job> {
        auto& sql = inside_->sql;
        const auto before = row_of(sql, id);
        if (!before || before->deleted || before->revision != on) return std::nullopt;
        const int number = before->newest + 1;
        const long long changed = now();
        add_revision(sql, id, number, on, text);
        sql << "UPDATE jobs SET revision = :r, newest = :n, tip = :t, changed = :c WHERE id = :id", use(number),
            use(number), use(number), use(changed), use(id);
        return job_of(sql, id);
    });
}

Result<std::optional<Job>> Store::undo(const std::string& id, const Held& held) {
    return inside_->write(held, [&]() -> std::optional<Job> {
        const auto before = row_of(inside_->sql, id);
        if (!before || before->deleted) return std::nullopt;
        const int previous = previous_of(inside_->sql, id, before->revision);
        return previous > 0 ? moved_to(inside_->sql, id, previous) : std::nullopt;
    });
}

Result<std::optional<Job>> Store::redo(const std::string& id, const Held& held) {
    return inside_->write(held, [&]() -> std::optional<Job> {
        auto& sql = inside_->sql;
        int tip = 0, next = 0;
        const auto before = row_of(sql, id, &tip);
        if (!before || before->deleted || !before->can_redo) return std::nullopt;
        sql << "WITH RECURSIVE way(number, previous) AS ("
               " SELECT number, previous FROM revisions WHERE job = :a AND number = :t"
               " UNION ALL SELECT r.number, r.previous FROM revisions r JOIN way w ON r.number = w.previous"
               " WHERE r.job = :b) SELECT number FROM way WHERE previous = :p",
            use(id), use(tip), use(id), use(before->revision), into(next);
        return sql.got_data() ? moved_to(sql, id, next) : std::nullopt;
    });
}

Result<std::optional<Job>> Store::rename(const std::string& id, const std::string& name, const Held& held) {
    return inside_->write(held, [&]() -> std::optional<Job> {
        auto& sql = inside_->sql;
        const auto before = row_of(sql, id);
        if (!before || before->deleted) return std::nullopt;
        const auto kept = plain_name(name);
        const long long changed = now();
        sql << "UPDATE jobs SET name = :n, changed = :c WHERE id = :id", use(kept), use(changed), use(id);
        return job_of(sql, id);
    });
}

Result<std::optional<Job>> Store::mark_deleted(const std::string& id, bool deleted, const Held& held) {
    return inside_->write(held, [&]() -> std::optional<Job> {
        auto& sql = inside_->sql;
        if (!row_of(sql, id)) return std::nullopt;
        const long long changed = now();
        const int flag = deleted ? 1 : 0;
        sql << "UPDATE jobs SET deleted = :d, changed = :c WHERE id = :id", use(flag), use(changed), use(id);
        return job_of(sql, id);
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
