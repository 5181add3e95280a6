// SPDX-License-Identifier: MIT
#include "catalogue/ports.h"

#include <fmt/format.h>

#include <array>

namespace bw::catalogue {

namespace {

struct Known {
    std::string_view name;
    Service service;
    bool sized;
    std::optional<shape::Vec> must_face;  ///< headers run below, vents above
};

constexpr shape::Vec left{-1, 0, 0}, right{1, 0, 0}, back{0, -1, 0}, front{0, 1, 0};

constexpr std::array<Known, 10> known{{
    {"gas", Service::gas, true, shape::down},
    {"cold", Service::cold, true, shape::down},
    {"hot", Service::hot, true, shape::down},
    {"condensate", Service::condensate, true, shape::down},
    {"exhaust", Service::exhaust, true, shape::up},
    {"intake", Service::intake, true, shape::up},
    {"power", Service::power, false, std::nullopt},
    {"link-in", Service::link, false, std::nullopt},
    {"link-out", Service::link, false, std::nullopt},
    {"mount", Service::structure, false, back},
}};

struct Direction {
    std::string_view name;
    shape::Vec vector;
};
constexpr std::array<Direction, 6> directions{
    {{"left", left}, {"right", right}, {"back", back}, {"front", front}, {"up", shape::up}, {"down", shape::down}}};

/// A port may stand proud of the casing by this much.
constexpr double proud = 4 * 0.0254;

const Known* known_port(std::string_view name) {
    for (const auto& k : known)
        if (k.name == name) return &k;
    return nullptr;
}

std::string_view direction_name(const shape::Vec& v) {
    for (const auto& d : directions)
        if (d.vector == v) return d.name;
    return "askew";
}

void take_facing(text::TableReader& r, HeaterPort& port) {
    std::string word;
    r.require("facing", word);
    for (const auto& d : directions)
        if (d.name == word) port.facing = d.vector;
    if (r.ok() && port.facing == shape::Vec{})
        r.fail_at("facing", fmt::format("'{}' is no direction", word), "left, right, back, front, up or down");
}

void take_place(text::TableReader& r, HeaterPort& port) {
    const auto at = r.required_child("at", "three lengths: right, out from the wall, up");
    if (!at || !r.ok()) return;
    const auto parts = at->items();
    if (parts.size() != 3)
        return r.fail_at("at", fmt::format("{} lengths", parts.size()), "three: right, out from the wall, up");
    std::array<double, 3> xyz{};
    for (std::size_t i = 0; i < 3; ++i) {
        const auto length = parts[i].as_amount(Kind::length);
        if (!length) return r.fail(length.error());
        xyz[i] = length->si;
    }
    port.at = {xyz[0], xyz[1], xyz[2]};
}

HeaterPort take_port(text::TableReader& r) {
    HeaterPort port;
    r.require("name", port.name);
    const Known* k = known_port(port.name);
    if (r.ok() && k == nullptr)
        r.fail_at("name", fmt::format("'{}' is no port", port.name),
                  "gas, cold, hot, condensate, exhaust, intake, power, link-in, link-out or mount");
    take_place(r, port);
    take_facing(r, port);
    const bool sized = r.optional("size", port.size);
    if (!r.ok()) return port;
    port.service = k->service;
    if (k->sized && !sized)
        r.fail(r.table().error(fmt::format("port {} has no size", port.name), "a nominal size").value());
    if (!k->sized && sized) r.fail_at("size", fmt::format("port {} has none", port.name), "no size");
    return port;
}

bool within(double value, Length greatest) { return value >= -proud && value <= si_value(greatest) + proud; }

}  // namespace

std::vector<HeaterPort> take_ports(text::TableReader& reader) {
    std::vector<HeaterPort> ports;
    const auto list = reader.required_child("ports", "an array of tables: name, at, facing, size");
    if (!list || !reader.ok()) return ports;
    for (const auto& node : list->items()) {
        text::TableReader row(node);
        ports.push_back(take_port(row));
        if (auto ok = row.finish(); !ok) {
            reader.fail(ok.error());
            break;
        }
    }
    return ports;
}

Result<void> judge_ports(const Heater& h) {
    for (const auto& k : known) {
        std::size_t count = 0;
        for (const auto& p : h.ports) count += p.name == k.name ? 1 : 0;
        if (count == 0)
            return fail(fmt::format("{}: port '{}' is missing", h.key, k.name), "each of the ten ports once");
        if (count > 1)
            return fail(fmt::format("{}: port '{}' stands {} times", h.key, k.name, count),
                        "each of the ten ports once");
    }
    for (const auto& p : h.ports) {
        const Known& k = *known_port(p.name);
        if (k.must_face && *k.must_face != p.facing)
            return fail(
                fmt::format("{}: port {} faces {}", h.key, p.name, direction_name(p.facing)),
                fmt::format("{}; the plant is piped from below and vented from above", direction_name(*k.must_face)));
        if (!within(p.at.x, h.width) || !within(p.at.y, h.depth) || !within(p.at.z, h.height))
            return fail(fmt::format("{}: port {} lies outside the casing", h.key, p.name), "at most 4 in proud of it");
    }
    return {};
}

}  // namespace bw::catalogue
