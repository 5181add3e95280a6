// SPDX-License-Identifier: MIT
#include "cli/folder.h"

#include <dirent.h>
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <memory>

#include "text/split.h"

namespace bw::cli {

namespace fs = std::filesystem;

namespace {

constexpr std::size_t longest_manifest = 1 << 16;

struct Close {
    void operator()(DIR* list) const { ::closedir(list); }
};

bool is_regular(const Descriptor& folder, const std::string& name) {
    struct stat is {};
    return ::fstatat(folder.number(), name.c_str(), &is, AT_SYMLINK_NOFOLLOW) == 0 && S_ISREG(is.st_mode);
}

/// Names in the manifest of a folder; none where it has none.
std::vector<std::string> listed(const Descriptor& folder) {
    const Descriptor file(::openat(folder.number(), manifest_name, O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC));
    if (!file || !is_regular(folder, manifest_name)) return {};
    std::string text(longest_manifest, '\0');
    const auto got = ::read(file.number(), text.data(), text.size());
    text.resize(static_cast<std::size_t>(std::max<ssize_t>(got, 0)));
    auto names = text::split(text, '\n');
    std::erase_if(names, [](const std::string& name) { return name.empty() || name.starts_with('#'); });
    return names;
}

bw::Result<std::vector<std::string>> entries(const Descriptor& folder, const std::string& shown) {
    const int again = ::openat(folder.number(), ".", O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    const std::unique_ptr<DIR, Close> list(again < 0 ? nullptr : ::fdopendir(again));
    if (!list) return cannot_write(shown);
    std::vector<std::string> names;
    errno = 0;
    while (const auto* entry = ::readdir(list.get())) names.emplace_back(entry->d_name);
    if (errno != 0) return cannot_write(shown);
    std::erase_if(names, [](const std::string& name) { return name == "." || name == ".."; });
    std::sort(names.begin(), names.end());
    return names;
}

/// False, with errno, where not all of it could be written.
bool put(const Descriptor& file, std::string_view text) {
    while (!text.empty()) {
        const auto done = ::write(file.number(), text.data(), text.size());
        if (done >= 0)
            text.remove_prefix(static_cast<std::size_t>(done));
        else if (errno != EINTR)
            return false;
    }
    return true;
}

}  // namespace

Descriptor::~Descriptor() { close(); }

bool Descriptor::close() {
    const int descriptor = std::exchange(descriptor_, -1);
    return descriptor < 0 || ::close(descriptor) == 0;
}

tl::unexpected<Error> cannot_write(const std::string& path, const std::string& why) {
    return fail("cannot be written: " + why, "a path that may be written", {path, 0, 0});
}

tl::unexpected<Error> cannot_write(const std::string& path) { return cannot_write(path, std::strerror(errno)); }

Descriptor open_folder(const fs::path& folder) {
    return Descriptor(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC));
}

bw::Result<void> write_file(const Descriptor& folder, const std::string& name, const std::string& text,
                            const std::string& shown) {
    Descriptor file(
        ::openat(folder.number(), name.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, 0666));
    if (!file) return cannot_write(shown, errno == EEXIST ? "it is there already" : std::strerror(errno));
    if (put(file, text) && file.close()) return {};
    const int why = errno;
    ::unlinkat(folder.number(), name.c_str(), 0);
    return cannot_write(shown, std::strerror(why));
}

std::string manifest(const Files& files) {
    std::string out =
        "# Files of a package that Bankwright wrote. The next one takes their place, and only where nothing else is "
        "here.\n";
    for (const auto& [name, text] : files) out += name + '\n';
    return out;
}

bw::Result<std::vector<std::string>> package_in(const Descriptor& folder, const std::string& shown) {
    auto names = entries(folder, shown);
    if (!names) return names;
    auto ours = listed(folder);
    ours.emplace_back(manifest_name);
    for (const auto& name : *names)
        if (std::find(ours.begin(), ours.end(), name) == ours.end() || !is_regular(folder, name))
            return fail("holds `" + name + "`, which is not of an earlier package",
                        "a new or empty folder, or one that holds a package and nothing else", {shown, 0, 0});
    return names;
}

bw::Result<void> remove_package(const fs::path& path) {
    const auto folder = open_folder(path);
    if (!folder) return cannot_write(path.string());
    auto names = package_in(folder, path.string());
    if (!names) return tl::unexpected(names.error());
    // the manifest last: what a kill leaves is still known for a package
    std::stable_partition(names->begin(), names->end(), [](const std::string& name) { return name != manifest_name; });
    for (const auto& name : *names)
        if (::unlinkat(folder.number(), name.c_str(), 0) != 0) return cannot_write(path.string());
    if (::rmdir(path.c_str()) != 0) return cannot_write(path.string());
    return {};
}

}  // namespace bw::cli
