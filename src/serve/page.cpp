// SPDX-License-Identifier: MIT
#include "serve/page.h"

#include <fmt/format.h>
#include <zlib.h>

#include <array>

namespace bw::serve {
namespace {

std::string type_of(std::string_view name) {
    constexpr std::array<std::pair<std::string_view, std::string_view>, 8> types{
        {{".html", "text/html; charset=utf-8"},
         {".js", "text/javascript; charset=utf-8"},
         {".css", "text/css; charset=utf-8"},
         {".svg", "image/svg+xml"},
         {".png", "image/png"},
         {".woff2", "font/woff2"},
         {".json", "application/json"},
         {".ico", "image/x-icon"}}};
    for (const auto& [ending, type] : types)
        if (name.ends_with(ending)) return std::string(type);
    return "application/octet-stream";
}

std::string unpacked(std::string_view packed) {
    z_stream stream{};
    std::string out;
    if (inflateInit2(&stream, 15 + 16) != Z_OK) return out;
    // the library reads only; its type predates const
    stream.next_in = reinterpret_cast<Bytef*>(const_cast<char*>(packed.data()));
    stream.avail_in = static_cast<uInt>(packed.size());
    std::array<char, 65536> block;
    int state = Z_OK;
    while (state == Z_OK) {
        stream.next_out = reinterpret_cast<Bytef*>(block.data());
        stream.avail_out = static_cast<uInt>(block.size());
        state = inflate(&stream, Z_NO_FLUSH);
        out.append(block.data(), block.size() - stream.avail_out);
    }
    inflateEnd(&stream);
    return out;
}

}  // namespace

Page::Page(std::span<const text::EmbeddedFile> files) {
    for (const auto& file : files) {
        auto name = file.name;
        if (name.ends_with(".gz")) name.remove_suffix(3);
        const auto sum =
            crc32(0, reinterpret_cast<const Bytef*>(file.text.data()), static_cast<uInt>(file.text.size()));
        files_["/" + std::string(name)] = {file.text, type_of(name),
                                           fmt::format("\"{:08x}-{}\"", sum, file.text.size())};
    }
}

Answer Page::file(const std::string& path, bool takes_gzip) const {
    const auto found = files_.find(path == "/" ? std::string_view("/index.html") : std::string_view(path));
    if (found == files_.end()) {
        if (path == "/" && files_.empty())
            return {.status = 200,
                    .type = "text/plain; charset=utf-8",
                    .body =
                        "This program was built without its page; what it answers under /api/ is described in "
                        "docs/api.md.\n",
                    .file = "",
                    .encoding = "",
                    .tag = ""};
        return refusal(404, "there is nothing at this address");
    }
    const auto& file = found->second;
    Answer out;
    out.type = file.type;
    out.tag = file.tag;
    out.body = takes_gzip ? std::string(file.packed) : unpacked(file.packed);
    if (takes_gzip) out.encoding = "gzip";
    return out;
}

}  // namespace bw::serve
