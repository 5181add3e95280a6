// SPDX-License-Identifier: MIT
#pragma once
// Random but plausible surveys, as the text a user would write, so that the reader is exercised too. The same seed
// gives the same survey everywhere: no library distributions, whose results are not fixed.

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace bw::test {

/// SplitMix64 with the few draws needed here.
class Dice {
public:
    explicit Dice(std::uint64_t seed) : state_(mixed(seed)) {}
    std::uint64_t next() { return mixed(state_ += 0x9e3779b97f4a7c15u); }
    /// From least to greatest, both included.
    int whole(int least, int greatest) {
        return least + static_cast<int>(next() % static_cast<std::uint64_t>(greatest - least + 1));
    }
    bool chance(int percent) { return whole(1, 100) <= percent; }
    template <std::size_t N>
    std::string_view one(const std::array<std::string_view, N>& of) {
        return of[static_cast<std::size_t>(whole(0, static_cast<int>(N) - 1))];
    }

private:
    static std::uint64_t mixed(std::uint64_t z) {
        z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
        z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
        return z ^ (z >> 31);
    }
    std::uint64_t state_;
};

namespace detail {

struct Corner {
    int x = 0, y = 0;  // inches
};

struct Shell {
    std::vector<Corner> corners;
    Corner low;                  // the lower left corner, which every room has
    int width = 0, ceiling = 0;  // inches
    int door_wall = 0, service_wall = 0, vent_wall = 0;
    [[nodiscard]] int size() const { return static_cast<int>(corners.size()); }
    [[nodiscard]] Corner start(int wall) const { return corners[static_cast<std::size_t>(wall)]; }
    [[nodiscard]] Corner end(int wall) const { return corners[static_cast<std::size_t>((wall + 1) % size())]; }
    [[nodiscard]] int length(int wall) const {
        return std::abs(end(wall).x - start(wall).x) + std::abs(end(wall).y - start(wall).y);
    }
    [[nodiscard]] Corner on(int wall, int along) const {
        const auto a = start(wall), b = end(wall);
        const int whole = length(wall);
        return {a.x + (b.x - a.x) / whole * along, a.y + (b.y - a.y) / whole * along};
    }
};

inline std::string inches(int value) { return fmt::format("\"{} ft {} in\"", value / 12, value % 12); }
inline std::string place(Corner p, int z) { return fmt::format("[{}, {}, {}]", inches(p.x), inches(p.y), inches(z)); }

inline std::string building(Dice& dice) {
    constexpr std::array<std::string_view, 9> kinds{"apartment",  "club",   "gymnasium", "hospital", "hotel",
                                                    "industrial", "office", "residence", "school"};
    constexpr std::array<std::string_view, 10> fixtures{
        "basin-public", "shower-public",         "kitchen-sink-commercial",
        "service-sink", "clothes-washer-public", "basin-private",
        "bath-shower",  "kitchen-sink",          "dishwasher",
        "laundry-tub"};
    std::string out = fmt::format("[building]\nkind = \"{}\"\n", dice.one(kinds));
    if (dice.chance(15)) out += "care = true\n";
    if (dice.chance(20)) out += "chemistry-in-air = true\n";
    out += "[building.fixtures]\n";
    const int scale = dice.whole(1, 7);
    for (const auto fixture : fixtures)
        if (dice.chance(45)) out += fmt::format("{} = {}\n", fixture, dice.whole(1, 2 * scale));
    out += fmt::format("shower = {}\n", dice.whole(0, scale));
    if (dice.chance(45))
        out += fmt::format(
            "[[building.block]]\nname = \"gang showers\"\ncount = {0}\nflow = \"{1}.{2} gpm\"\ntemperature = \"{3} "
            "degF\"\n"
            "shower-heads = {0}\n",
            dice.whole(4, 20), dice.whole(1, 2), dice.whole(2, 9), dice.whole(98, 110));
    if (dice.chance(25))
        out += fmt::format(
            "[[building.block]]\nname = \"washers\"\ncount = {}\nflow = \"{} gpm\"\ntemperature = \"120 degF\"\n",
            dice.whole(1, 4), dice.whole(2, 5));
    if (dice.chance(20))
        out += fmt::format("[[building.occupancy]]\nkind = \"motel-60\"\ncount = {}\n", dice.whole(10, 120));
    return out;
}

inline std::string services(Dice& dice) {
    constexpr std::array<std::string_view, 4> natural{"7 inH2O", "9 inH2O", "14 inH2O", "2 psi"};
    constexpr std::array<std::string_view, 3> propane{"11 inH2O", "13 inH2O", "2 psi"};
    std::string out = "[supply]\n";
    if (dice.chance(80)) out += fmt::format("pressure = \"{} psi\"\n", dice.whole(35, 110));
    if (dice.chance(60)) out += fmt::format("hardness = \"{} mg/L\"\n", dice.whole(20, 240));
    if (dice.chance(80)) out += fmt::format("coldest = \"{} degF\"\n", dice.whole(35, 65));
    if (dice.chance(50)) out += fmt::format("closed = {}\n", dice.chance(50));
    const bool gas = dice.chance(75);
    out += fmt::format("[gas]\nkind = \"{}\"\n", gas ? "natural" : "propane");
    if (dice.chance(85))
        out += fmt::format("delivery-pressure = \"{}\"\n", gas ? dice.one(natural) : dice.one(propane));
    if (dice.chance(40))
        out += fmt::format("heating-value = \"{} Btu/ft3\"\n", gas ? dice.whole(950, 1100) : dice.whole(2450, 2550));
    if (dice.chance(40)) out += fmt::format("meter = \"{} ft3/h\"\n", dice.whole(10, 60) * 100);
    if (dice.chance(40))
        out += fmt::format("[[gas.other]]\nname = \"range\"\ninput = \"{} kBtu/h\"\n", dice.whole(60, 400));
    if (dice.chance(60))
        out += fmt::format("[site]\naltitude = \"{} ft\"\n",
                           dice.chance(70) ? dice.whole(0, 2000) : dice.whole(2000, 8000));
    out += "[water]\n";
    if (dice.chance(80)) out += fmt::format("distribution = \"{} degF\"\n", dice.whole(120, 145));
    return out;
}

inline Shell shell(Dice& dice) {
    // now and then a room too small for any plant
    const bool tiny = dice.chance(5);
    const int w = tiny ? dice.whole(48, 84) : dice.whole(168, 480),
              d = tiny ? dice.whole(48, 72) : dice.whole(132, 288);
    Shell room;
    room.ceiling = dice.whole(9 * 12, 14 * 12);
    room.corners = {{0, 0}, {w, 0}, {w, d}, {0, d}};
    if (dice.chance(30)) {
        const int cut_x = w * dice.whole(25, 50) / 100, cut_y = d * dice.whole(25, 45) / 100;
        room.corners = {{0, 0}, {w, 0}, {w, d}, {cut_x, d}, {cut_x, d - cut_y}, {0, d - cut_y}};
    }
    const int x0 = dice.whole(0, 40), y0 = dice.whole(0, 40);
    for (auto& corner : room.corners) corner = {corner.x + x0, corner.y + y0};
    room.low = {x0, y0};
    room.width = w;
    if (dice.chance(15)) std::reverse(room.corners.begin(), room.corners.end());  // goes clockwise
    const int n = room.size();
    room.service_wall = dice.whole(0, n - 1);
    room.door_wall = (room.service_wall + dice.whole(1, n - 1)) % n;
    room.vent_wall = dice.chance(60) ? room.service_wall : (room.service_wall + dice.whole(0, n - 1)) % n;
    return room;
}

inline std::string walls(Dice& dice, const Shell& room) {
    constexpr std::array<std::string_view, 4> builds{"concrete", "masonry", "wood-stud", "steel-stud"};
    std::string out;
    for (int i = 0; i < room.size(); ++i) {
        if (dice.chance(25)) continue;
        out += fmt::format("[[room.wall]]\nnumber = {}\nbuild = \"{}\"\n", i + 1, dice.one(builds));
        if (dice.chance(70)) out += fmt::format("combustible = {}\n", dice.chance(20));
        if (dice.chance(70)) out += fmt::format("outside = {}\n", i == room.vent_wall || dice.chance(20));
        if (dice.chance(70)) out += fmt::format("rated = {}\n", dice.chance(30));
    }
    return out;
}

inline std::string doors(Dice& dice, const Shell& room) {
    const int width = dice.whole(28, 48), whole = room.length(room.door_wall);
    // a door longer than its wall is a user's slip, and is refused
    const int offset = whole > width + 8 ? dice.whole(4, whole - width - 4) : 4;
    return fmt::format("[[room.door]]\nwall = {}\noffset = {}\nwidth = \"{} in\"\nswings-in = {}\nhinge-far = {}\n",
                       room.door_wall + 1, inches(offset), width, dice.chance(40), dice.chance(50));
}

inline std::string obstacles(Dice& dice, const Shell& room) {
    std::string out;
    for (int i = 0, n = dice.whole(0, 2); i < n; ++i) {
        const int x = room.low.x + dice.whole(6, room.width - 24), y = room.low.y + dice.whole(0, 20);
        const int side = dice.whole(6, 18);
        out += fmt::format("[[room.obstacle]]\nname = \"column {}\"\nfrom = {}\nto = {}\n", i + 1, place({x, y}, 0),
                           place({x + side, y + side}, room.ceiling));
    }
    return out;
}

inline std::string connections(Dice& dice, const Shell& room) {
    std::string out;
    const int whole = room.length(room.service_wall), step = whole / 6;
    const auto at = [&](std::string_view name, int k, int z) {
        if (dice.chance(88))
            out += fmt::format("[connections.{}]\nat = {}\n", name,
                               place(room.on(room.service_wall, step * k), std::min(z, room.ceiling - 6)));
    };
    at("gas", 1, dice.whole(12, 30));
    at("cold", 2, dice.whole(24, 48));
    at("hot", 3, dice.whole(48, 92));
    if (dice.chance(60)) at("recirculation", 4, dice.whole(24, 48));
    const int vent = room.length(room.vent_wall);
    if (dice.chance(85))
        out += fmt::format("[connections.exhaust]\nat = {}\n",
                           place(room.on(room.vent_wall, vent * 5 / 6), room.ceiling - 10));
    if (dice.chance(60))
        out += fmt::format("[connections.intake]\nat = {}\n",
                           place(room.on(room.vent_wall, vent / 12), room.ceiling - 10));
    if (dice.chance(80)) {
        const Corner at_floor{room.low.x + room.width / 2 + dice.whole(-20, 20), room.low.y + dice.whole(12, 24)};
        out += fmt::format("[connections.drain]\nat = {}\n", place(at_floor, 0));
    }
    if (dice.chance(60)) {
        // no electrician sets a panel among the pipes or before a floor drain
        int wall = (room.door_wall + 1) % room.size();
        if (wall == room.service_wall) wall = (wall + 1) % room.size();
        out += fmt::format("[connections.panel]\nat = {}\n", place(room.on(wall, room.length(wall) / 8), 60));
    }
    return out;
}

inline std::string preferences(Dice& dice, bool low_sulphide) {
    constexpr std::array<std::string_view, 3> gas{"steel-40", "steel-80", "stainless-10s"};
    constexpr std::array<std::string_view, 4> water{"copper-l", "copper-k", "stainless-10s", "cpvc"};
    constexpr std::array<std::string_view, 4> arrangements{"any", "wall", "rack-one-sided", "rack-two-sided"};
    constexpr std::array<std::string_view, 3> vents{"any", "single", "common"}, spares{"none", "one", "share"};
    std::string out = "[preferences]\n";
    if (low_sulphide)
        out += "gas-pipe = \"copper-l\"\n";
    else if (dice.chance(60))
        out += fmt::format("gas-pipe = \"{}\"\n", dice.one(gas));
    if (dice.chance(70)) out += fmt::format("water-pipe = \"{}\"\n", dice.one(water));
    if (dice.chance(70)) out += fmt::format("arrangement = \"{}\"\n", dice.one(arrangements));
    if (dice.chance(60)) out += fmt::format("vent = \"{}\"\n", dice.one(vents));
    if (dice.chance(30)) out += fmt::format("room-air = {}\n", dice.chance(40));
    if (dice.chance(70)) out += fmt::format("spare = \"{}\"\n", dice.one(spares));
    if (dice.chance(20)) out += fmt::format("most-in-line = {}\n", dice.whole(3, 10));
    if (dice.chance(20)) out += fmt::format("header-serves = {}\n", dice.whole(2, 5));
    return out;
}

}  // namespace detail

/// A survey file's text.
inline std::string random_survey(std::uint64_t seed) {
    Dice dice(seed);
    std::string out = fmt::format("[job]\ntitle = \"Random job {}, invented for the demo\"\n", seed);
    out += detail::building(dice);
    const bool copper_gas = dice.chance(8);
    auto services = detail::services(dice);
    if (copper_gas) services.insert(services.find("[gas]\n") + 6, "low-sulphide = true\n");
    out += services;
    const auto room = detail::shell(dice);
    out += "[room]\nplan = [";
    for (const auto& corner : room.corners)
        out += fmt::format("[{}, {}], ", detail::inches(corner.x), detail::inches(corner.y));
    out += fmt::format("]\nceiling = {}\n", detail::inches(room.ceiling));
    if (dice.chance(50)) out += fmt::format("freezing = {}\nterminal-clear = {}\n", dice.chance(10), dice.chance(60));
    out += detail::walls(dice, room) + detail::doors(dice, room) + detail::obstacles(dice, room);
    if (dice.chance(70)) out += fmt::format("[room.way-in]\ncorridor = \"{} in\"\n", dice.whole(34, 72));
    out += detail::connections(dice, room);
    if (dice.chance(70))
        out +=
            "[[codes]]\ndocument = \"IFGC\"\nedition = \"2018\"\n[[codes]]\ndocument = \"IPC\"\nedition = \"2018\"\n";
    return out + detail::preferences(dice, copper_gas);
}

}  // namespace bw::test
