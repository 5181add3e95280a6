// SPDX-License-Identifier: MIT
#pragma once
// `bankwright serve`: the page and what it asks for, on this computer alone.

#include <functional>
#include <memory>
#include <span>
#include <string>

#include "catalogue/catalogue.h"
#include "serve/connections.h"
#include "text/embedded.h"
#include "units/error.h"

namespace bw::serve {

inline constexpr int usual_port = 8317;

struct Options {
    int port = usual_port;  ///< 0: any that is free
    std::string jobs;       ///< file; empty: the usual one in the user's data folder
    std::string version;
    std::span<const text::EmbeddedFile> examples = {};
    std::span<const text::EmbeddedFile> page = {};  ///< index.html and what it loads, packed by gzip
    Limits limits = {};
};

/// A running server. Answers from its start to its end.
class Service {
public:
    /// Opens the jobs and the port. Fails with a message for the person who started it.
    [[nodiscard]] static Result<std::unique_ptr<Service>> start(const Options& options,
                                                                const catalogue::Catalogue& catalogue);
    ~Service();
    Service(const Service&) = delete;
    Service& operator=(const Service&) = delete;

    [[nodiscard]] int port() const;
    [[nodiscard]] const std::string& jobs_file() const;
    /// What the person who started it had better know; mostly nothing.
    [[nodiscard]] std::string remark() const;
    /// Ends all streams, then the answers under way, then the threads.
    void stop();

private:
    Service();
    struct Inside;
    std::unique_ptr<Inside> inside_;
};

struct Started {
    std::string address, jobs;  ///< of the page; the file
    std::string remark;         ///< see Service
};

/// Serves until the program is told to end (Ctrl-C), and ends within a second then; told again, at once. `started` is
/// called once.
[[nodiscard]] Result<void> serve(const Options& options, const catalogue::Catalogue& catalogue,
                                 const std::function<void(const Started&)>& started);

}  // namespace bw::serve
