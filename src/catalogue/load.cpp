// SPDX-License-Identifier: MIT
// The embedded catalogue with the user's files read over it.

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <unordered_map>

#include "catalogue/embedded.h"
#include "catalogue/read.h"

namespace bw::catalogue {

namespace {

namespace fs = std::filesystem;

/// A layer's rows in key order; fails on a key twice.
template <class Row>
Result<std::vector<Placed<Row>*>> once_each(std::deque<Placed<Row>>& layer) {
    std::vector<Placed<Row>*> order;
    order.reserve(layer.size());
    for (auto& placed : layer) order.push_back(&placed);
    std::stable_sort(order.begin(), order.end(), [](const auto* a, const auto* b) { return a->row.key < b->row.key; });
    for (std::size_t i = 1; i < order.size(); ++i) {
        const Place& first = order[i - 1]->place;
        if (order[i - 1]->row.key == order[i]->row.key)
            return fail(fmt::format("the key '{}' stands twice", order[i]->row.key),
                        fmt::format("one row; the other is at {}:{}", first.file, first.line), order[i]->place);
    }
    return order;
}

/// Rows of one layer over those below: a key that is there is replaced, others are added.
template <class Row>
Result<void> lay_over(std::vector<Row>& rows, std::deque<Placed<Row>>& layer) {
    const auto order = once_each(layer);
    if (!order) return tl::unexpected(order.error());
    std::unordered_map<std::string, std::size_t> at;
    for (std::size_t i = 0; i < rows.size(); ++i) at.emplace(rows[i].key, i);
    rows.reserve(rows.size() + layer.size());
    for (auto* placed : *order) {
        const auto found = at.find(placed->row.key);
        if (found != at.end())
            rows[found->second] = std::move(placed->row);
        else
            rows.push_back(std::move(placed->row));
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

/// Heaters and items by key, pipes by material and size. The embedded rows come sorted already.
void sort_rows(Catalogue& catalogue) {
    const auto sort = [](auto& rows, auto before) {
        if (!std::is_sorted(rows.begin(), rows.end(), before)) std::sort(rows.begin(), rows.end(), before);
    };
    const auto by_key = [](const auto& a, const auto& b) { return a.key < b.key; };
    sort(catalogue.heaters, by_key);
    sort(catalogue.items, by_key);
    sort(catalogue.pipes,
         [](const Pipe& a, const Pipe& b) { return std::pair(a.material, a.size) < std::pair(b.material, b.size); });
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
