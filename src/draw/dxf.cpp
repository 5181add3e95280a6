// SPDX-License-Identifier: MIT
// Plan, elevations and isometric as full-size geometry for CAD programs.
#include <fmt/format.h>

#include <algorithm>

#include "draw/bank_view.h"
#include "draw/dxf_view.h"
#include "draw/plan.h"
#include "draw/sheets.h"

namespace bw::draw {
namespace {

using text::Part;

class Drawing {
public:
    explicit Drawing(const SheetContext& context)
        : context_(context),
          plant_(context.result.chosen->built.plant),
          file_(context.system == units::System::us ? 1 : 25, context.system == units::System::us ? 0.5 : 12) {
        add_layers(file_);
    }

    std::string all() {
        plan();
        const auto& layout = context_.result.chosen->layout;
        for (const auto& bank : layout.banks) {
            const bool two = layout.arrangement == plant::Arrangement::rack_two_sided;
            for (int side = 0; side < (two ? 2 : 1); ++side)
                elevation(fmt::format("Front of bank {}{}", bank.number,
                                      !two        ? ""
                                      : side == 0 ? ", side A"
                                                  : ", side B"),
                          bank, front_view(plant_, bank, side), side);
            elevation(fmt::format("End of bank {}", bank.number), bank, end_view(bank), -1);
        }
        isometric();
        return file_.finish({-margin_, -margin_}, {x_, high_ + margin_});
    }

private:
    void plan() {
        const auto at = plan_stations(context_);
        const auto [left, right] = std::ranges::minmax(at.across);
        const auto [low, high] = std::ranges::minmax(at.up);
        DxfView view(file_, context_, from_above, {left, low}, {0, 0});
        view.room(context_.result.survey.room);
        view.solids(scene_of(plant_, [](const plant::Piece& p) { return p.part != Part::connection; }), true);
        for (const auto& p : plant_.pieces)
            if (p.part == Part::heater) view.number(p);
        view.chain(at.across, high + 0.35, false);
        view.chain(at.up, left - 0.35, true);
        title("Plan", view, left, right, low, high);
    }

    /// `side` names whose heaters are numbered: -1 for nobody's.
    void elevation(const std::string& name, const plant::Bank& bank, const BankView& seen, int side) {
        const auto ceiling = ceiling_lines(context_.result.survey.room, seen);
        DxfView view(file_, context_, seen.axes, {seen.low, 0}, {x_, 0});
        view.out().line("ROOM", view.at(seen.low, 0), view.at(seen.high, 0));
        for (const auto& line : ceiling)
            view.out().line("ROOM", view.at(line.from, line.left), view.at(line.to, line.right));
        view.solids(scene_of(plant_, [&](const plant::Piece& p) { return shows(seen, p); }), true);
        for (const auto& stand : bank.stands)
            if (const int at = plant_.find("heater-" + std::to_string(stand.number)); stand.side == side && at >= 0)
                view.number(plant_.pieces[static_cast<std::size_t>(at)]);
        view.chain(seen.stations, -0.25, false);
        view.chain(bank_heights(context_, bank, ceiling), seen.low - 0.2, true);
        title(name, view, seen.low, seen.high, -0.2, top_of(ceiling));
    }

    void isometric() {
        const auto whole = isometric_view(context_, {0, 0, 1, 1});
        DxfView view(file_, context_, whole.axes, {whole.low.x, whole.low.y}, {x_, 0});
        view.solids(isometric_scene(context_, whole.axes), false);
        for (const auto& p : plant_.pieces)
            if (p.part == Part::heater) view.number(p);
        title("Isometric", view, whole.low.x, whole.high.x, whole.low.y, whole.high.y);
    }

    void title(const std::string& name, const DxfView& view, double left, double right, double low, double high) {
        view.out().text("TEXT", view.at((left + right) / 2, low - 0.4), view.measure(0.1), name);
        margin_ = view.measure(0.8);
        x_ = view.at(right, 0).x + view.measure(1.6);
        high_ = std::max(high_, view.at(0, high).y);
    }

    const SheetContext& context_;
    const plant::Plant& plant_;
    DxfFile file_;
    double x_ = 0, high_ = 0, margin_ = 0;
};

}  // namespace

bw::Result<std::string> dxf(const design::Result& result, const catalogue::Catalogue& catalogue, units::System system) {
    if (!result.chosen)
        return fail("nothing fits in the room, so there is nothing to draw", "a survey with a plant that fits");
    const design::Solved none;
    return Drawing({result, catalogue, none, system, size_of(usual_paper(system))}).all();
}

}  // namespace bw::draw
