// SPDX-License-Identifier: MIT
#include "paper/demand_plots.h"

#include <fmt/format.h>
#include <algorithm>
#include <cmath>

namespace bw::paper {

namespace {

using draw::Anchor;
using draw::At;
using draw::Colour;
using units::amount;
using units::Amount;
using units::Kind;
using units::System;

constexpr Colour strong{0.16, 0.33, 0.55}, mild{0.62, 0.71, 0.82}, warm{0.72, 0.42, 0.12},
    spare_green{0.20, 0.45, 0.28};
constexpr double small = 7;

/// A round step that divides `most` into at most six.
double round_step(double most) {
    const double rough = most / 6, power = std::pow(10.0, std::floor(std::log10(rough)));
    for (const double step : {1.0, 2.0, 5.0, 10.0})
        if (step * power >= rough) return step * power;
    return 10 * power;
}

double value_of(Amount a, System system) { return units::spell(a, system).value; }
std::string unit_of(Kind kind, System system) { return units::spell({1, kind}, system).unit; }

/// A frame of paper with its scales.
struct Frame {
    double x, y, width, height;
    double most;  ///< of the scale of amounts, from 0
    [[nodiscard]] double across(double value) const { return x + width * std::clamp(value / most, 0.0, 1.0); }
    [[nodiscard]] double up(double value) const { return y + height - height * std::clamp(value / most, 0.0, 1.0); }
};

void note(draw::Canvas& canvas, At at, const std::string& text, Colour colour, Anchor anchor, bool bold = false) {
    canvas.text(at, text, {.size = small, .bold = bold, .colour = colour, .anchor = anchor});
}

/// Upright lines with their amounts below, and the unit.
void scale_across(draw::Canvas& canvas, const Frame& frame, const std::string& unit) {
    const double step = round_step(frame.most);
    for (double v = 0; v <= frame.most * (1 + 1e-9); v += step) {
        const double at = frame.across(v);
        canvas.line({at, frame.y}, {at, frame.y + frame.height}, {.width = 0.3, .colour = draw::pale});
        note(canvas, {at, frame.y + frame.height + 3}, fmt::format("{:g}", v), draw::grey, Anchor::centre);
    }
    note(canvas, {frame.x + frame.width, frame.y + frame.height + 12}, unit, draw::grey, Anchor::right);
}

struct Bar {
    std::string title, text;
    double value = 0, blocks = 0;  ///< of the value, the block loads
    bool governs = false, hourly = false;
};

/// A title short enough to stand beside a bar.
std::string short_title(const demand::Answer& a) {
    if (a.id == "fixture-units") return "Fixture units, IPC curve";
    if (a.id == "fixture-units-nspc") return "Fixture units, NSPC curve";
    if (a.id == "all-open") return "All open at once";
    if (a.id == "fixture-probability") return "Probability, exact";
    if (a.id == "fixture-probability-conditioned") return "Probability, given that one runs";
    if (a.id == "fixture-probability-normal") return "Probability, normal";
    return a.title;
}

/// Methods that say a flow, with the block loads they are added to; hours as their mean flow.
std::vector<Bar> bars_of(const demand::Demand& d, System system) {
    std::vector<Bar> out;
    for (const auto& a : d.answers) {
        if (a.id == "blocks") continue;
        Bar bar{short_title(a), {}, 0, 0, a.governs, !a.peak};
        const auto flow = a.peak ? *a.peak + d.blocks : a.probable_hour.value_or(units::VolumeFlow());
        bar.value = value_of(amount(flow), system);
        bar.blocks = a.peak ? value_of(amount(d.blocks), system) : 0;
        bar.text = a.peak ? units::print(amount(flow), system) : units::print(amount(flow, Kind::hourly_flow), system);
        out.push_back(std::move(bar));
    }
    if (out.empty()) {
        const double blocks = value_of(amount(d.blocks), system);
        out.push_back({"Block loads", units::print(amount(d.blocks), system), blocks, blocks, true, false});
    }
    return out;
}

void draw_bar(draw::Canvas& canvas, const Frame& frame, const Bar& bar, double y) {
    constexpr double thick = 9;
    const Colour colour = bar.governs ? strong : mild;
    const double end = frame.across(bar.value), split = frame.across(bar.blocks);
    if (bar.hourly)
        canvas.rectangle({frame.x, y}, end - frame.x, thick, {.width = 0.6, .colour = colour}, draw::white);
    else
        canvas.rectangle({frame.x, y}, end - frame.x, thick, {.width = 0.2, .colour = colour}, colour);
    if (bar.blocks > 0 && !bar.hourly)
        canvas.rectangle({frame.x, y}, split - frame.x, thick, {.width = 0.2, .colour = warm}, warm);
    canvas.text({frame.x - 5, y - 0.5}, bar.title, {.size = small, .bold = bar.governs, .anchor = Anchor::right});
    canvas.text({end + 4, y - 0.5}, bar.text,
                {.size = small, .bold = bar.governs, .colour = bar.governs ? strong : draw::grey, .backed = true});
}

void mark_across(draw::Canvas& canvas, const Frame& frame, double value, const std::string& text, Colour colour,
                 Anchor anchor) {
    const double at = frame.across(value);
    canvas.line({at, frame.y - 4}, {at, frame.y + frame.height}, {.width = 0.9, .colour = colour, .dash = {3, 2}});
    note(canvas, {at + (anchor == Anchor::left ? 2 : -2), frame.y - 13}, text, colour, anchor);
}

constexpr double least_chance = 1e-9;

/// Height of a chance on a scale of powers of ten.
double level(const Frame& frame, double chance) {
    const double share = std::log10(std::max(chance, least_chance)) / std::log10(least_chance);
    return frame.y + frame.height * share;
}

std::string chance_label(int power) {
    static constexpr const char* words[] = {"always",           "1 in 10",       "1 in 100",       "1 in 1,000",
                                            "1 in 10,000",      "1 in 100,000",  "1 in a million", "1 in 10 million",
                                            "1 in 100 million", "1 in a billion"};
    return words[power];
}

void scale_chances(draw::Canvas& canvas, const Frame& frame) {
    for (int power = 0; power <= 9; ++power) {
        const double y = level(frame, std::pow(10.0, -power));
        canvas.line({frame.x, y}, {frame.x + frame.width, y}, {.width = 0.3, .colour = draw::pale});
        note(canvas, {frame.x - 5, y - 4.5}, chance_label(power), draw::grey, Anchor::right);
    }
}

void mark_up(draw::Canvas& canvas, const Frame& frame, double x, const std::string& text, Colour colour) {
    canvas.line({x, frame.y}, {x, frame.y + frame.height}, {.width = 0.9, .colour = colour, .dash = {3, 2}});
    canvas.text({x + 3, frame.y + 3}, text, {.size = small, .colour = colour, .backed = true});
}

}  // namespace

void plot_methods(Flow& flow, const design::Result& result, System system) {
    const auto& d = result.demand;
    const auto bars = bars_of(d, system);
    const double pitch = 15, height = pitch * static_cast<double>(bars.size()) + 4;
    const double peak = value_of(amount(d.peak), system);
    const double plant = value_of(amount(result.capacity.flow), system);
    double most = std::max(peak, plant);
    for (const auto& bar : bars) most = std::max(most, bar.value);
    flow.need(height + 52);
    const Frame frame{flow.left() + 136, flow.y() + 16, flow.width() - 206, height, most};
    auto& canvas = flow.canvas();
    scale_across(canvas, frame, unit_of(Kind::water_flow, system));
    const bool apart = plant > peak * 1.02;
    mark_across(canvas, frame, peak, "peak", strong, Anchor::right);
    if (apart) mark_across(canvas, frame, plant, "plant", spare_green, Anchor::left);
    double y = frame.y + 5;
    for (const auto& bar : bars) {
        draw_bar(canvas, frame, bar, y);
        y += pitch;
    }
    flow.space(height + 16 + 24);
    flow.paragraph(
        std::string("Flow at the distribution temperature. ") +
            (d.blocks.value() > 0 ? "Orange: block loads at full flow, added to every method that counts fixtures. "
                                  : "") +
            "Hollow: an hour's water spread evenly over the hour, for comparison. The plant's line is the flow of all "
            "heaters installed.",
        {.size = 7.5, .colour = draw::grey});
}

void plot_day(Flow& flow, const design::Result& result, System system) {
    const auto& day = result.demand.day;
    const double height = 96;
    const double most = value_of(amount(day.largest_hour), system);
    if (!(most > 0)) return;
    flow.need(height + 52);
    const Frame frame{flow.left() + 44, flow.y() + 8, flow.width() - 60, height, most * 1.08};
    auto& canvas = flow.canvas();
    const double step = round_step(frame.most);
    for (double v = 0; v <= frame.most; v += step) {
        canvas.line({frame.x, frame.up(v)}, {frame.x + frame.width, frame.up(v)}, {.width = 0.3, .colour = draw::pale});
        note(canvas, {frame.x - 5, frame.up(v) - 4.5}, fmt::format("{:g}", v), draw::grey, Anchor::right);
    }
    note(canvas, {flow.left(), frame.y - 6}, unit_of(Kind::volume, system), draw::grey, Anchor::left);
    const double pitch = frame.width / 24;
    for (std::size_t h = 0; h < 24; ++h) {
        const double value = value_of(amount(day.volume[h]), system), x = frame.x + pitch * static_cast<double>(h);
        const Colour colour = static_cast<int>(h) == day.busiest ? strong : mild;
        if (value > 0)
            canvas.rectangle({x + 1.5, frame.up(value)}, pitch - 3, frame.y + height - frame.up(value),
                             {.width = 0.2, .colour = colour}, colour);
        if (h % 3 == 0) note(canvas, {x, frame.y + height + 3}, fmt::format("{:02}:00", h), draw::grey, Anchor::centre);
    }
    canvas.line({frame.x, frame.y + height}, {frame.x + frame.width, frame.y + height}, {.width = 0.6});
    flow.space(height + 26);
}

void plot_risk(Flow& flow, const design::Result& result, System) {
    const auto& c = result.capacity;
    if (c.risk.empty()) return;
    const double height = 170;
    flow.need(height + 50);
    const Frame frame{flow.left() + 84, flow.y() + 6, flow.width() - 100, height, 1};
    auto& canvas = flow.canvas();
    scale_chances(canvas, frame);
    const double pitch = frame.width / static_cast<double>(c.risk.size());
    const auto x_of = [&](int heaters) { return frame.x + pitch * (heaters - 0.5); };
    const double allowed = level(frame, 1 - result.demand.percentile);
    canvas.line({frame.x, allowed}, {frame.x + frame.width, allowed}, {.width = 0.8, .colour = warm});
    mark_up(canvas, frame, x_of(c.installed), c.spare > 0 ? "installed" : "needed and installed", spare_green);
    if (c.spare > 0) mark_up(canvas, frame, x_of(c.needed), pitch > 40 ? "needed" : "", strong);
    std::vector<At> line;
    for (const auto& point : c.risk) {
        const bool drawn = line.empty() || line.back().y < frame.y + height;  // down to the floor, and no farther
        if (drawn) line.push_back({x_of(point.heaters), level(frame, point.short_chance)});
        note(canvas, {x_of(point.heaters), frame.y + height + 3}, std::to_string(point.heaters), draw::grey,
             Anchor::centre);
    }
    if (line.size() > 1) canvas.polyline(line, {.width = 1.2, .colour = strong});
    for (const auto& point : c.risk) {
        const bool on_scale = point.short_chance >= least_chance;  // else rarer than can be drawn
        canvas.circle({x_of(point.heaters), level(frame, point.short_chance)}, 2.2, {.width = 0.8, .colour = strong},
                      on_scale ? strong : draw::white);
    }
    note(canvas, {frame.x + frame.width, frame.y + height + 12}, "heaters", draw::grey, Anchor::right);
    flow.space(height + 30);
    flow.paragraph(
        fmt::format(
            "Chance that, at a moment of the worst stretch of the day, more is drawn than so many heaters warm "
            "beside the loop's loss. Hollow: rarer than one in a billion. Orange: the chance the percentile of {:g} % "
            "allows.{}",
            100 * result.demand.percentile, c.spare > 0 ? " Blue dashes: heaters needed without the spare." : ""),
        {.size = 7.5, .colour = draw::grey});
}

}  // namespace bw::paper
