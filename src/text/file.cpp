// SPDX-License-Identifier: MIT
#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>

#include "text/toml.h"
#include "text/utf8.h"

namespace bw::text {

namespace {

/// A file opened to be read; nothing it may be is waited for.
class Opened {
public:
    explicit Opened(const std::string& path)
        : descriptor_(::open(path.c_str(), O_RDONLY | O_NONBLOCK | O_NOCTTY | O_CLOEXEC)) {}
    ~Opened() {
        if (descriptor_ >= 0) ::close(descriptor_);
    }
    Opened(const Opened&) = delete;
    Opened& operator=(const Opened&) = delete;

    [[nodiscard]] int descriptor() const { return descriptor_; }

private:
    int descriptor_;
};

tl::unexpected<Error> too_large(const std::string& path) {
    return fail("the file is too large", fmt::format("at most {} MiB", largest_file >> 20), {path});
}

tl::unexpected<Error> unreadable(const std::string& path) {
    return fail(fmt::format("cannot be read: {}", std::strerror(errno)), "a readable file", {path});
}

Result<std::string> bytes_of(const std::string& path) {
    const Opened file(path);
    if (file.descriptor() < 0) return unreadable(path);
    struct stat is {};
    if (::fstat(file.descriptor(), &is) != 0) return unreadable(path);
    if (S_ISDIR(is.st_mode)) return fail("is a folder", "a file", {path});
    if (!S_ISREG(is.st_mode)) return fail("is a pipe or a device", "a regular file", {path});
    if (is.st_size > static_cast<off_t>(largest_file)) return too_large(path);
    std::string bytes;
    for (char block[65536];;) {
        const auto got = ::read(file.descriptor(), block, sizeof block);
        if (got < 0 && errno == EINTR) continue;
        if (got < 0) return unreadable(path);
        if (got == 0) return bytes;
        bytes.append(block, static_cast<std::size_t>(got));
        if (bytes.size() > largest_file) return too_large(path);
    }
}

}  // namespace

Result<std::string> read_file(const std::string& path) {
    auto text = bytes_of(path);
    if (!text) return text;
    if (text->starts_with("\xef\xbb\xbf")) text->erase(0, 3);
    if (const auto bad = first_bad_byte(*text)) {
        const auto [line, column] = line_column(*text, *bad);
        return fail(fmt::format("byte 0x{:02x} is not UTF-8", static_cast<unsigned char>((*text)[*bad])), "UTF-8 text",
                    {path, line, column});
    }
    return text;
}

}  // namespace bw::text
