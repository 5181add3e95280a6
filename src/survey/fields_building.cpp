// SPDX-License-Identifier: MIT
#include <array>

#include "survey/fields.h"
#include "survey/words.h"

namespace bw::survey::detail {

using units::Kind;

std::span<const Field> building_fields() {
    static const std::array list{
        Field{.path = "job.title",
              .form = Form::text,
              .says = "Title of the job, printed on every sheet.",
              .required = true},
        Field{.path = "job.prepared-by", .form = Form::text, .says = "Who prepared the survey."},
        Field{.path = "job.revision", .form = Form::text, .says = "Revision of the survey."},
        Field{.path = "job.date", .form = Form::text, .says = "Date of the survey, as it is to be printed."},

        Field{.path = "building.kind",
              .form = Form::word,
              .says = "Row of the hourly-demand table.",
              .words = text::names<Building>(),
              .fallback = "hotel",
              .why = "used only by the hourly method, which is shown for comparison"},
        Field{.path = "building.care",
              .form = Form::flag,
              .says = "Patients, elderly people or children live here.",
              .fallback = "false",
              .why = "no care home, hospital or nursery is named",
              .safety = true},
        Field{.path = "building.chemistry-in-air",
              .form = Form::flag,
              .says = "Laundry, pool or salon chemistry where the heaters would draw their air.",
              .safety = true},

        Field{.path = "building.percentile",
              .form = Form::quantity,
              .says = "Of the busiest hour's moments: the flow the probability method gives is exceeded in the rest.",
              .kind = Kind::percent,
              .least = "50.1 %",
              .greatest = "99.9 %",
              .fallback = "99 %",
              .why = "the percentile of the Peak Water Demand Study and UPC Appendix M"},
        Field{.path = "building.method",
              .form = Form::word,
              .says = "Whose peak governs; automatic goes by the adopted code and the kind of building.",
              .words = own_words<MethodPreference>(),
              .fallback = "automatic",
              .why = "by the adopted code and the kind of building"},

        Field{.path = "building.block.name", .form = Form::text, .says = "What it is.", .required = true},
        Field{.path = "building.block.count",
              .form = Form::whole,
              .says = "How many run together.",
              .least = "0",
              .greatest = "1000",
              .required = true},
        Field{.path = "building.block.flow",
              .form = Form::quantity,
              .says = "Flow of each, as it is drawn.",
              .kind = Kind::water_flow,
              .least = "0.05 gpm",
              .greatest = "200 gpm",
              .required = true},
        Field{.path = "building.block.temperature",
              .form = Form::quantity,
              .says = "Of the water as it is drawn, mixed; at most the temperature leaving the plant.",
              .kind = Kind::temperature,
              .least = "60 degF",
              .greatest = "210 degF",
              .required = true},
        Field{.path = "building.block.shower-heads",
              .form = Form::whole,
              .says = "Shower heads among them, for the hourly method.",
              .least = "0",
              .greatest = "1000"},
        Field{.path = "building.block.runs",
              .form = Form::text,
              .says = "Times of the day it runs, \"06:00-07:30, 18:00-19:00\"; left out: in the busiest hour."},

        Field{.path = "building.occupancy.kind",
              .form = Form::word,
              .says = "Row of the occupancy table.",
              .words = occupancy_words(),
              .required = true},
        Field{.path = "building.occupancy.count",
              .form = Form::whole,
              .says = "People, rooms, beds, meals or dwellings, as that row counts.",
              .least = "0",
              .greatest = "200000",
              .required = true},
    };
    return list;
}

}  // namespace bw::survey::detail
