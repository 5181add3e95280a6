// SPDX-License-Identifier: MIT
#pragma once
// The file behind the store: whose it is, whether it may be written, whether it is still there, and its connections.

#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wconversion"
#pragma GCC diagnostic ignored "-Wshadow"
#pragma GCC diagnostic ignored "-Wold-style-cast"
#pragma GCC diagnostic ignored "-Wpedantic"
#include <soci/soci.h>
#include <soci/sqlite3/soci-sqlite3.h>
#pragma GCC diagnostic pop

#include <sys/types.h>

#include <chrono>
#include <condition_variable>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "units/error.h"

namespace bw::jobs {

/// How long another program's lock is waited for.
inline constexpr auto patience = std::chrono::seconds(3);

enum class Doing { reading, writing };

/// What went wrong with the file, by SQLite's result code, for the person at the page.
[[nodiscard]] Error told(const std::string& file, int code, Doing doing);

/// Runs, and makes of the file's trouble an error.
template <class Do>
auto attempted(const std::string& file, Doing doing, Do what) -> Result<decltype(what())> {
    try {
        return what();
    } catch (const soci::sqlite3_soci_error& trouble) {
        return tl::unexpected(told(file, trouble.result(), doing));
    } catch (const soci::soci_error&) {
        return tl::unexpected(told(file, SQLITE_ERROR, doing));
    }
}

/// Opens the store's file for writing, makes it and its folder where they are missing, and takes over one of before.
/// Fails, with the file as it was, where it is another program's or a newer version's, or may not be written.
[[nodiscard]] Result<void> open_file(const std::string& file, soci::session& sql);

/// Which files a store was opened on: a path may come to lead to another, or to nothing.
class Identity {
public:
    explicit Identity(const std::string& file) : file_(file), known_(look()) {}
    [[nodiscard]] bool stands() const { return look() == known_; }

private:
    struct About {
        bool there = false;
        dev_t device = 0;
        ino_t number = 0;
        bool operator==(const About&) const = default;
    };
    [[nodiscard]] std::pair<About, About> look() const;  ///< the file's and its log's
    std::string file_;
    std::pair<About, About> known_;
};

/// Connections that only read, each by one thread at a time. All are made at once: a file that is moved later can
/// still be read.
class Readers {
public:
    explicit Readers(std::string file) : file_(std::move(file)) {}
    [[nodiscard]] Result<void> open();

    template <class Do>
    auto read(Do what) -> Result<decltype(what(std::declval<soci::session&>()))> {
        return attempted(file_, Doing::reading, [&] {
            const Lent lent(*this);
            return what(*lent.session);
        });
    }

private:
    struct Lent {
        explicit Lent(Readers& owner) : readers(owner), session(owner.take()) {}
        Lent(const Lent&) = delete;
        Lent& operator=(const Lent&) = delete;
        ~Lent() { readers.give(std::move(session)); }
        Readers& readers;
        std::unique_ptr<soci::session> session;
    };
    std::unique_ptr<soci::session> take();
    void give(std::unique_ptr<soci::session> session);

    const std::string file_;
    std::mutex mutex_;
    std::condition_variable free_;
    std::vector<std::unique_ptr<soci::session>> idle_;
};

}  // namespace bw::jobs
