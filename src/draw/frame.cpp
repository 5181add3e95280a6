// SPDX-License-Identifier: MIT
#include "draw/frame.h"

#include <fmt/format.h>
#include <algorithm>

namespace bw::draw {

namespace {

constexpr double edge = 22, title_height = 62, notes_width = 196, pad = 10;

/// One labelled box of the title block.
void box(Canvas& canvas, Area a, const std::string& label, const std::string& text, double size,
         Colour colour = black) {
    canvas.rectangle({a.x, a.y}, a.width, a.height, {.width = 0.5});
    canvas.text({a.x + 4, a.y + 3}, label, {.size = 6, .colour = grey});
    TextStyle style{.size = size, .bold = true, .colour = colour, .width = a.width - 8};
    while (style.size > 5 && canvas.measure(text, style).height > a.height - 12) style.size -= 0.5;
    canvas.text({a.x + 4, a.y + 11}, text, style);
}

std::string standing(const design::Tally& t) {
    if (t.fail) return fmt::format("NOT TO BE BUILT: {} {}", t.fail, t.fail == 1 ? "check fails" : "checks fail");
    if (t.refer)
        return fmt::format("{} {} a licensed person or a site confirmation", t.refer,
                           t.refer == 1 ? "point needs" : "points need");
    return "Every check passes";
}

}  // namespace

SheetSize size_of(Paper paper) {
    switch (paper) {
        case Paper::a3: return {1190.55, 841.89};
        case Paper::a4: return {841.89, 595.28};
        case Paper::tabloid: return {1224, 792};
        case Paper::letter: break;
    }
    return {792, 612};
}

Frame frame_of(SheetSize size) {
    const double bottom = size.height - edge - title_height;
    const double notes_x = size.width - edge - notes_width;
    return {{edge + pad, edge + pad, notes_x - edge - 2 * pad, bottom - edge - 2 * pad},
            {notes_x + pad, edge + pad, notes_width - 2 * pad, bottom - edge - 2 * pad}};
}

void draw_frame(Canvas& canvas, const SheetContext& context, const Title& title, const std::string& scale) {
    const auto& s = context.result.survey;
    const double w = context.size.width - 2 * edge, top = context.size.height - edge - title_height;
    canvas.rectangle({edge, edge}, w, context.size.height - 2 * edge, {.width = 1.4});
    canvas.line({context.size.width - edge - notes_width, edge}, {context.size.width - edge - notes_width, top},
                {.width = 0.5});
    double x = edge;
    const auto put = [&](double share, const std::string& label, const std::string& text, double size,
                         Colour colour = black) {
        box(canvas, {x, top, w * share, title_height}, label, text, size, colour);
        x += w * share;
    };
    const auto t = design::tally(context.result.checks);
    const auto given = [](const std::string& text) { return text.empty() ? std::string("–") : text; };
    put(0.26, "Job", s.job, 12);
    put(0.17, "Sheet", title.sheet, 13);
    put(0.07, "Number", fmt::format("{} of {}", title.number, title.of), 13);
    put(0.10, "Scale", scale, 10);
    put(0.06, "Revision", given(s.revision), 13);
    put(0.08, "Date", given(s.date), 9);
    put(0.10, "Prepared by", given(s.prepared_by), 9);
    put(0.16, "Standing", standing(t), 9, t.fail ? Colour{0.68, 0.1, 0.1} : t.refer ? Colour{0.2, 0.3, 0.58} : black);
}

void draw_scale_bar(const View& view, At at, units::System system) {
    const bool us = system == units::System::us;
    const double unit = us ? 0.3048 : 0.5;
    auto& canvas = view.canvas();
    for (int i = 0; i < 4; ++i)
        canvas.rectangle({at.x + view.points(unit) * i, at.y}, view.points(unit), 4, {.width = 0.4},
                         i % 2 ? white : black);
    canvas.text({at.x - 2, at.y + 6}, "0", {.size = 6.5});
    canvas.text({at.x + view.points(unit) * 4, at.y + 6}, us ? "4 ft" : "2 m", {.size = 6.5, .anchor = Anchor::centre});
    if (!us) canvas.text({at.x + view.points(unit) * 4 + 14, at.y - 3}, "dimensions in mm", {.size = 6.5});
}

void NotesColumn::head(const std::string& text) { entries_.push_back({Entry::Kind::head, text}); }

void NotesColumn::line(const std::string& text, Colour colour) {
    entries_.push_back({Entry::Kind::line, text, colour});
}

void NotesColumn::key(Colour colour, const std::string& text) { entries_.push_back({Entry::Kind::key, text, colour}); }

void NotesColumn::sign(Colour colour, std::function<void(At)> draw, const std::string& text) {
    entries_.push_back({Entry::Kind::sign, text, colour, std::move(draw)});
}

NotesColumn::Place NotesColumn::place(const Entry& entry, double times) const {
    const bool head = entry.kind == Entry::Kind::head;
    Place p;
    p.indent = entry.kind == Entry::Kind::key ? 26 : entry.kind == Entry::Kind::sign ? 32 : 0;
    p.before = head ? 6 * times : 0;
    p.style = {.size = (head ? 8.5 : 7.2) * times, .bold = head, .width = area_.width - p.indent};
    if (entry.kind == Entry::Kind::line) p.style.colour = entry.colour;
    p.text = canvas_->measure(entry.text, p.style).height;
    p.height = std::max(p.text, entry.kind == Entry::Kind::sign ? 17.0 * std::max(times, 0.8) : 0.0);
    return p;
}

void NotesColumn::write() {
    constexpr double gap = 2;
    const auto needed = [&](double times) {
        double height = 0;
        for (const auto& entry : entries_) {
            const auto p = place(entry, times);
            height += p.before + p.height + gap * times;
        }
        return height;
    };
    double times = 1;
    while (times > 0.5 && needed(times) > area_.height) times -= 0.04;
    double y = area_.y;
    for (const auto& entry : entries_) {
        const auto p = place(entry, times);
        y += p.before;
        const double middle = y + p.height / 2;
        if (entry.kind == Entry::Kind::key)
            canvas_->line({area_.x, middle}, {area_.x + 20, middle}, {.width = 2.4 * times, .colour = entry.colour});
        if (entry.kind == Entry::Kind::sign) {
            canvas_->line({area_.x, middle}, {area_.x + 26, middle}, {.width = 1.1, .colour = entry.colour});
            entry.draw({area_.x + 13, middle});
        }
        canvas_->text({area_.x + p.indent, middle - p.text / 2}, entry.text, p.style);
        y += p.height + gap * times;
    }
}

}  // namespace bw::draw
