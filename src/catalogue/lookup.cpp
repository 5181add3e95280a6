// SPDX-License-Identifier: MIT
// Look-ups. Sizing asks them hundreds of thousands of times a second, so a fitting is found by one whole number.

#include <fmt/format.h>

#include <algorithm>
#include <numeric>

#include "catalogue/catalogue.h"

namespace bw::catalogue {

namespace {

constexpr std::uint64_t any_material = 0xff;

std::uint64_t pack(std::uint64_t part, std::uint64_t material, int size, int branch) {
    return part << 48 | material << 32 | static_cast<std::uint64_t>(size & 0xffff) << 16 |
           static_cast<std::uint64_t>(branch & 0xffff);
}
std::uint64_t pack(Part part, std::optional<Material> material, Nominal size, std::optional<Nominal> branch) {
    return pack(static_cast<std::uint64_t>(part), material ? static_cast<std::uint64_t>(*material) : any_material,
                size.eighths, branch ? branch->eighths : 0);
}
std::uint64_t pack(Material material, Nominal size) {
    return pack(0, static_cast<std::uint64_t>(material), size.eighths, 0);
}

template <class T>
const T* look(const FlatIndex& index, std::uint64_t key, const std::vector<T>& rows) {
    const auto row = index.at(key);
    return row ? &rows[*row] : nullptr;
}

template <class T>
const T* look(const std::vector<std::size_t>& order, std::string_view key, const std::vector<T>& rows) {
    const auto at = std::lower_bound(order.begin(), order.end(), key,
                                     [&](std::size_t i, std::string_view k) { return rows[i].key < k; });
    return at == order.end() || rows[*at].key != key ? nullptr : &rows[*at];
}

template <class T>
Result<void> order_by_key(std::vector<std::size_t>& order, const std::vector<T>& rows, std::string_view what) {
    order.resize(rows.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    const auto by_key = [&](std::size_t a, std::size_t b) { return rows[a].key < rows[b].key; };
    if (!std::is_sorted(order.begin(), order.end(), by_key)) std::sort(order.begin(), order.end(), by_key);
    for (std::size_t i = 1; i < order.size(); ++i)
        if (rows[order[i]].key == rows[order[i - 1]].key)
            return fail(fmt::format("two {} have the key '{}'", what, rows[order[i]].key), "each key once");
    return {};
}

/// A tee asked for without a branch is the equal one; a reducer means nothing without its small end; elsewhere (a valve
/// with a side port, a trap) the branch goes with the thing.
bool answers_without_branch(const Item& it) {
    const bool branch_chosen =
        it.part == Part::tee || it.part == Part::vent_tee || it.part == Part::reducer || it.part == Part::vent_adapter;
    return !branch_chosen || it.branch == it.size;
}

/// Row numbers in buckets by an enumeration's value.
template <class T>
std::vector<std::vector<std::size_t>> in_buckets(const std::vector<T>& rows, std::size_t count, auto bucket) {
    std::vector<std::vector<std::size_t>> out(count);
    for (std::size_t i = 0; i < rows.size(); ++i) out[static_cast<std::size_t>(bucket(rows[i]))].push_back(i);
    return out;
}

}  // namespace

std::optional<double> Item::number(std::string_view name) const {
    const auto found = data.find(name);
    return found == data.end() ? std::nullopt : std::optional(found->second);
}

const Heater* Catalogue::heater(std::string_view key) const { return look(heater_order_, key, heaters); }
const Pipe* Catalogue::pipe(std::string_view key) const { return look(pipe_order_, key, pipes); }
const Item* Catalogue::item(std::string_view key) const { return look(item_order_, key, items); }
const Pipe* Catalogue::pipe(Material material, Nominal size) const {
    return look(pipe_size_at_, pack(material, size), pipes);
}

const Item* Catalogue::item(Part part, Material material, Nominal size, std::optional<Nominal> branch) const {
    const auto* own = look(fitting_at_, pack(part, material, size, branch), items);
    return own != nullptr ? own : item(part, size, branch);
}
const Item* Catalogue::item(Part part, Nominal size, std::optional<Nominal> branch) const {
    return look(fitting_at_, pack(part, std::nullopt, size, branch), items);
}

const Item* Catalogue::cheapest(Part part) const {
    const auto at = static_cast<std::size_t>(part);
    return at >= part_at_.size() || part_at_[at].empty() ? nullptr : &items[part_at_[at].front()];
}

std::vector<const Item*> Catalogue::of(Part part) const {
    std::vector<const Item*> out;
    const auto at = static_cast<std::size_t>(part);
    if (at >= part_at_.size()) return out;
    out.reserve(part_at_[at].size());
    for (const auto i : part_at_[at]) out.push_back(&items[i]);
    return out;
}

std::vector<const Pipe*> Catalogue::sizes(Material material) const {
    std::vector<const Pipe*> out;
    const auto at = static_cast<std::size_t>(material);
    if (at >= material_at_.size()) return out;
    out.reserve(material_at_[at].size());
    for (const auto i : material_at_[at]) out.push_back(&pipes[i]);
    return out;
}

Result<void> Catalogue::index() {
    if (auto ok = order_by_key(heater_order_, heaters, "heaters"); !ok) return ok;
    if (auto ok = order_by_key(pipe_order_, pipes, "pipes"); !ok) return ok;
    if (auto ok = order_by_key(item_order_, items, "items"); !ok) return ok;

    part_at_ = in_buckets(items, text::names<Part>().size(), [](const Item& i) { return i.part; });
    for (auto& bucket : part_at_)
        std::sort(bucket.begin(), bucket.end(), [this](std::size_t a, std::size_t b) {
            return items[a].price != items[b].price ? items[a].price < items[b].price : items[a].key < items[b].key;
        });
    fitting_at_.reset(2 * items.size());
    for (const auto& bucket : part_at_)
        for (const auto i : bucket) {  // by rising price: the first of a key stays
            const Item& it = items[i];
            if (!it.size) continue;
            fitting_at_.add(pack(it.part, it.material, *it.size, it.branch), i);
            if (it.branch && answers_without_branch(it))
                fitting_at_.add(pack(it.part, it.material, *it.size, std::nullopt), i);
        }

    material_at_ = in_buckets(pipes, text::names<Material>().size(), [](const Pipe& p) { return p.material; });
    pipe_size_at_.reset(pipes.size());
    for (auto& bucket : material_at_) {
        std::sort(bucket.begin(), bucket.end(),
                  [this](std::size_t a, std::size_t b) { return pipes[a].size < pipes[b].size; });
        for (const auto i : bucket) pipe_size_at_.add(pack(pipes[i].material, pipes[i].size), i);
    }
    return {};
}

}  // namespace bw::catalogue
