// SPDX-License-Identifier: MIT
#include "code/occupancy.h"
#include "reckon/topic.h"

namespace bw::reckon {

namespace {

Result<Findings> run(const Inputs& in, const catalogue::Catalogue&) {
    const auto use = code::occupancy_use(in.named<code::Occupancy>("building"), in.number("count"));
    if (!use) return tl::unexpected(use.error());
    return Findings{{{"max-hour", units::amount(use->value.max_hour), "hot water of the largest hour"},
                     {"max-day", units::amount(use->value.max_day), "of the largest day"},
                     {"average-day", units::amount(use->value.average_day), "of an average day"}},
                    use->derivation,
                    use->sources};
}

}  // namespace

Entry occupancy_demand() {
    return {{"occupancy-demand",
             "Hot water of those served, by the handbook's table",
             {{.name = "building", .says = "who is served", .form = Form::word, .choices = words<code::Occupancy>()},
              {.name = "count", .says = "students, rooms, beds, people, meals or apartments", .form = Form::count}}},
            run};
}

}  // namespace bw::reckon
