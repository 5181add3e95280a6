// SPDX-License-Identifier: MIT
#include "draw/sheets.h"

#include <fmt/format.h>
#include <functional>

#include "draw/diagrams.h"
#include "draw/plan.h"

namespace bw::draw {

namespace {

std::vector<Planned> planned(const SheetContext& context) {
    const auto& result = context.result;
    std::vector<Planned> list{{"Plan", "sheet-plan.svg", draw_plan}};
    const auto& banks = result.chosen->layout.banks;
    for (const auto& bank : banks) {
        const bool two = result.chosen->layout.arrangement == plant::Arrangement::rack_two_sided;
        for (int side = 0; side < (two ? 2 : 1); ++side) {
            const auto name = fmt::format("bank {}{}", bank.number, two ? (side == 0 ? ", side A" : ", side B") : "");
            const auto file = fmt::format("sheet-front-{}{}.svg", bank.number, two ? (side == 0 ? "a" : "b") : "");
            list.push_back({"Front of " + name, file,
                            [&bank, side](Canvas& c, const SheetContext& d) { return draw_front(c, d, bank, side); }});
        }
        list.push_back({fmt::format("End of bank {}", bank.number), fmt::format("sheet-end-{}.svg", bank.number),
                        [&bank](Canvas& c, const SheetContext& d) { return draw_end(c, d, bank); }});
    }
    list.push_back({"Isometric", "sheet-isometric.svg", draw_isometric});
    for (const auto& diagram : {gas_riser, water_flow, vent_diagram, wiring})
        for (auto& sheet : diagram(context)) list.push_back(std::move(sheet));
    return list;
}

void draw_sheet(Canvas& canvas, const SheetContext& context, const Planned& sheet, int number, int of) {
    const auto scale = sheet.draw(canvas, context);
    draw_frame(canvas, context, {sheet.title, number, of}, scale);
}

}  // namespace

Paper usual_paper(units::System system) { return system == units::System::us ? Paper::tabloid : Paper::a3; }

bw::Result<Sheets> sheets(const design::Result& result, const catalogue::Catalogue& catalogue, units::System system,
                          Paper paper) {
    if (!result.chosen)
        return fail("nothing fits in the room, so there is nothing to draw", "a survey with a plant that fits");
    const auto solved = design::solved(result);
    const SheetContext context{result, catalogue, solved, system, size_of(paper)};
    const Meta meta{result.survey.job, result.survey.prepared_by, "Sheets of a bank of water heaters",
                    result.survey.date};
    const auto list = planned(context);
    const int of = static_cast<int>(list.size());
    Sheets out;
    Canvas canvas(context.size.width, context.size.height);
    for (int i = 0; i < of; ++i) {
        const auto& sheet = list[static_cast<std::size_t>(i)];
        if (i > 0) canvas.next_page();
        canvas.bookmark(sheet.title, 0);
        draw_sheet(canvas, context, sheet, i + 1, of);
        out.svg.emplace_back(sheet.file, canvas.svg(i + 1));
    }
    out.pdf = canvas.pdf(meta);
    return out;
}

}  // namespace bw::draw
