// SPDX-License-Identifier: MIT
#include "paper/network_plots.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>

namespace bw::paper {
namespace {

using draw::Anchor;
using draw::Colour;
using units::Kind;
using units::System;

constexpr Colour ink[] = {{0.16, 0.33, 0.55}, {0.72, 0.42, 0.12}, {0.20, 0.45, 0.28}, {0.45, 0.45, 0.48}};
constexpr double small = 7;

/// A plot from nothing up, with whole numbers along its foot.
struct Plot {
    double x, y, width, height, most;
    int first, last;
    [[nodiscard]] double up(double value) const { return y + height - height * std::clamp(value / most, 0.0, 1.0); }
    [[nodiscard]] double along(double number) const {
        return x + width * (number - first + 0.5) / std::max(1, last - first + 1);
    }
};

double step_of(double most) {
    const double rough = most / 5, power = std::pow(10.0, std::floor(std::log10(rough)));
    for (const double step : {1.0, 2.0, 5.0})
        if (step * power >= rough) return step * power;
    return 10 * power;
}

void scales(Flow& flow, const Plot& plot, const std::string& unit, const std::string& foot) {
    auto& canvas = flow.canvas();
    const double step = step_of(plot.most);
    for (double v = 0; v <= plot.most * (1 + 1e-9); v += step) {
        canvas.line({plot.x, plot.up(v)}, {plot.x + plot.width, plot.up(v)}, {.width = 0.3, .colour = draw::pale});
        canvas.text({plot.x - 5, plot.up(v) - 4}, fmt::format("{:g}", v),
                    {.size = small, .colour = draw::grey, .anchor = Anchor::right});
    }
    canvas.text({plot.x, plot.y - 12}, unit, {.size = small, .colour = draw::grey});
    for (int n = plot.first; n <= plot.last; ++n)
        canvas.text({plot.along(n), plot.y + plot.height + 3}, std::to_string(n),
                    {.size = small, .colour = draw::grey, .anchor = Anchor::centre});
    canvas.text({plot.x + plot.width, plot.y + plot.height + 13}, foot,
                {.size = small, .colour = draw::grey, .anchor = Anchor::right});
}

Plot place(Flow& flow, double height, double most, int first, int last) {
    flow.need(height + 44);
    flow.space(16);
    const Plot plot{flow.left() + 34, flow.y(), flow.width() - 40, height, most, first, last};
    flow.space(height + 28);
    return plot;
}

double shown(units::Pressure p, System system) {
    return units::spell(units::amount(p, Kind::gas_pressure), system).value;
}
std::string unit(System system) { return units::spell({1, Kind::gas_pressure}, system).unit; }

}  // namespace

void plot_gas(Flow& flow, const design::Result& result, System system) {
    std::vector<double> at;
    double least = 0;
    for (const auto& check : result.checks) {
        if (!check.id.starts_with("gas.pressure.heater-") || !check.value || !check.limit) continue;
        at.push_back(shown(units::Pressure::from_value(check.value->si), system));
        least = shown(units::Pressure::from_value(check.limit->si), system);
    }
    if (at.empty()) return;
    flow.heading(1, "Gas pressure at every heater, all firing");
    const double most = 1.1 * std::max(least, *std::ranges::max_element(at));
    const auto plot = place(flow, 90, most, 1, static_cast<int>(at.size()));
    scales(flow, plot, unit(system), "heater");
    auto& canvas = flow.canvas();
    const double wide = std::min(26.0, 0.6 * plot.width / static_cast<double>(at.size()));
    for (std::size_t n = 0; n < at.size(); ++n) {
        const double middle = plot.along(static_cast<double>(n) + 1), top = plot.up(at[n]);
        canvas.rectangle({middle - wide / 2, top}, wide, plot.y + plot.height - top, {.width = 0.2, .colour = ink[0]},
                         ink[0]);
        canvas.text({middle, top - 9}, fmt::format("{:.2f}", at[n]),
                    {.size = small, .anchor = Anchor::centre, .backed = true});
    }
    canvas.line({plot.x, plot.up(least)}, {plot.x + plot.width, plot.up(least)}, {.width = 1, .colour = ink[1]});
    canvas.text({plot.x + 3, plot.up(least) + 2}, fmt::format("least it needs, {:g}", std::round(least * 100) / 100),
                {.size = small, .bold = true, .colour = ink[1], .backed = true});
}

void set_vents_by_number(Flow& flow, const std::vector<design::CommonVent>& vents, System system) {
    if (vents.empty()) return;
    flow.heading(1, "Common vents by number firing");
    flow.paragraph(
        "The pressure an idle heater's damper must hold, dampers shut: for each number firing the worst of all choices "
        "of "
        "burning heaters. CAUTION: what leaks past a damper is carbon monoxide in the room; the heater's maker says "
        "what "
        "its damper holds.");
    double most = 0;
    int last = 1;
    for (const auto& vent : vents)
        for (const auto& row : vent.rows)
            most = std::max(most, shown(row.pressure, system)), last = std::max(last, row.firing);
    if (most <= 0) return;
    const auto plot = place(flow, 110, 1.1 * most, 1, last);
    scales(flow, plot, unit(system), "firing");
    auto& canvas = flow.canvas();
    std::vector<Row> rows;
    for (std::size_t v = 0; v < vents.size(); ++v) {
        const auto colour = ink[v % std::size(ink)];
        std::vector<draw::At> line;
        for (const auto& row : vents[v].rows) {
            line.push_back({plot.along(row.firing), plot.up(shown(row.pressure, system))});
            canvas.circle(line.back(), 2, {.width = 0.5, .colour = colour}, colour);
            rows.push_back({vents[v].terminal, std::to_string(row.firing),
                            fmt::format("{}", fmt::join(row.burning, ", ")), std::to_string(row.idle),
                            units::print(units::amount(row.pressure, Kind::gas_pressure), system)});
        }
        canvas.polyline(line, {.width = 1, .colour = colour});
        canvas.text({plot.x + 6, plot.y + 2 + 10 * static_cast<double>(v)}, vents[v].terminal,
                    {.size = small, .bold = true, .colour = colour, .backed = true});
    }
    flow.table({{"Way out", 1.4},
                {"Firing", 0.6, Anchor::right},
                {"Burning, the worst choice", 2.2},
                {"Idle", 0.6, Anchor::right},
                {"At its damper", 1, Anchor::right}},
               rows, 7.5);
}

}  // namespace bw::paper
