// SPDX-License-Identifier: MIT
#include "cli/unfinished.h"

#include <fcntl.h>
#include <stdio.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <chrono>
#include <cstdlib>
#include <cstring>
#include <ctime>
#include <mutex>

namespace bw::cli {

namespace fs = std::filesystem;

namespace {

constexpr const char* prefix = ".bankwright-unfinished-";
constexpr std::time_t soon = 60;  ///< seconds in which a folder just made gets its manifest

/// Held while something is written or moved, so that a signal finds whole steps.
std::timed_mutex at_work;
fs::path present;  ///< the folder a signal takes away; empty when there is none

struct stat state_of(const Descriptor& folder) {
    struct stat is {};
    ::fstat(folder.number(), &is);
    return is;
}

/// One that nobody writes any more: its writer held a lock on it as long as it lived.
bool left_behind(const Descriptor& folder) {
    if (!folder) return false;
    const auto is = state_of(folder);
    if (is.st_uid != ::geteuid() || ::flock(folder.number(), LOCK_EX | LOCK_NB) != 0) return false;
    return ::faccessat(folder.number(), manifest_name, F_OK, AT_SYMLINK_NOFOLLOW) == 0 ||
           is.st_mtime + soon < std::time(nullptr);
}

mode_t usual_mode() {
    const mode_t mask = ::umask(0);
    ::umask(mask);
    return 0777 & ~mask;
}

}  // namespace

void clear_unfinished(const fs::path& parent) {
    std::error_code error;
    for (fs::directory_iterator at(parent, error), end; !error && at != end; at.increment(error))
        if (at->path().filename().string().starts_with(prefix) && left_behind(open_folder(at->path())))
            (void)remove_package(at->path());
}

void abandon_unfinished() {
    static std::unique_lock for_ever(at_work, std::defer_lock);
    if (for_ever.try_lock_for(std::chrono::milliseconds(500)) && !present.empty()) (void)remove_package(present);
}

bw::Result<Unfinished> Unfinished::make(const fs::path& parent, const std::string& shown) {
    const std::lock_guard working(at_work);
    auto path = (parent / (std::string(prefix) + "XXXXXX")).string();
    if (::mkdtemp(path.data()) == nullptr) return cannot_write(shown);
    auto folder = open_folder(path);
    if (!folder || state_of(folder).st_uid != ::geteuid()) {
        ::rmdir(path.c_str());
        return cannot_write(shown, "its folder was taken by somebody else");
    }
    (void)::flock(folder.number(), LOCK_EX);  // where there are no locks, nothing is cleared either
    present = path;
    return Unfinished(path, std::move(folder), shown);
}

Unfinished::Unfinished(fs::path path, Descriptor folder, std::string shown)
    : path_(std::move(path)), folder_(std::move(folder)), shown_(std::move(shown)) {}

Unfinished::Unfinished(Unfinished&& other) noexcept
    : path_(std::exchange(other.path_, {})), folder_(std::move(other.folder_)), shown_(std::move(other.shown_)) {}

Unfinished::~Unfinished() {
    if (path_.empty()) return;
    const std::lock_guard working(at_work);
    (void)remove_package(path_);
    present.clear();
}

bw::Result<void> Unfinished::write(const std::string& name, const std::string& text) {
    const std::lock_guard working(at_work);
    return write_file(folder_, name, text, shown_);
}

bw::Result<void> Unfinished::become(const fs::path& target) {
    const std::lock_guard working(at_work);
    if (!open_folder(target)) {
        ::fchmod(folder_.number(), usual_mode());
        if (::rename(path_.c_str(), target.c_str()) != 0) return cannot_write(shown_);
    } else if (auto taken = take_place_of(target); !taken) {
        return taken;
    }
    path_.clear();
    present.clear();
    return {};
}

bw::Result<void> Unfinished::take_place_of(const fs::path& target) {
    ::fchmod(folder_.number(), state_of(open_folder(target)).st_mode & 07777);
    const auto exchange = [&] {
        return ::renameat2(AT_FDCWD, path_.c_str(), AT_FDCWD, target.c_str(), RENAME_EXCHANGE) == 0;
    };
    if (!exchange()) return cannot_write(shown_);
    auto removed = remove_package(path_);
    // something came into the earlier package since it was judged: it goes back to its place
    if (!removed) exchange();
    return removed;
}

}  // namespace bw::cli
