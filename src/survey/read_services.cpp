// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <cmath>

#include "matter/mains_water.h"
#include "survey/parts.h"
#include "survey/section.h"

namespace bw::survey {
namespace {

std::string fahrenheit_text(Temperature t) { return units::print(units::amount(t), units::System::us); }

/// Blocks are mixed down from the water leaving the plant, so none may be hotter.
Result<void> judge_blocks(const Top& top, const Survey& survey) {
    const auto blocks = top.building->get("block");
    for (std::size_t i = 0; blocks && i < survey.use.blocks.size(); ++i) {
        const auto& block = survey.use.blocks[i];
        const auto node = blocks->items()[i].get("temperature");
        if (block.temperature > survey.temperatures.distribution.value)
            return node->error(fmt::format("temperature: {} is hotter than the water leaving the plant, {}",
                                           fahrenheit_text(block.temperature),
                                           fahrenheit_text(survey.temperatures.distribution.value)),
                               "at most water.distribution");
        if (block.temperature <= survey.supply.coldest.value)
            return node->error(
                fmt::format("temperature: {} is not warmer than the coldest water, {}",
                            fahrenheit_text(block.temperature), fahrenheit_text(survey.supply.coldest.value)),
                "above supply.coldest");
    }
    return {};
}

Fallback usual_distribution(const BuildingUse& use) {
    auto hottest = fahrenheit(125);
    for (const auto& block : use.blocks) hottest = std::max(hottest, block.temperature);
    if (hottest == fahrenheit(125))
        return {"125 degF", "keeps the farthest tap near 120 degF; common practice, no source", true};
    return {fmt::format("{:g} degF", std::ceil(hottest.value() * 1.8 - 459.67 - 1e-6)),
            "as hot as the hottest block load", true};
}

/// Loops are usual where taps stand far from the plant.
Fallback usual_loop(const Survey& survey, bool has_connection) {
    if (has_connection) return {"true", "a point of connection for the return is given"};
    const auto building = survey.use.building.value;
    const bool near = building == Building::residence || building == Building::industrial;
    return {near ? "false" : "true",
            fmt::format("usual in a building of kind {}; common practice, no source", text::name(building))};
}

Fallback usual_loss(const BuildingUse& use) {
    int outlets = 0;
    for (const auto& [fixture, count] : use.fixtures) outlets += count;
    for (const auto& block : use.blocks) outlets += block.count;
    const double feet = std::max(100.0, 20.0 * outlets), kbtu = std::min(1000.0, std::ceil(feet * 25 / 1000));
    return {
        fmt::format("{:g} kBtu/h", kbtu),
        fmt::format("25 Btu/h a foot of insulated loop, {:g} ft guessed at 20 ft an outlet; common practice, no source",
                    feet)};
}

/// Heat carried by one gpm through one degF, as the trade reckons it.
constexpr double btu_per_gpm_degF = 500;
constexpr auto trade_rule = "from the other two by 500 Btu/h a gpm and degF";

Fallback loss_of(const Recirculation& loop) {
    const double gpm = loop.flow.value / gallon_per_minute, rise = loop.drop.value / degF_difference;
    return {fmt::format("{:.2f} kBtu/h", gpm * rise * btu_per_gpm_degF / 1000), trade_rule};
}

Fallback drop_of(const Recirculation& loop) {
    const double gpm = loop.flow.value / gallon_per_minute, btu = loop.loss.value / btu_per_hour;
    return {fmt::format("{:.2f} degF", btu / gpm / btu_per_gpm_degF), trade_rule};
}

/// Each entry of the building's loop.
void read_branches(Table& t, Recirculation& loop, std::vector<Assumption>& assumed) {
    for (const auto& node : t.list("branch")) {
        LoopBranch branch;
        Table entry("recirculation.branch", node, assumed,
                    fmt::format("recirculation.branch.{}", loop.branches.size() + 1));
        entry.take("name", branch.name);
        entry.take("length", branch.length);
        entry.take("size", branch.size);
        if (!entry.take("return-length", branch.return_length))
            entry.fall_back("return-length", branch.return_length,
                            {fmt::format("{:.4g} ft", branch.length / foot), "as long as the way out"});
        if (!entry.take("return-size", branch.return_size)) {
            branch.return_size.value = {6};
            entry.note("return-size", {"3/4", "usual for a return; common practice, no source"});
        }
        entry.take_or_default("material", branch.material);
        if (!entry.take("insulation", branch.insulation))
            entry.note("insulation", {"by the energy code", "the least of ASHRAE 90.1 for its size and water"});
        entry.take_or_default("fittings", branch.fittings);
        if (auto done = entry.finish(); !done) t.fail(done.error());
        loop.branches.push_back(std::move(branch));
    }
}

/// Measured, else from the year's air where that is given, else the usual default.
void take_coldest(Table& t, Supply& supply) {
    Temperature mean{};
    TemperatureDifference swing{};
    if (t.take("mean-air", mean)) supply.mean_air = mean;
    if (t.take("air-swing", swing)) supply.air_swing = swing;
    t.take("southern", supply.southern);
    if (t.ok() && supply.mean_air.has_value() != supply.air_swing.has_value())
        return t.refuse(supply.mean_air ? "mean-air" : "air-swing", "one of mean-air and air-swing is missing",
                        "both, or neither");
    if (!t.ok() || !supply.mean_air) {
        t.take_or_default("coldest", supply.coldest);
        return;
    }
    if (t.take("coldest", supply.coldest)) return;
    const auto found = matter::coldest_mains({*supply.mean_air, *supply.air_swing, supply.southern});
    if (!found) return t.refuse("mean-air", found.error().what, found.error().expected);
    const double degrees = std::clamp(found->temperature.value() * 1.8 - 459.67, 33.0, 95.0);
    t.fall_back("coldest", supply.coldest,
                {fmt::format("{:.1f} degF", degrees),
                 fmt::format("coldest mains water, day {}, from the year's air by Burch and Christensen (NREL 2007)",
                             found->day)});
}

}  // namespace

Result<void> read_supply(const Top& top, Survey& out) {
    Table t("supply", top.supply, out.assumed);
    t.take_or_default("pressure", out.supply.pressure);
    t.take_or_default("hardness", out.supply.hardness);
    take_coldest(t, out.supply);
    t.take_or_default("closed", out.supply.closed);
    return t.finish();
}

Result<void> read_site(const Top& top, Survey& out) {
    Table t("site", top.site, out.assumed);
    t.take_or_default("altitude", out.altitude);
    double sds = 0;
    if (t.take("seismic-sds", sds)) out.seismic.sds = sds;
    t.take("seismic-importance", out.seismic.importance);
    t.take("seismic-height-ratio", out.seismic.height_ratio);
    return t.finish();
}

Result<void> read_water(const Top& top, Survey& out) {
    auto& water = out.temperatures;
    const auto coldest = out.supply.coldest.value;
    Table t("water", top.water, out.assumed);
    if (!t.take("distribution", water.distribution))
        t.fall_back("distribution", water.distribution, usual_distribution(out.use));
    const auto hot = water.distribution.value;
    if (!t.take("use", water.use)) {
        const bool warm_enough = hot >= fahrenheit(105);
        t.fall_back("use", water.use,
                    warm_enough ? Fallback{"105 degF", "comfortable shower; common practice, no source"}
                                : Fallback{fmt::format("{:g} degF", hot.value() * 1.8 - 459.67),
                                           "no hotter than the plant sends"});
    }
    if (t.ok() && hot <= coldest)
        t.refuse("distribution",
                 fmt::format("{} is not above the coldest water, {}", fahrenheit_text(hot), fahrenheit_text(coldest)),
                 "a temperature above supply.coldest");
    if (t.ok() && water.use.value > hot && !water.use.assumed)
        t.refuse("use",
                 fmt::format("{} is hotter than the water leaving the plant, {}", fahrenheit_text(water.use.value),
                             fahrenheit_text(hot)),
                 "at most water.distribution");
    if (t.ok() && water.use.value <= coldest)
        t.refuse("use",
                 fmt::format("{} is not above the coldest water, {}", fahrenheit_text(water.use.value),
                             fahrenheit_text(coldest)),
                 "a temperature above supply.coldest");
    if (auto done = t.finish(); !done) return done;
    return judge_blocks(top, out);
}

Result<void> read_recirculation(const Top& top, Survey& out) {
    auto& loop = out.recirculation;
    const bool connected = top.connections && top.connections->get("recirculation");
    Table t("recirculation", top.recirculation, out.assumed);
    if (!t.take("present", loop.present)) t.fall_back("present", loop.present, usual_loop(out, connected));
    const bool loss = t.take("loss", loop.loss), flow = t.take("flow", loop.flow), drop = t.take("drop", loop.drop);
    if (t.ok() && loop.present.value) {
        if (!loss) t.fall_back("loss", loop.loss, flow && drop ? loss_of(loop) : usual_loss(out.use));
        if (!drop)
            t.fall_back("drop", loop.drop,
                        flow && loss ? drop_of(loop)
                                     : Fallback{"10 degF", "10 to 20 degF is usual; common practice, no source"});
    }
    if (Length head{}; t.take("head", head)) loop.head = head;
    read_branches(t, loop, out.assumed);
    if (t.ok() && connected && !loop.present.value)
        t.fail({"a point of connection for the return is given, but recirculation.present is false",
                "recirculation.present = true, or no [connections.recirculation]",
                top.connections->get("recirculation")->place()});
    return t.finish();
}

}  // namespace bw::survey
