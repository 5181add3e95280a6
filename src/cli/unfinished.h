// SPDX-License-Identifier: MIT
#pragma once
// A package while it is written: in a folder of its own beside its place, that nobody else can foresee or enter.

#include "cli/folder.h"

namespace bw::cli {

/// Takes away what programs that were killed left in a folder, if they were the same user's and are gone.
void clear_unfinished(const std::filesystem::path& parent);

/// Takes away what is being written and keeps anything more from being written, for ever; waits half a second at most.
void abandon_unfinished();

class Unfinished {
public:
    /// A new folder in `parent`; `shown` is the package's name in messages.
    [[nodiscard]] static bw::Result<Unfinished> make(const std::filesystem::path& parent, const std::string& shown);
    Unfinished(Unfinished&& other) noexcept;
    Unfinished& operator=(Unfinished&&) = delete;
    /// Takes the folder away again, unless it became the package.
    ~Unfinished();

    [[nodiscard]] bw::Result<void> write(const std::string& name, const std::string& text);
    /// Stands at `target` from now on, in one step. What is there, a package or an empty folder, is taken away.
    [[nodiscard]] bw::Result<void> become(const std::filesystem::path& target);

private:
    Unfinished(std::filesystem::path path, Descriptor folder, std::string shown);
    [[nodiscard]] bw::Result<void> take_place_of(const std::filesystem::path& target);

    std::filesystem::path path_;  ///< empty once it is the package
    Descriptor folder_;
    std::string shown_;
};

}  // namespace bw::cli
