// SPDX-License-Identifier: MIT
#include "cli/output.h"

#include <fcntl.h>
#include <unistd.h>

#include <filesystem>

#include "cli/folder.h"
#include "cli/unfinished.h"

namespace bw::cli {

namespace fs = std::filesystem;

namespace {

fs::path whole_path(const std::string& dir) {
    auto target = fs::absolute(dir).lexically_normal();
    return target.filename().empty() ? target.parent_path() : target;
}

/// Nothing stands there, or what a package may take the place of.
bw::Result<void> may_be_replaced(const fs::path& target) {
    std::error_code error;
    const auto is = fs::symlink_status(target, error);
    if (!fs::exists(is)) return {};
    if (fs::is_symlink(is))
        return cannot_write(target.string(), "it is a link, to `" + fs::read_symlink(target, error).string() + "`");
    if (!fs::is_directory(is)) return cannot_write(target.string(), "it is a file, not a folder");
    const auto folder = open_folder(target);
    if (!folder || ::faccessat(AT_FDCWD, target.c_str(), W_OK | X_OK, AT_EACCESS) != 0)
        return cannot_write(target.string());
    if (auto names = package_in(folder, target.string()); !names) return tl::unexpected(names.error());
    return {};
}

}  // namespace

bw::Result<void> write_package(const std::string& dir, const Files& files) {
    const auto target = whole_path(dir), parent = target.parent_path();
    if (auto free = may_be_replaced(target); !free) return free;
    std::error_code error;
    fs::create_directories(parent, error);
    if (error) return cannot_write(parent.string(), error.message());
    clear_unfinished(parent);
    auto package = Unfinished::make(parent, dir);
    if (!package) return tl::unexpected(package.error());
    if (auto done = package->write(manifest_name, manifest(files)); !done) return done;
    for (const auto& [name, text] : files)
        if (auto done = package->write(name, text); !done) return done;
    return package->become(target);
}

bw::Result<void> write_new_file(const std::string& path, const std::string& text) {
    return write_file(Descriptor(AT_FDCWD), path, text, path);
}

}  // namespace bw::cli
