// SPDX-License-Identifier: MIT
#include "code/hourly_demand.h"

#include "demand/methods.h"

namespace bw::demand {

namespace {

using text::Fixture;

struct Counted {
    std::map<Fixture, int> rows;
    std::string left_out;
};

void leave_out(Counted& counted, const std::string& what) {
    counted.left_out += (counted.left_out.empty() ? "" : ", ") + what;
}

/// The survey's fixtures under the table's rows, and its shower blocks as showers.
Counted count_rows(const survey::Survey& survey) {
    Counted out;
    auto building = *survey.use.building;
    for (const auto& [fixture, count] : survey.use.fixtures) {
        if (count <= 0 || fixture == Fixture::urinal || fixture == Fixture::water_closet) continue;
        auto row = code::hourly_row(fixture);
        if (row && code::hourly_rate(building, *row))
            out.rows[*row] += count;
        else
            leave_out(out, fmt::format("{} {}", count, text::name(fixture)));
    }
    for (const auto& block : survey.use.blocks) {
        if (block.shower_heads > 0 && code::hourly_rate(building, Fixture::shower))
            out.rows[Fixture::shower] += block.shower_heads;
        else
            leave_out(out, "block \"" + block.name + "\"");
    }
    return out;
}

}  // namespace

Result<std::optional<Answer>> hourly_answer(const survey::Survey& survey) {
    auto counted = count_rows(survey);
    if (counted.rows.empty()) return std::optional<Answer>();
    auto hourly = code::hourly_demand(*survey.use.building, counted.rows);
    if (!hourly) return tl::unexpected(hourly.error());
    // The table's gallons are at 140 degF; the same heat is more gallons of cooler water.
    auto cold = *survey.supply.coldest;
    auto hot = *survey.temperatures.distribution;
    auto converted = gallons_for_140(survey);
    if (!converted) return tl::unexpected(converted.error());
    const double factor = *converted;
    Answer out;
    out.id = "hourly";
    out.title = "Hourly fixture method";
    out.possible_hour = factor * hourly->value.possible;
    out.probable_hour = factor * hourly->value.probable;
    out.storage = factor * hourly->value.storage;
    out.says =
        "an hour's gallons size tanks and their burners; they say nothing of the minute, so they do not govern "
        "heaters without a store";
    if (!counted.left_out.empty()) out.says += "; its table does not count " + counted.left_out;
    out.derivation = std::move(hourly->derivation);
    out.derivation.push_back(
        {"As water at the distribution temperature, for the same heat",
         "f = (140 degF - tc) / (th - tc)",
         {{"tc", "coldest supply", units::amount(cold)}, {"th", "distribution temperature", units::amount(hot)}},
         reason::Term{"f", "gallons for each gallon at 140 degF", units::number(factor)}});
    out.derivation.push_back({"Probable hour at the distribution temperature",
                              "probable x f",
                              {},
                              reason::Term{"probable", "probable maximum demand",
                                           units::amount(*out.probable_hour, units::Kind::hourly_flow)}});
    out.sources = std::move(hourly->sources);
    return std::optional<Answer>(std::move(out));
}

}  // namespace bw::demand
