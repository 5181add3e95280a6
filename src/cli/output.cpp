// SPDX-License-Identifier: MIT
#include "cli/output.h"

#include <fcntl.h>
#include <stdio.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <filesystem>
#include <fstream>

namespace bw::cli {

namespace fs = std::filesystem;

namespace {

tl::unexpected<Error> cannot_write(const std::string& path, const std::string& why) {
    return fail("cannot be written: " + why, "a path that may be written", {path, 0, 0});
}

bool of_a_package(const fs::path& file) {
    const auto name = file.filename().string();
    return name == "report.pdf" || name == "sheets.pdf" || name == "sheets.dxf" || name == "parts.csv" ||
           name == "result.json" || name == "plant.glb" || name == "plant.ifc" || name == "plant.step" ||
           (name.starts_with("sheet-") && name.ends_with(".svg"));
}

bw::Result<void> write_file(const fs::path& path, const std::string& text) {
    std::ofstream out(path, std::ios::binary);
    out.write(text.data(), static_cast<std::streamsize>(text.size()));
    out.close();
    if (!out) return cannot_write(path.string(), std::strerror(errno));
    return {};
}

/// A folder of its own, taken away again unless it became the package.
struct Scratch {
    fs::path path;
    explicit Scratch(fs::path p) : path(std::move(p)) {}
    Scratch(const Scratch&) = delete;
    Scratch& operator=(const Scratch&) = delete;
    ~Scratch() {
        std::error_code ignored;
        if (!path.empty()) fs::remove_all(path, ignored);
    }
};

bw::Result<void> may_be_replaced(const fs::path& dir) {
    std::error_code error;
    if (!fs::is_directory(dir, error)) return cannot_write(dir.string(), "it is a file, not a folder");
    for (const auto& entry : fs::directory_iterator(dir, error))
        if (!of_a_package(entry.path()))
            return fail("holds `" + entry.path().filename().string() + "`, which is not of an earlier package",
                        "a new or empty folder, or one that holds a package", {dir.string(), 0, 0});
    if (error) return cannot_write(dir.string(), error.message());
    return {};
}

}  // namespace

bw::Result<void> write_package(const std::string& dir, const Files& files) {
    fs::path target = fs::absolute(dir).lexically_normal();
    if (target.filename().empty()) target = target.parent_path();
    std::error_code error;
    const bool there = fs::exists(target, error);
    if (there)
        if (auto ok = may_be_replaced(target); !ok) return ok;
    fs::create_directories(target.parent_path(), error);
    if (error) return cannot_write(target.parent_path().string(), error.message());

    Scratch scratch(target.parent_path() / (target.filename().string() + ".part-" + std::to_string(::getpid())));
    fs::create_directory(scratch.path, error);
    if (error) return cannot_write(dir, error.message());
    for (const auto& [name, text] : files)
        if (auto ok = write_file(scratch.path / name, text); !ok) return ok;
    // The exchange leaves the old package in the scratch folder, which then takes it away.
    const int failed = there ? ::renameat2(AT_FDCWD, scratch.path.c_str(), AT_FDCWD, target.c_str(), RENAME_EXCHANGE)
                             : ::rename(scratch.path.c_str(), target.c_str());
    if (failed != 0) return cannot_write(dir, std::strerror(errno));
    if (!there) scratch.path.clear();
    return {};
}

bw::Result<void> write_new_file(const std::string& path, const std::string& text) {
    const int file = ::open(path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    if (file < 0) return cannot_write(path, errno == EEXIST ? "it is there already" : std::strerror(errno));
    ::close(file);
    auto ok = write_file(path, text);
    if (!ok) ::unlink(path.c_str());
    return ok;
}

}  // namespace bw::cli
