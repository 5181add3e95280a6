// SPDX-License-Identifier: MIT
#include "demand/methods.h"

namespace bw::demand {

namespace {

constexpr int day = 24 * 60;

std::string clock(int minutes) { return fmt::format("{:02}:{:02}", minutes / 60 % 24, minutes % 60); }

std::string times(const survey::Block& block) {
    std::string out;
    for (const auto& run : block.runs)
        out += fmt::format("{}{} to {}", out.empty() ? ", " : " and ", clock(run.from), clock(run.to));
    return out;
}

Result<VolumeFlow> hot_flow(const survey::Survey& survey, const survey::Block& block, reason::Derivation& derivation) {
    auto cold = *survey.supply.coldest;
    auto hot = *survey.temperatures.distribution;
    auto share = hot_share(cold, block.temperature, hot);
    if (!share) return fail("block \"" + block.name + "\": " + share.error().what, share.error().expected);
    VolumeFlow flow = block.count * *share * block.flow;
    derivation.push_back({fmt::format("{}: all {} at full flow together, mixed from hot and cold{}", block.name,
                                      block.count, times(block)),
                          "Vh = n q (tm - tc) / (th - tc)",
                          {{"n", "number", units::count(block.count)},
                           {"q", "flow of each, as drawn", units::amount(block.flow)},
                           {"tm", "temperature as drawn", units::amount(block.temperature)},
                           {"tc", "coldest supply", units::amount(cold)},
                           {"th", "distribution temperature", units::amount(hot)}},
                          reason::Term{"Vh", "hot water", units::amount(flow)}});
    return flow;
}

/// Adds a block to the day's minutes; one without times runs in the busiest hour.
void lay(BlockLoads& out, const survey::Block& block, VolumeFlow flow, int busiest) {
    auto runs = block.runs;
    if (runs.empty()) runs.push_back({busiest * 60, busiest * 60 + 60});
    for (const auto& run : runs)
        for (int m = run.from; m < run.to; ++m) out.minutes[static_cast<std::size_t>(m % day)] += flow;
}

}  // namespace

Result<std::optional<BlockLoads>> block_loads(const survey::Survey& survey, int busiest) {
    BlockLoads out;
    auto& answer = out.answer;
    answer.id = "blocks";
    answer.governs = true;
    out.minutes.assign(day, VolumeFlow());
    bool timed = false;
    for (const auto& block : survey.use.blocks) {
        if (block.count <= 0) continue;
        auto flow = hot_flow(survey, block, answer.derivation);
        if (!flow) return tl::unexpected(flow.error());
        lay(out, block, *flow, busiest);
        timed = timed || !block.runs.empty();
    }
    if (answer.derivation.empty()) return std::optional<BlockLoads>();
    const auto largest = std::max_element(out.minutes.begin(), out.minutes.end());
    const auto at = static_cast<int>(largest - out.minutes.begin());
    answer.peak = *largest;
    answer.title = timed ? "Block loads, the largest of the timetable" : "Block loads together at full flow";
    answer.says =
        "gang showers, washers and other blocks start together, so no diversity is taken; they are added to the "
        "fixtures";
    if (timed)
        answer.says +=
            fmt::format("; by the timetable most runs from {}, and the fixtures' peak is taken to meet it", clock(at));
    if (answer.derivation.size() > 1)
        answer.derivation.push_back({timed ? "Blocks that run at the same time" : "Sum of the blocks",
                                     "Vb = sum of Vh",
                                     {},
                                     reason::Term{"Vb", "block loads, hot water", units::amount(*largest)}});
    answer.sources = {{"", "", "", reason::Standing::common_practice}};
    return std::optional<BlockLoads>(std::move(out));
}

}  // namespace bw::demand
