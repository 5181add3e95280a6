// SPDX-License-Identifier: MIT
#pragma once
// The jobs and every revision of their surveys, in one file. What was saved is on disk when the call returns.

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "units/error.h"

namespace bw::jobs {

/// The layout of the store's file this program reads and writes.
inline constexpr int store_version = 1;

struct Job {
    std::string id;  ///< letters and digits
    std::string name;
    std::int64_t created = 0, changed = 0;  ///< milliseconds since 1970, UTC
    int revision = 1;                       ///< the present one
    int newest = 1;                         ///< greatest number given so far
    bool can_undo = false, can_redo = false;
    bool deleted = false;
};

/// Thread-safe.
class Store {
public:
    /// Opens the file, making it and its folder where they are missing.
    [[nodiscard]] static Result<std::unique_ptr<Store>> open(const std::string& file);
    ~Store();

    [[nodiscard]] Result<std::vector<Job>> list();
    /// Nothing where there is no such job.
    [[nodiscard]] Result<std::optional<Job>> job(const std::string& id);
    /// The text of a revision; nothing where there is none.
    [[nodiscard]] Result<std::optional<std::string>> text(const std::string& id, int revision);

    [[nodiscard]] Result<Job> create(const std::string& name, const std::string& text);
    /// A new revision on top of `on`. Nothing where `on` is not the present one, or the job is gone or deleted.
    [[nodiscard]] Result<std::optional<Job>> save(const std::string& id, int on, const std::string& text);
    /// Back to what the present revision was made on. Nothing where there is none.
    [[nodiscard]] Result<std::optional<Job>> undo(const std::string& id);
    /// Forward again on the way to the revision saved last.
    [[nodiscard]] Result<std::optional<Job>> redo(const std::string& id);
    [[nodiscard]] Result<std::optional<Job>> rename(const std::string& id, const std::string& name);
    [[nodiscard]] Result<std::optional<Job>> mark_deleted(const std::string& id, bool deleted);

private:
    Store();
    struct Inside;
    std::unique_ptr<Inside> inside_;
};

/// Where jobs are kept when nobody says: `bankwright/jobs.db` in the user's data folder. Fails where there is no such
/// folder to be named.
[[nodiscard]] Result<std::string> usual_file();

}  // namespace bw::jobs
