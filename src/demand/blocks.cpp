// SPDX-License-Identifier: MIT
#include "demand/methods.h"

namespace bw::demand {

namespace {

using units::Kind;

Result<VolumeFlow> hot_flow(const survey::Survey& survey, const survey::Block& block, reason::Derivation& derivation) {
    auto cold = *survey.supply.coldest;
    auto hot = *survey.temperatures.distribution;
    auto share = hot_share(cold, block.temperature, hot);
    if (!share) return fail("block \"" + block.name + "\": " + share.error().what, share.error().expected);
    VolumeFlow flow = block.count * *share * block.flow;
    derivation.push_back(
        {fmt::format("{}: all {} at full flow together, mixed from hot and cold", block.name, block.count),
         "Vh = n q (tm - tc) / (th - tc)",
         {{"n", "number", units::count(block.count)},
          {"q", "flow of each, as drawn", units::amount(block.flow)},
          {"tm", "temperature as drawn", units::amount(block.temperature)},
          {"tc", "coldest supply", units::amount(cold)},
          {"th", "distribution temperature", units::amount(hot)}},
         reason::Term{"Vh", "hot water", units::amount(flow)}});
    return flow;
}

}  // namespace

Result<std::optional<Answer>> block_answer(const survey::Survey& survey) {
    Answer out;
    out.id = "blocks";
    out.title = "Block loads together at full flow";
    out.says =
        "gang showers, washers and other blocks start together, so no diversity is taken; they are added to the "
        "fixtures";
    out.governs = true;
    VolumeFlow sum{};
    for (const auto& block : survey.use.blocks) {
        if (block.count <= 0) continue;
        auto flow = hot_flow(survey, block, out.derivation);
        if (!flow) return tl::unexpected(flow.error());
        sum += *flow;
    }
    if (out.derivation.empty()) return std::optional<Answer>();
    if (out.derivation.size() > 1)
        out.derivation.push_back({"Sum of the blocks",
                                  "Vb = sum of Vh",
                                  {},
                                  reason::Term{"Vb", "block loads, hot water", units::amount(sum)}});
    out.peak = sum;
    out.sources = {{"", "", "", reason::Standing::common_practice}};
    return std::optional<Answer>(std::move(out));
}

}  // namespace bw::demand
