// SPDX-License-Identifier: MIT
#include "matter/mains_water.h"
#include "reckon/topic.h"

namespace bw::reckon {

namespace {

using units::Kind;

Result<Findings> run(const Inputs& in, const catalogue::Catalogue&) {
    const matter::MainsClimate climate{in.get<units::Temperature>("annual-mean-air"),
                                       in.get<units::TemperatureDifference>("air-swing"),
                                       in.word("hemisphere") == "southern"};
    const double day = in.number("day");
    const auto found = matter::mains_temperature(climate, day);
    if (!found) return tl::unexpected(found.error());
    const auto coldest = matter::coldest_mains(climate);
    if (!coldest) return tl::unexpected(coldest.error());
    return Findings{{{"temperature", units::amount(*found), "mains water on the day"},
                     {"coldest", units::amount(coldest->temperature), "of the year"},
                     {"coldest-day", units::count(coldest->day), "of the year"}},
                    matter::mains_derivation(climate, day).value(),
                    matter::mains_sources()};
}

}  // namespace

Entry inlet_water() {
    return {{"inlet-water",
             "Temperature of the mains water by the year's air temperature",
             {{.name = "annual-mean-air", .says = "mean outdoor air of the year", .kind = Kind::temperature},
              {.name = "air-swing",
               .says = "warmest less coldest month's mean air",
               .kind = Kind::temperature_difference,
               .positive = false},
              {.name = "day", .says = "of the year, 1 to 365", .form = Form::count},
              {.name = "hemisphere",
               .says = "which half of the earth",
               .form = Form::word,
               .required = false,
               .fallback = "northern",
               .choices = {"northern", "southern"}}}},
            run};
}

}  // namespace bw::reckon
