// SPDX-License-Identifier: MIT
// The embedded catalogue with the user's files read over it.

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>

#include "catalogue/embedded.h"
#include "catalogue/read.h"

namespace bw::catalogue {

namespace {

namespace fs = std::filesystem;

/// Rows of one layer over those below: a key that is there is replaced, others are added. A key twice in one layer is
/// a mistake.
template <class Row>
Result<void> lay_over(std::vector<Row>& rows, std::vector<Placed<Row>>& layer) {
    std::unordered_map<std::string_view, const Place*> seen;
    seen.reserve(layer.size());
    for (const auto& placed : layer) {
        const auto [first, fresh] = seen.emplace(placed.row.key, &placed.place);
        if (!fresh)
            return fail(fmt::format("the key '{}' stands twice", placed.row.key),
                        fmt::format("one row; the other is at {}:{}", first->second->file, first->second->line),
                        placed.place);
    }
    const std::size_t below = rows.size();
    std::unordered_map<std::string, std::size_t> at;
    for (std::size_t i = 0; i < below; ++i) at.emplace(rows[i].key, i);
    rows.reserve(below + layer.size());
    for (auto& placed : layer) {
        const auto found = at.find(placed.row.key);
        if (found != at.end())
            rows[found->second] = std::move(placed.row);
        else
            rows.push_back(std::move(placed.row));
    }
    return {};
}

Result<void> lay_over(Catalogue& catalogue, Layer& layer) {
    if (auto ok = lay_over(catalogue.heaters, layer.heaters); !ok) return ok;
    if (auto ok = lay_over(catalogue.pipes, layer.pipes); !ok) return ok;
    return lay_over(catalogue.items, layer.items);
}

Result<std::vector<std::string>> toml_files(const std::string& path) {
    std::error_code error;
    if (!fs::is_directory(path, error)) return std::vector{path};
    std::vector<std::string> files;
    for (fs::directory_iterator it(path, error), end; !error && it != end; it.increment(error))
        if (it->path().extension() == ".toml") files.push_back(it->path().string());
    if (error)
        return fail(fmt::format("cannot read the folder: {}", error.message()), "a folder of catalogue files", {path});
    if (files.empty()) return fail("no catalogue file in the folder", "files named *.toml", {path});
    std::sort(files.begin(), files.end());
    return files;
}

Result<void> read_embedded(Layer& layer) {
    for (const auto& file : embedded()) {
        const auto document = text::Document::parse(std::string(file.text), std::string(file.name));
        if (!document) return tl::unexpected(document.error());
        if (auto ok = read_document(*document, layer); !ok) return ok;
    }
    return {};
}

Result<void> read_over(const std::string& path, Catalogue& catalogue) {
    const auto files = toml_files(path);
    if (!files) return tl::unexpected(files.error());
    Layer layer;
    for (const auto& file : *files) {
        const auto document = text::Document::read(file);
        if (!document) return tl::unexpected(document.error());
        if (auto ok = read_document(*document, layer); !ok) return ok;
    }
    return lay_over(catalogue, layer);
}

void sort_rows(Catalogue& catalogue) {
    const auto by_key = [](const auto& a, const auto& b) { return a.key < b.key; };
    std::sort(catalogue.heaters.begin(), catalogue.heaters.end(), by_key);
    std::sort(catalogue.items.begin(), catalogue.items.end(), by_key);
    std::sort(catalogue.pipes.begin(), catalogue.pipes.end(), [](const Pipe& a, const Pipe& b) {
        return std::pair(a.material, a.size) < std::pair(b.material, b.size);
    });
}

}  // namespace

Result<Catalogue> load(const std::vector<std::string>& overrides) {
    Catalogue catalogue;
    Layer base;
    if (auto ok = read_embedded(base); !ok) return tl::unexpected(ok.error());
    if (auto ok = lay_over(catalogue, base); !ok) return tl::unexpected(ok.error());
    for (const auto& path : overrides)
        if (auto ok = read_over(path, catalogue); !ok) return tl::unexpected(ok.error());
    sort_rows(catalogue);
    if (auto ok = catalogue.index(); !ok) return tl::unexpected(ok.error());
    return catalogue;
}

Result<void> check_file(const std::string& path) {
    return load({path}).map([](const Catalogue&) {});
}

}  // namespace bw::catalogue
