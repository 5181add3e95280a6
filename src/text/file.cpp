// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <memory>

#include "text/toml.h"
#include "text/utf8.h"

namespace bw::text {

namespace {

struct Close {
    void operator()(std::FILE* file) const { std::fclose(file); }
};

}  // namespace

Result<std::string> read_file(const std::string& path) {
    std::error_code ignored;
    if (std::filesystem::is_directory(path, ignored)) return fail("is a folder", "a file", {path});
    const std::unique_ptr<std::FILE, Close> file(std::fopen(path.c_str(), "rb"));
    if (!file) return fail(fmt::format("cannot be read: {}", std::strerror(errno)), "a readable file", {path});
    std::string text;
    char block[65536];
    while (const std::size_t got = std::fread(block, 1, sizeof block, file.get())) {
        text.append(block, got);
        if (text.size() > largest_file)
            return fail("the file is too large", fmt::format("at most {} MiB", largest_file >> 20), {path});
    }
    if (std::ferror(file.get()) != 0) return fail("reading stopped with an error", "a readable file", {path});
    if (text.starts_with("\xef\xbb\xbf")) text.erase(0, 3);
    if (const auto bad = first_bad_byte(text)) {
        const auto [line, column] = line_column(text, *bad);
        return fail(fmt::format("byte 0x{:02x} is not UTF-8", static_cast<unsigned char>(text[*bad])), "UTF-8 text",
                    {path, line, column});
    }
    return text;
}

}  // namespace bw::text
