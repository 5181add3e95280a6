// SPDX-License-Identifier: MIT
#include "text/vocabulary.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <vector>

namespace bw::text {

namespace {

using namespace std::string_view_literals;

constexpr std::array services{"gas"sv,        "cold"sv,   "hot"sv,   "recirculation"sv, "exhaust"sv,  "intake"sv,
                              "condensate"sv, "relief"sv, "power"sv, "link"sv,          "structure"sv};
static_assert(services.size() == static_cast<std::size_t>(Service::structure) + 1);

constexpr std::array parts{"heater"sv,
                           "pipe"sv,
                           "elbow"sv,
                           "elbow-45"sv,
                           "tee"sv,
                           "cap"sv,
                           "coupling"sv,
                           "union-joint"sv,
                           "reducer"sv,
                           "adapter"sv,
                           "nipple"sv,
                           "ball-valve"sv,
                           "gas-valve"sv,
                           "service-valve-cold"sv,
                           "service-valve-hot"sv,
                           "check-valve"sv,
                           "balancing-valve"sv,
                           "mixing-valve"sv,
                           "relief-valve"sv,
                           "pressure-reducer"sv,
                           "backflow-preventer"sv,
                           "strainer"sv,
                           "regulator"sv,
                           "flexible-gas"sv,
                           "flexible-water"sv,
                           "test-port"sv,
                           "thermometer"sv,
                           "pump"sv,
                           "expansion-vessel"sv,
                           "tank"sv,
                           "dielectric"sv,
                           "vent-pipe"sv,
                           "vent-elbow"sv,
                           "vent-tee"sv,
                           "vent-collar"sv,
                           "vent-damper"sv,
                           "vent-terminal"sv,
                           "vent-adapter"sv,
                           "intake-terminal"sv,
                           "condensate-trap"sv,
                           "neutraliser"sv,
                           "condensate-pump"sv,
                           "overflow-switch"sv,
                           "air-gap"sv,
                           "panel-feed"sv,
                           "cable"sv,
                           "disconnect"sv,
                           "emergency-stop"sv,
                           "link-cable"sv,
                           "link-plug"sv,
                           "frame-post"sv,
                           "frame-rail"sv,
                           "strut"sv,
                           "foot"sv,
                           "anchor"sv,
                           "hanger"sv,
                           "rod"sv,
                           "bracket"sv,
                           "bond"sv,
                           "firestop"sv,
                           "co-alarm"sv,
                           "connection"sv};
static_assert(parts.size() == static_cast<std::size_t>(Part::connection) + 1);
static_assert(parts[static_cast<std::size_t>(Part::vent_pipe)] == "vent-pipe");

constexpr std::array gases{"natural"sv, "propane"sv};
static_assert(gases.size() == static_cast<std::size_t>(Gas::propane) + 1);

constexpr std::array buildings{"apartment"sv,  "club"sv,   "gymnasium"sv, "hospital"sv, "hotel"sv,
                               "industrial"sv, "office"sv, "residence"sv, "school"sv};
static_assert(buildings.size() == static_cast<std::size_t>(Building::school) + 1);

constexpr std::array fixtures{"bar-sink"sv,      "basin-private"sv, "basin-public"sv,   "bath-shower"sv,
                              "bathtub"sv,       "bidet"sv,         "clothes-washer"sv, "clothes-washer-public"sv,
                              "dishwasher"sv,    "foot-basin"sv,    "kitchen-sink"sv,   "kitchen-sink-commercial"sv,
                              "laundry-tub"sv,   "pantry-sink"sv,   "service-sink"sv,   "shower"sv,
                              "shower-public"sv, "urinal"sv,        "water-closet"sv};
static_assert(fixtures.size() == static_cast<std::size_t>(Fixture::water_closet) + 1);

/// Edits between two words, a swap of neighbours counting as one.
std::size_t distance(std::string_view a, std::string_view b) {
    std::vector<std::size_t> two_ago, before(b.size() + 1), now(b.size() + 1);
    for (std::size_t j = 0; j <= b.size(); ++j) before[j] = j;
    for (std::size_t i = 1; i <= a.size(); ++i) {
        now[0] = i;
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const std::size_t change = a[i - 1] == b[j - 1] ? 0 : 1;
            now[j] = std::min({before[j] + 1, now[j - 1] + 1, before[j - 1] + change});
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                now[j] = std::min(now[j], two_ago[j - 2] + 1);
        }
        two_ago = before;
        std::swap(before, now);
    }
    return before[b.size()];
}

constexpr std::size_t longest_word = 64;
constexpr std::size_t few_enough_to_list = 20;

}  // namespace

template <>
Words words_of<Service>() {
    return {"service", services};
}
template <>
Words words_of<Part>() {
    return {"part", parts};
}
template <>
Words words_of<Gas>() {
    return {"gas", gases};
}
template <>
Words words_of<Building>() {
    return {"building", buildings};
}
template <>
Words words_of<Fixture>() {
    return {"fixture", fixtures};
}

std::string_view name(Service value) { return services[static_cast<std::size_t>(value)]; }
std::string_view name(Part value) { return parts[static_cast<std::size_t>(value)]; }
std::string_view name(Gas value) { return gases[static_cast<std::size_t>(value)]; }
std::string_view name(Building value) { return buildings[static_cast<std::size_t>(value)]; }
std::string_view name(Fixture value) { return fixtures[static_cast<std::size_t>(value)]; }

std::string nearest(std::string_view word, std::span<const std::string_view> choices) {
    if (word.empty() || word.size() > longest_word) return {};
    std::string_view best;
    std::size_t least = std::max<std::size_t>(1, word.size() / 3) + 1;
    for (const auto choice : choices) {
        const std::size_t d = distance(word, choice);
        if (d < least) {
            least = d;
            best = choice;
        }
    }
    if (!best.empty()) return std::string(best);
    // "basin" for "basin-public": the first choice that begins with, or begins, the word
    for (const auto choice : choices) {
        if (word.size() >= 3 && (choice.starts_with(word) || word.starts_with(choice))) return std::string(choice);
    }
    return {};
}

std::string one_of(std::span<const std::string_view> choices) {
    return fmt::format("one of {}", fmt::join(choices, ", "));
}

Result<std::size_t> index_of(std::string_view identifier, const Words& words) {
    const auto at = std::find(words.list.begin(), words.list.end(), identifier);
    if (at != words.list.end()) return static_cast<std::size_t>(at - words.list.begin());
    const std::string near = nearest(identifier, words.list);
    const std::string shown(identifier.substr(0, identifier.size() > longest_word ? 0 : identifier.size()));
    return fail(shown.empty() && !identifier.empty() ? fmt::format("unknown {} (a very long word)", words.kind)
                                                     : fmt::format("unknown {} '{}'", words.kind, shown),
                near.empty()                             ? one_of(words.list)
                : words.list.size() > few_enough_to_list ? fmt::format("'{}' perhaps", near)
                                                         : fmt::format("'{}' perhaps; {}", near, one_of(words.list)));
}

}  // namespace bw::text
