// SPDX-License-Identifier: MIT
// Flow of fixtures running at once, by chance: exact, its normal approximation, and given that one runs.
#include "demand/methods.h"

namespace bw::demand {

namespace {

reason::Step loads_step(const Loads& loads, const Spread& spread) {
    reason::Step step;
    step.formula = "H = sum of n p";
    for (const auto& load : loads.loads)
        step.says += fmt::format("{}{} {}: p = {:.4g} ({}), {} hot of {} drawn",
                                 step.says.empty() ? "Fixtures that may run in the busiest hour. " : "; ", load.count,
                                 text::name(load.fixture), load.busy, load.why, say(load.hot), say(load.drawn));
    step.result = reason::Term{"H", "mean number running", units::number(spread.running())};
    return step;
}

reason::Step result_step(std::string says, const char* formula, double share, VolumeFlow flow) {
    return {std::move(says),
            formula,
            {{"s", "percentile", units::percent(share)}},
            reason::Term{"Q", "flow at the distribution temperature", units::amount(flow)}};
}

Answer exact(const Loads& loads, const Spread& spread, double share) {
    Answer out;
    out.id = "fixture-probability";
    out.title = "Fixture probability, exact";
    out.peak = spread.percentile(share);
    out.derivation = {
        loads_step(loads, spread),
        result_step(
            fmt::format("Sum of all fixtures, each running or not, on a lattice of 0.01 gpm; nothing runs {:.3g} "
                        "of the time; chances left out at the ends: {:.1g}",
                        spread.idle(), spread.dropped()),
            "P(V <= Q) >= s", share, *out.peak)};
    return out;
}

Answer conditioned(const Spread& spread, double share) {
    Answer out;
    out.id = "fixture-probability-conditioned";
    out.title = "Fixture probability, given that one runs";
    out.peak = spread.percentile_if_running(share);
    out.derivation = {result_step(fmt::format("Among the moments at which at least one fixture runs; none runs with "
                                              "chance {:.3g}",
                                              spread.idle()),
                                  "(P(V <= Q) - P(0)) / (1 - P(0)) >= s", share, *out.peak)};
    out.says = "beside the exact distribution: it matters where little runs, and then it is the larger of the two";
    return out;
}

Answer normal(const Spread& spread, double share) {
    Answer out;
    out.id = "fixture-probability-normal";
    out.title = "Fixture probability, normal approximation";
    out.peak = spread.normal_percentile(share);
    const bool within = spread.running() >= normal_from;
    out.derivation = {{"Mean and deviation of the sum, taken as normal",
                       "Q = sum n p q + z sqrt(sum n p (1 - p) q^2)",
                       {{"m", "mean flow", units::amount(spread.mean())},
                        {"d", "standard deviation", units::amount(spread.deviation())},
                        {"z", "standard deviations", units::number(normal_quantile(share))},
                        {"H", "mean number running", units::number(spread.running())}},
                       reason::Term{"Q", "flow at the distribution temperature", units::amount(*out.peak)}}};
    out.says = within ? "beside the exact distribution, within its limit of five running on the mean"
                      : fmt::format("outside its limit: {:.2g} run on the mean and it wants five; shown for comparison",
                                    spread.running());
    return out;
}

}  // namespace

std::vector<Answer> probability_answers(const Loads& loads, const Spread& spread, double share) {
    if (loads.loads.empty()) return {};
    std::vector<Answer> out{exact(loads, spread, share), conditioned(spread, share), normal(spread, share)};
    for (auto& answer : out) {
        answer.sources = loads.sources;
        answer.sources.push_back(
            {"exact distribution of a sum of independent fixtures", "", "", reason::Standing::computed});
    }
    const bool studied =
        std::all_of(loads.loads.begin(), loads.loads.end(), [](const FixtureLoad& load) { return load.studied; });
    out.front().says = studied ? "exact for the chances it is given"
                               : "exact for the chances it is given, which for this building are our reading of the "
                                 "handbook's hour and no one's measurement: beside the others for comparison";
    if (!loads.without_chance.empty())
        out.front().says += fmt::format("; no chance is known for {}", fmt::join(loads.without_chance, ", "));
    return out;
}

}  // namespace bw::demand
