// SPDX-License-Identifier: MIT
// Cover, decisions, assumptions and cautions.
#include <fmt/format.h>

#include "paper/cautions.h"
#include "paper/checks.h"
#include "paper/report_parts.h"

namespace bw::paper {

namespace {

using reason::Status;
using units::System;

std::string verdict(const design::Tally& t) {
    if (t.fail > 0)
        return fmt::format("{} {} fail: not to be built as it is", t.fail, t.fail == 1 ? "check" : "checks");
    if (t.refer > 0)
        return fmt::format("{} {} a licensed person or a site confirmation", t.refer,
                           t.refer == 1 ? "point needs" : "points need");
    return "Proved: every check passes";
}

void set_tally(Flow& flow, const design::Tally& t) {
    struct Box {
        Status status;
        int count;
        const char* label;
    };
    const Box boxes[] = {{Status::pass, t.pass, "pass"},
                         {Status::tight, t.tight, "tight (under 5 % margin)"},
                         {Status::fail, t.fail, "fail"},
                         {Status::refer, t.refer, "refer"}};
    const double w = flow.width() / 4, y = flow.y();
    for (int i = 0; i < 4; ++i) {
        const auto edge = boxes[i].count ? colour(boxes[i].status) : draw::pale;
        const double x = flow.left() + i * w;
        flow.canvas().rectangle({x + 2, y}, w - 4, 46, {.width = 0.8, .colour = edge});
        flow.canvas().text({x + w / 2, y + 5}, std::to_string(boxes[i].count),
                           {.size = 20, .bold = true, .colour = edge, .anchor = draw::Anchor::centre});
        flow.canvas().text({x + w / 2, y + 31}, boxes[i].label,
                           {.size = 8, .colour = draw::grey, .anchor = draw::Anchor::centre});
    }
    flow.space(58);
}

void set_signatures(Flow& flow) {
    flow.need(90);
    flow.space(10);
    const char* who[] = {"Prepared by", "Licensed gas fitter or plumber", "Engineer of record or inspector"};
    const double w = flow.width() / 3, y = flow.y() + 34;
    for (int i = 0; i < 3; ++i) {
        const double x = flow.left() + i * w;
        flow.canvas().line({x, y}, {x + w - 14, y}, {.width = 0.6});
        flow.canvas().text({x, y + 3}, who[i], {.size = 7.5, .colour = draw::grey});
        flow.canvas().text({x, y + 13}, "name, licence, date", {.size = 7, .colour = draw::grey});
    }
    flow.space(64);
}

}  // namespace

void set_cover(Flow& flow, const design::Result& result, const catalogue::Catalogue& catalogue, System system) {
    const auto& survey = result.survey;
    const auto t = design::tally(result.checks);
    flow.space(30);
    flow.paragraph("Proof of plant", {.size = 11, .colour = draw::grey});
    flow.canvas().bookmark(survey.job, 0);
    flow.paragraph(survey.job, {.size = 22, .bold = true});
    flow.space(6);
    if (!survey.prepared_by.empty()) flow.fact("Prepared by", survey.prepared_by);
    if (!survey.date.empty()) flow.fact("Date", survey.date);
    if (!survey.revision.empty()) flow.fact("Revision", survey.revision);
    const auto* heater = catalogue.heater(result.capacity.heater);
    flow.fact("Heaters", fmt::format("{} of {} ({} needed, {} spare)", result.capacity.installed,
                                     heater ? heater->title : result.capacity.heater, result.capacity.needed,
                                     result.capacity.spare));
    flow.fact("Peak demand", units::print(units::amount(result.demand.peak), system));
    if (result.chosen) flow.fact("Place", result.chosen->layout.in_words(system));
    std::string codes;
    for (const auto& code : survey.codes) codes += (codes.empty() ? "" : ", ") + code.document + " " + code.edition;
    flow.fact("Codes adopted", codes.empty() ? "none stated: every code check refers" : codes);
    flow.space(14);
    flow.paragraph(verdict(t), {.size = 13,
                                .bold = true,
                                .colour = colour(t.fail    ? Status::fail
                                                 : t.refer ? Status::refer
                                                           : Status::pass)});
    flow.space(4);
    set_tally(flow, t);
    flow.notice("What this is and is not",
                "Calculated from the survey by published methods, each named where it is used. It is not a permit, a "
                "stamped design or a "
                "maker's approval: the local code, the makers' instructions and the licensed people on the job decide. "
                "A point marked "
                "'refer' was not judged here. Demo equipment and prices are invented and say so.",
                colour(Status::refer));
    set_signatures(flow);
}

void set_decisions(Flow& flow, const design::Result& result, System system) {
    flow.heading(0, "What must be decided");
    const auto list = [&](Status status, const std::string& title, const std::string& none) {
        flow.heading(1, title);
        std::vector<Row> rows;
        for (const auto& check : result.checks) {
            if (check.status != status) continue;
            const auto value =
                check.value ? units::print(*check.value, system) + (check.limit ? ", " + limit_text(check, system) : "")
                            : std::string();
            rows.push_back({{check.title, true, colour(status)},
                            check.says + (value.empty() ? "" : " (" + value + ")"),
                            check.id});
        }
        if (rows.empty())
            flow.paragraph(none);
        else
            flow.table({{"Point", 2.2}, {"What", 4.4}, {"Check", 2}}, rows, 7.5);
    };
    list(Status::fail, "Fails", "No check fails.");
    list(Status::tight, "Tight: under 5 % of margin", "No check is tight.");
    list(Status::refer, "Refers: for a licensed person or a site confirmation", "Nothing refers.");
}

void set_assumed(Flow& flow, const design::Result& result) {
    flow.heading(0, "Assumed, to be confirmed on site");
    if (result.survey.assumed.empty()) {
        flow.paragraph("The survey gave everything; nothing was assumed.");
        return;
    }
    flow.paragraph(
        "The survey did not say these. Confirm each and put it in the survey; those that bear on safety make every "
        "check "
        "that rests on them refer until then.");
    std::vector<Row> rows;
    for (const auto& a : result.survey.assumed)
        rows.push_back(
            {{a.field, a.safety}, a.value, a.why, a.safety ? Cell("safety", true, colour(Status::refer)) : Cell("")});
    flow.table({{"Field", 2.4}, {"Taken as", 1.6}, {"Why", 4}, {"Bears on", 0.9}}, rows, 8);
}

void set_cautions(Flow& flow) {
    flow.heading(0, "Cautions");
    flow.paragraph(
        "Common practice, no source. They add to the makers' instructions and the site's own safety plan and replace "
        "neither.",
        {.size = 9, .italic = true, .colour = draw::grey});
    for (const auto& caution : cautions)
        flow.notice(std::string(caution.hazard), std::string(caution.says), colour(Status::fail));
}

}  // namespace bw::paper
