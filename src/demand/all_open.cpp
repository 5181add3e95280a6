// SPDX-License-Identifier: MIT
// Every fixture wide open at once: more than that no plant can be asked for, whatever a curve says.
#include "code/fixture_probability.h"
#include "code/fixture_units.h"
#include "demand/methods.h"

namespace bw::demand {

Result<std::optional<Answer>> all_open_answer(const survey::Survey& survey) {
    Answer out;
    out.id = "all-open";
    out.title = "Every fixture wide open at once";
    reason::Step sum{.says = "", .formula = "Va = sum of n q", .given = {}, .result = {}};
    VolumeFlow all{};
    for (const auto& [fixture, count] : survey.use.fixtures) {
        if (count <= 0) continue;
        const auto drawn = code::drawn_flow(fixture);
        if (!drawn && !code::hot_units(fixture)) continue;
        if (!drawn) return std::optional<Answer>();
        const auto hot = hot_part(survey, fixture, drawn->flow, *survey.temperatures.distribution);
        if (!hot) return tl::unexpected(hot.error());
        all += static_cast<double>(count) * *hot;
        sum.says += fmt::format("{}{} {} at {} hot of {} drawn", sum.says.empty() ? "" : "; ", count,
                                text::name(fixture), say(*hot), say(drawn->flow));
        if (std::find(out.sources.begin(), out.sources.end(), drawn->source) == out.sources.end())
            out.sources.push_back(drawn->source);
    }
    if (!(all.value() > 0)) return std::optional<Answer>();
    sum.result = reason::Term{"Va", "all fixtures open, at the distribution temperature", units::amount(all)};
    out.derivation = {std::move(sum)};
    out.peak = all;
    out.says = "no moment can draw more than this: the greatest a method's answer may be";
    return std::optional<Answer>(std::move(out));
}

}  // namespace bw::demand
