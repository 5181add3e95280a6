// SPDX-License-Identifier: MIT
#include "code/occupancy.h"

#include "demand/methods.h"

namespace bw::demand {

Result<std::optional<Answer>> occupancy_answer(const survey::Survey& survey) {
    Answer out;
    out.id = "occupancy";
    out.title = "Use by those served";
    out.says =
        "a day's and an hour's gallons of those served: they size stores and bills, and say nothing of the minute";
    code::OccupancyUse sum;
    for (const auto& served : survey.use.occupancies) {
        if (served.count <= 0) continue;
        auto kind = text::named<code::Occupancy>(served.kind);
        if (!kind) return tl::unexpected(kind.error());
        auto use = code::occupancy_use_between(*kind, served.count);
        if (!use) return tl::unexpected(use.error());
        sum.max_hour += use->value.max_hour;
        sum.max_day += use->value.max_day;
        sum.average_day += use->value.average_day;
        out.derivation.push_back({fmt::format("{} {}", served.count, served.kind)});
        out.derivation.insert(out.derivation.end(), use->derivation.begin(), use->derivation.end());
        if (out.sources.empty()) out.sources = use->sources;
    }
    if (!(sum.max_hour.value() > 0)) return std::optional<Answer>();
    auto factor = gallons_for_140(survey);
    if (!factor) return tl::unexpected(factor.error());
    out.derivation.push_back(
        {"As water at the distribution temperature, for the same heat; the table names no "
         "temperature, and 140 degF is taken as in the table beside it",
         "f = (140 degF - tc) / (th - tc)",
         {},
         reason::Term{"f", "gallons for each gallon at 140 degF", units::number(*factor)}});
    out.probable_hour = *factor * sum.max_hour / hour;
    out.max_day = *factor * sum.max_day;
    out.average_day = *factor * sum.average_day;
    return std::optional<Answer>(std::move(out));
}

}  // namespace bw::demand
