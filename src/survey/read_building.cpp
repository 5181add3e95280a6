// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include "survey/hours.h"
#include "survey/parts.h"
#include "survey/section.h"
#include "units/parse.h"

namespace bw::survey {
namespace {

constexpr std::int64_t most_fixtures = 200000;

Result<void> read_fixtures(const text::Node& node, std::map<Fixture, int>& out) {
    if (!node.is_table()) return node.error("fixtures is not a table", "[building.fixtures]");
    for (const auto& [key, value] : node.entries()) {
        const auto fixture = text::named<Fixture>(key);
        if (!fixture) return value.error(fixture.error().what, fixture.error().expected);
        const auto count = value.as_integer();
        if (!count) return value.error(fmt::format("{}: {}", key, count.error().what), count.error().expected);
        if (*count < 0 || *count > most_fixtures)
            return value.error(fmt::format("{}: {} is out of range", key, *count),
                               fmt::format("0 to {}", most_fixtures));
        if (*count > 0) out[*fixture] = static_cast<int>(*count);
    }
    return {};
}

Result<void> read_busy(const text::Node& node, std::map<Fixture, double>& out) {
    if (!node.is_table()) return node.error("busy is not a table", "[building.busy]");
    for (const auto& [key, value] : node.entries()) {
        const auto fixture = text::named<Fixture>(key);
        if (!fixture) return value.error(fixture.error().what, fixture.error().expected);
        constexpr std::string_view expected = "a share of the busiest hour, such as \"25 %\"";
        const auto written = value.as_string();
        if (!written) return value.error(fmt::format("{}: {}", key, written.error().what), std::string(expected));
        const auto share = units::parse(*written, units::Kind::percent);
        if (!share) return value.error(fmt::format("{}: {}", key, share.error().what), std::string(expected));
        if (share->si < 0 || share->si > 1)
            return value.error(fmt::format("{}: {} is out of range", key, *written), "0 % to 100 %");
        out[*fixture] = share->si;
    }
    return {};
}

Result<Block> read_block(const text::Node& node, std::vector<Assumption>& assumed) {
    Block block;
    Table t("building.block", node, assumed);
    t.take("name", block.name);
    t.take("count", block.count);
    t.take("flow", block.flow);
    t.take("temperature", block.temperature);
    t.take("shower-heads", block.shower_heads);
    std::string runs;
    if (t.take("runs", runs)) {
        if (auto hours = hours_of(runs))
            block.runs = std::move(*hours);
        else
            t.refuse("runs", hours.error().what, hours.error().expected);
    }
    if (auto done = t.finish(); !done) return tl::unexpected(done.error());
    return block;
}

Result<Occupancy> read_occupancy(const text::Node& node, std::vector<Assumption>& assumed) {
    Occupancy occupancy;
    Table t("building.occupancy", node, assumed);
    t.take("kind", occupancy.kind);
    t.take("count", occupancy.count);
    if (auto done = t.finish(); !done) return tl::unexpected(done.error());
    return occupancy;
}

void default_chemistry(Table& t, BuildingUse& use) {
    if (t.take("chemistry-in-air", use.chemistry_in_air)) return;
    if (use.fixtures.contains(Fixture::clothes_washer_public))
        t.fall_back("chemistry-in-air", use.chemistry_in_air,
                    {"true", "public clothes washers are listed: lint and bleach", true});
    else
        t.fall_back("chemistry-in-air", use.chemistry_in_air, {"false", "no laundry or pool is listed", true});
}

bool empty(const BuildingUse& use) {
    return use.fixtures.empty() &&
           std::none_of(use.blocks.begin(), use.blocks.end(), [](const Block& b) { return b.count > 0; });
}

}  // namespace

Result<void> read_job(const Top& top, Survey& out) {
    Table t("job", top.job, out.assumed);
    t.take("title", out.job);
    t.take("prepared-by", out.prepared_by);
    t.take("revision", out.revision);
    t.take("date", out.date);
    return t.finish();
}

Result<void> read_building(const Top& top, Survey& out) {
    auto& use = out.use;
    Table t("building", top.building, out.assumed);
    t.take_or_default("kind", use.building);
    t.take_or_default("care", use.care);
    t.take_or_default("percentile", use.percentile);
    t.take_or_default("method", use.method);
    if (const auto node = t.child("busy"))
        if (auto done = read_busy(*node, use.busy); !done) t.fail(done.error());
    if (const auto node = t.child("fixtures"))
        if (auto done = read_fixtures(*node, use.fixtures); !done) t.fail(done.error());
    for (const auto& node : t.list("block")) {
        auto block = read_block(node, out.assumed);
        if (!block)
            t.fail(block.error());
        else
            use.blocks.push_back(std::move(*block));
    }
    for (const auto& node : t.list("occupancy")) {
        auto occupancy = read_occupancy(node, out.assumed);
        if (!occupancy)
            t.fail(occupancy.error());
        else
            use.occupancies.push_back(std::move(*occupancy));
    }
    default_chemistry(t, use);
    if (t.ok() && empty(use))
        t.fail({"the building draws no hot water",
                "at least one fixture in [building.fixtures] or one [[building.block]] with a count above 0",
                top.building->place()});
    return t.finish();
}

}  // namespace bw::survey
