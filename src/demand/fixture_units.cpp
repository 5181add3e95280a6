// SPDX-License-Identifier: MIT
#include "code/fixture_units.h"

#include "demand/methods.h"

namespace bw::demand {

namespace {

using code::UnitCurve;

struct UnitSum {
    double units = 0;
    reason::Step step;
    reason::Sources sources;
};

UnitSum sum_units(const survey::Survey& survey) {
    UnitSum out;
    out.step.formula = "W = sum of count x hot units";
    for (const auto& [fixture, count] : survey.use.fixtures) {
        auto hot = code::hot_units(fixture);
        if (!hot || count <= 0) continue;
        out.units += count * hot->units;
        out.step.says += fmt::format("{}{} {} at {:g} ({})", out.step.says.empty() ? "Hot fixture units: " : "; ",
                                     count, text::name(fixture), hot->units, hot->row);
        if (std::find(out.sources.begin(), out.sources.end(), hot->source) == out.sources.end())
            out.sources.push_back(hot->source);
    }
    out.step.result = reason::Term{"W", "hot fixture units", units::number(out.units)};
    return out;
}

/// A curve begins at a few units; less than that draws no more than its first point.
Result<Answer> answer_by(UnitCurve curve, const UnitSum& sum, const char* id) {
    double least = code::range(curve).least;
    auto flow = code::flow_for_units(std::max(sum.units, least), curve);
    if (!flow) return tl::unexpected(flow.error());
    Answer out;
    out.id = id;
    out.title = "Fixture units, hot column: " + code::title(curve);
    out.peak = flow->value;
    out.derivation.push_back(sum.step);
    if (sum.units < least)
        out.derivation.push_back({fmt::format("The curve begins at {:g} units, which fewer cannot exceed", least)});
    out.derivation.insert(out.derivation.end(), flow->derivation.begin(), flow->derivation.end());
    out.sources = sum.sources;
    out.sources.insert(out.sources.end(), flow->sources.begin(), flow->sources.end());
    return out;
}

}  // namespace

Result<std::vector<Answer>> fixture_unit_answers(const survey::Survey& survey) {
    UnitSum sum = sum_units(survey);
    std::vector<Answer> out;
    if (sum.units <= 0) return out;
    auto ipc = answer_by(UnitCurve::ipc_flush_tank, sum, "fixture-units");
    auto nspc = answer_by(UnitCurve::nspc_flush_tank, sum, "fixture-units-nspc");
    const char* beside = "beside the others for comparison: printed curves disagree at small loads";
    for (auto* answer : {&ipc, &nspc}) {
        if (!*answer) continue;  // past the end of its curve
        (*answer)->says = beside;
        out.push_back(std::move(**answer));
    }
    return out;
}

}  // namespace bw::demand
