// SPDX-License-Identifier: MIT
#pragma once
// The jobs and every revision of their surveys, in one file. What was saved is on disk when the call returns.

#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
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

struct Listed {
    std::vector<Job> jobs;  ///< latest change first; whether they can be undone is not looked for
    bool whole = true;      ///< else the file is damaged, and others may be missing
};

/// A name as it is kept: without control characters and the blanks around, and at most 400 bytes long.
[[nodiscard]] std::string plain_name(std::string_view name);

/// Thread-safe. Readers wait for nobody; who writes waits at most three seconds for others who do.
class Store {
public:
    /// Done when the file is held for writing, before anything is written: whoever must have what is written and what
    /// is told of it in one order begins here.
    using Held = std::function<void()>;

    /// Opens the file, making it and its folder where they are missing. Fails, with the file as it was, where it is
    /// another program's.
    [[nodiscard]] static Result<std::unique_ptr<Store>> open(const std::string& file);
    ~Store();

    [[nodiscard]] Result<Listed> list();
    /// Nothing where there is no such job.
    [[nodiscard]] Result<std::optional<Job>> job(const std::string& id);
    /// The text of a revision; nothing where there is none.
    [[nodiscard]] Result<std::optional<std::string>> text(const std::string& id, int revision);

    // What is written is refused where the file was moved or removed since it was opened.
    [[nodiscard]] Result<Job> create(const std::string& name, const std::string& text);
    /// A new revision on top of `on`. Nothing where `on` is not the present one, or the job is gone or deleted.
    [[nodiscard]] Result<std::optional<Job>> save(const std::string& id, int on, const std::string& text,
                                                  const Held& held = {});
    /// Back to what the present revision was made on. Nothing where there is none.
    [[nodiscard]] Result<std::optional<Job>> undo(const std::string& id, const Held& held = {});
    /// Forward again on the way to the revision saved last.
    [[nodiscard]] Result<std::optional<Job>> redo(const std::string& id, const Held& held = {});
    [[nodiscard]] Result<std::optional<Job>> rename(const std::string& id, const std::string& name,
                                                    const Held& held = {});
    [[nodiscard]] Result<std::optional<Job>> mark_deleted(const std::string& id, bool deleted, const Held& held = {});

private:
    Store();
    struct Inside;
    std::unique_ptr<Inside> inside_;
};

/// Where jobs are kept when nobody says: `bankwright/jobs.db` in the user's data folder. Fails where there is no such
/// folder to be named.
[[nodiscard]] Result<std::string> usual_file();

}  // namespace bw::jobs
