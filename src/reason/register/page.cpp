// SPDX-License-Identifier: MIT
// docs/checks.md, made from the register.
#include <fmt/format.h>

#include "reason/register/register.h"

namespace bw::reason {
namespace {

constexpr std::string_view opening = R"(# Checks

Every check that is made, by its id. This page is made from the register of checks (`src/reason/register/`) by
`bankwright checks > docs/checks.md`; a test holds the two together. In an id `<n>` is a heater's number, `<b>` a bank's, `<w>` a wall's as in the
survey file, `<piece>` a piece's id, `<line>`, `<vent>`, `<terminal>` and `<thing>` names of parts of the plant, and `<service>` a service.

**How a check ends.** `pass` holds with 5 % or more to spare, or is a plain yes; `tight` holds with less; `fail` does not hold; `refer` is for a licensed
person or a site confirmation. Margin is (limit − value)/limit, signed so that positive is good. A temperature is a point on a scale and has no margin.

**When a passing check refers all the same** (`src/proof/policy.cpp`, the only place that decides it):

1. It cites a code clause and the survey adopts no code of that body of law (fuel gas, plumbing, mechanical, electrical, building, fire, structural, energy), or
   adopts another edition. Two codes of one law stand for one another: IFGC 2018 or NFPA 54 2018 will do. Standards (ASSE, NSF, ASME) need no adoption.
2. It leans on a survey field that was assumed and bears on safety (gas pressure, supply pressure, wall build, terminal surroundings, …).

A failing check stays failing: nothing unconfirmed excuses it. Local amendments are not worked in; `safety.amendments` always refers.

**Never fails.** A check marked † never fails: where it does not hold, a licensed person or a site confirmation decides.

**Standing.** Clauses marked *m* are from memory of the document; *r* were read in public text; *p* is common practice without a source.

**What may mend it** names the changes of the survey that the page offers to try.
)";

std::string line(const CheckRow& row) {
    return fmt::format("| `{}`{} | {} | {} | {} | {} | {} | {} |\n", std::string_view(row.id),
                       row.ends == Ends::only_refers ? " †" : "", std::string_view(row.title),
                       std::string_view(row.proves), std::string_view(row.from), std::string_view(row.source),
                       std::string_view(row.refers), describe(row.remedy));
}

}  // namespace

std::string register_page() {
    std::string page(opening);
    for (const auto& [group, rows] : check_register()) {
        page += fmt::format(
            "\n## {}\n\n| id | title | proves | from | source | refers when | what may mend it |\n"
            "|---|---|---|---|---|---|---|\n",
            row_of(group).title);
        for (const auto& row : rows) page += line(row);
    }
    return page;
}

}  // namespace bw::reason
