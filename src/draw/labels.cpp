// SPDX-License-Identifier: MIT
#include "draw/labels.h"

#include <algorithm>
#include <numbers>

namespace bw::draw {

namespace {

bool overlap(const Area& a, const Area& b) {
    return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
}

constexpr double dimension_text = 7;
const Pen thin{.width = 0.3, .colour = {0.25, 0.25, 0.28}};

}  // namespace

bool Labels::free(const Area& a) const {
    if (a.x < area_.x || a.y < area_.y || a.x + a.width > area_.x + area_.width ||
        a.y + a.height > area_.y + area_.height)
        return false;
    return std::none_of(taken_.begin(), taken_.end(), [&](const Area& t) { return overlap(a, t); });
}

void Labels::put(At anchor, const std::string& text, const TextStyle& style) {
    const auto size = canvas_->measure(text, style);
    // rings of eight directions around the anchor, the nearest free one wins; the last resort is the anchor itself
    Area best{anchor.x - size.width / 2, anchor.y - size.height / 2, size.width, size.height};
    double moved = 0;
    for (double reach = 9; reach < 130 && moved == 0; reach += 9)
        for (int i = 0; i < 8; ++i) {
            const double angle = i * std::numbers::pi / 4;
            const Area tried{anchor.x + reach * std::cos(angle) +
                                 (std::cos(angle) < -0.1  ? -size.width
                                  : std::cos(angle) > 0.1 ? 0
                                                          : -size.width / 2),
                             anchor.y + reach * std::sin(angle) - size.height / 2, size.width, size.height};
            if (!free(tried)) continue;
            best = tried;
            moved = reach;
            break;
        }
    if (moved > 9) {
        const At nearest{std::clamp(anchor.x, best.x, best.x + best.width),
                         std::clamp(anchor.y, best.y, best.y + best.height)};
        canvas_->line(anchor, nearest, {.width = 0.3, .colour = style.colour});
    }
    TextStyle plain = style;
    plain.anchor = Anchor::left;
    plain.backed = true;
    canvas_->text({best.x, best.y}, text, plain);
    taken_.push_back({best.x - 1, best.y - 1, best.width + 2, best.height + 2});
}

namespace {

/// A point at `along` metres on the chain's direction and `across` points on the sheet.
At on(const View& view, const Chain& chain, double along, double across) {
    if (chain.vertical) return {across, view.at(0, along).y};
    return {view.at(along, 0).x, across};
}

void tick(Canvas& canvas, At p) { canvas.line({p.x - 2.2, p.y + 2.2}, {p.x + 2.2, p.y - 2.2}, {.width = 0.8}); }

}  // namespace

void draw_chain(const View& view, Chain chain, units::System system, Labels& labels) {
    auto& canvas = view.canvas();
    auto& s = chain.stations;
    std::sort(s.begin(), s.end());
    s.erase(std::unique(s.begin(), s.end(), [](double a, double b) { return b - a < 0.0015; }), s.end());
    if (s.size() < 2) return;
    canvas.line(on(view, chain, s.front(), chain.line_at), on(view, chain, s.back(), chain.line_at), thin);
    const double away = chain.line_at < chain.from ? -1 : 1;
    for (double station : s) {
        canvas.line(on(view, chain, station, chain.from + 2 * away), on(view, chain, station, chain.line_at + 3 * away),
                    thin);
        tick(canvas, on(view, chain, station, chain.line_at));
    }
    double stepped_until = -1e9;
    bool out = false;
    for (std::size_t i = 0; i + 1 < s.size(); ++i) {
        auto text = units::print(units::amount((s[i + 1] - s[i]) * units::metre), system);
        if (text.ends_with(" mm")) text.resize(text.size() - 3);  // the scale bar says so for all
        const auto size = canvas.measure(text, {.size = dimension_text});
        const double room = view.points(s[i + 1] - s[i]) - 5;
        // a narrow gap steps its text out, and the next narrow one steps further, so that neighbours do not touch
        out = size.width > room ? !out || s[i] > stepped_until : false;
        const double step = size.width <= room ? 0 : out ? 8 : 16;
        stepped_until = s[i + 1];
        const At p = on(view, chain, (s[i] + s[i + 1]) / 2, chain.line_at + away * step);
        TextStyle style{.size = dimension_text, .anchor = Anchor::centre, .backed = true};
        Area taken;
        if (chain.vertical) {
            style.angle = -std::numbers::pi / 2;
            canvas.text({p.x - size.height - 0.5, p.y}, text, style);
            taken = {p.x - size.height - 1, p.y - size.width / 2, size.height + 2, size.width};
        } else {
            canvas.text({p.x, p.y - size.height - 0.5}, text, style);
            taken = {p.x - size.width / 2, p.y - size.height - 1, size.width, size.height + 2};
        }
        labels.keep_off(taken);
    }
}

}  // namespace bw::draw
