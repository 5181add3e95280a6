// SPDX-License-Identifier: MIT
#pragma once
// A whole number's row: the look-up under the catalogue's fittings. Open addressing in one block of memory, so that
// loading allocates once and copies copy plainly.

#include <cstdint>
#include <optional>
#include <vector>

namespace bw::catalogue {

class FlatIndex {
public:
    /// Forgets everything and makes room for `count` keys.
    void reset(std::size_t count) {
        std::size_t slots = 16;
        while (slots < 2 * count + 2) slots *= 2;
        slots_.assign(slots, Slot{});
    }
    /// Keeps the first row given for a key. At most `count` keys of the last reset.
    void add(std::uint64_t key, std::size_t row) {
        const std::size_t at = find(key);
        if (slots_[at].row == none) slots_[at] = {key, static_cast<std::uint32_t>(row)};
    }
    [[nodiscard]] std::optional<std::size_t> at(std::uint64_t key) const {
        if (slots_.empty()) return std::nullopt;
        const auto row = slots_[find(key)].row;
        return row == none ? std::nullopt : std::optional<std::size_t>(row);
    }

private:
    static constexpr std::uint32_t none = 0xffffffff;
    struct Slot {
        std::uint64_t key = 0;
        std::uint32_t row = none;
    };
    [[nodiscard]] std::size_t find(std::uint64_t key) const {
        std::size_t i = static_cast<std::size_t>((key * 0x9e3779b97f4a7c15u) >> 32) & (slots_.size() - 1);
        while (slots_[i].row != none && slots_[i].key != key) i = (i + 1) & (slots_.size() - 1);
        return i;
    }
    std::vector<Slot> slots_;
};

}  // namespace bw::catalogue
