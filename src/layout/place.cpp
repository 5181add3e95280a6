// SPDX-License-Identifier: MIT
#include "layout/place.h"

#include <fmt/format.h>

#include <charconv>
#include <cmath>

#include "plant/stations.h"

namespace bw::layout {
namespace {

namespace stations = plant::stations;

constexpr std::string_view at_word = "-at-", fed_word = "-fed-";
constexpr int most_banks = 31;

/// Numbers between hyphens.
template <class Number>
std::optional<std::vector<Number>> numbers(std::string_view text) {
    std::vector<Number> out;
    for (bool more = true; more;) {
        const std::size_t end = text.find('-');
        const std::string_view word = text.substr(0, end);
        Number n{};
        const auto read = std::from_chars(word.data(), word.data() + word.size(), n);
        if (read.ec != std::errc{} || read.ptr != word.data() + word.size()) return std::nullopt;
        out.push_back(n);
        more = end != std::string_view::npos;
        if (more) text.remove_prefix(end + 1);
    }
    return out;
}

}  // namespace

std::optional<Place> parse_place(std::string_view text) {
    Place place;
    if (const auto fed = text.find(fed_word); fed != std::string_view::npos) {
        const auto banks = numbers<int>(text.substr(fed + fed_word.size()));
        if (!banks) return std::nullopt;
        for (int bank : *banks) {
            if (bank < 1 || bank > most_banks) return std::nullopt;
            place.far_fed |= 1U << (bank - 1);
        }
        text = text.substr(0, fed);
    }
    if (const auto at = text.find(at_word); at != std::string_view::npos) {
        const auto inches = numbers<double>(text.substr(at + at_word.size()));
        if (!inches) return std::nullopt;
        for (double n : *inches) place.at.push_back(std::round(n * 16) * stations::grid);
        text = text.substr(0, at);
    }
    if (text.empty() || (place.far_fed != 0 && !place.exact())) return std::nullopt;
    place.family = text;
    return place;
}

std::string print(const Place& place) {
    std::string id = place.family;
    for (std::size_t i = 0; i < place.at.size(); ++i)
        // zero is added because nought may come with a sign
        id += fmt::format("{}{:.7g}", i == 0 ? at_word : "-", std::round(place.at[i] / stations::grid) / 16 + 0.0);
    for (int bank = 1; (place.far_fed >> (bank - 1)) != 0; ++bank)
        if ((place.far_fed >> (bank - 1)) & 1U)
            id += fmt::format("{}{}", id.find(fed_word) == id.npos ? fed_word : "-", bank);
    return id;
}

bool covers(std::string_view asked, std::string_view layout) {
    if (!layout.starts_with(asked)) return false;
    const auto rest = layout.substr(asked.size());
    return rest.empty() || rest.starts_with(at_word) || rest.starts_with(fed_word);
}

}  // namespace bw::layout
