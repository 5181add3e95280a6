// SPDX-License-Identifier: MIT
#include "paper/flow.h"

#include <fmt/format.h>
#include <algorithm>

namespace bw::paper {

namespace {

using draw::At;
using draw::TextStyle;

constexpr double foot = 40;  // height kept for the page number
constexpr double cell_padding = 3;

}  // namespace

Flow::Flow(PageSize size, std::string running)
    : size_(size), canvas_(size.width, size.height), running_(std::move(running)) {}

void Flow::number_pages() {
    const double bottom = size_.height - foot;
    for (int page = 1; page <= page_; ++page) {
        canvas_.back_to(page);
        canvas_.line({margin, bottom}, {size_.width - margin, bottom}, {.width = 0.4, .colour = draw::pale});
        canvas_.text({size_.width - margin, bottom + 5}, fmt::format("page {} of {}", page, page_),
                     {.size = 7.5, .colour = draw::grey, .anchor = draw::Anchor::right});
        if (page > 1) canvas_.text({margin, bottom + 5}, running_, {.size = 7.5, .colour = draw::grey});
    }
}

void Flow::new_page() {
    canvas_.next_page();
    ++page_;
    y_ = margin;
}

void Flow::need(double height) {
    if (y_ + height > size_.height - foot - 6 && y_ > margin) new_page();
}

void Flow::space(double height) { y_ += height; }

void Flow::heading(int level, const std::string& text) {
    static constexpr double sizes[] = {17, 12.5, 9.5};
    const auto at = static_cast<std::size_t>(level);
    if (level == 0 && y_ > margin) new_page();
    const TextStyle style{.size = sizes[at], .bold = true, .width = width()};
    const auto size = canvas_.measure(text, style);
    if (level > 0) space(level == 1 ? 12 : 7);
    need(size.height + (level == 2 ? 40 : 60));
    canvas_.bookmark(text, level, y_);
    canvas_.text({margin, y_}, text, style);
    y_ += size.height + (level == 2 ? 2 : 5);
    if (level == 0) {
        canvas_.line({margin, y_}, {margin + width(), y_}, {.width = 1});
        y_ += 8;
    }
}

void Flow::paragraph(const std::string& text, const TextStyle& wanted, double indent) {
    TextStyle style = wanted;
    style.width = width() - indent;
    const auto size = canvas_.measure(text, style);
    need(size.height);
    canvas_.text({margin + indent, y_}, text, style);
    y_ += size.height + 3;
}

void Flow::bullet(const std::string& text, const TextStyle& style) {
    TextStyle wrapped = style;
    wrapped.width = width() - 12;
    need(canvas_.measure(text, wrapped).height);
    canvas_.text({margin + 2, y_}, "•", style);
    paragraph(text, style, 12);
}

void Flow::notice(const std::string& title, const std::string& text, draw::Colour edge) {
    const TextStyle head{.size = 9, .bold = true, .colour = edge, .width = width() - 24};
    const TextStyle body{.size = 8.5, .width = width() - 24};
    const double h = canvas_.measure(title, head).height, b = canvas_.measure(text, body).height;
    const double all = h + b + 14;
    need(all + 6);
    canvas_.rectangle({margin, y_}, width(), all, {.width = 0.6, .colour = edge}, {0.985, 0.98, 0.965});
    canvas_.rectangle({margin, y_}, 4, all, {.width = 0.2, .colour = edge}, edge);
    canvas_.text({margin + 14, y_ + 5}, title, head);
    canvas_.text({margin + 14, y_ + 8 + h}, text, body);
    y_ += all + 8;
}

void Flow::rule() {
    canvas_.line({margin, y_ + 2}, {margin + width(), y_ + 2}, {.width = 0.3, .colour = draw::pale});
    y_ += 6;
}

void Flow::fact(const std::string& label, const std::string& value) {
    const double label_width = 130;
    const TextStyle style{.size = 9, .width = width() - label_width};
    const auto size = canvas_.measure(value, style);
    need(size.height);
    canvas_.text({margin, y_}, label, {.size = 9, .colour = draw::grey});
    canvas_.text({margin + label_width, y_}, value, style);
    y_ += size.height + 3;
}

double Flow::row(const std::vector<Column>& columns, const Row& cells, double size, bool draw_it) {
    double total = 0, height = 0, x = margin;
    for (const auto& c : columns) total += c.share;
    for (std::size_t i = 0; i < columns.size() && i < cells.size(); ++i) {
        const double w = width() * columns[i].share / total;
        const TextStyle style{.size = size,
                              .bold = cells[i].bold,
                              .colour = cells[i].colour,
                              .anchor = columns[i].anchor,
                              .width = w - 2 * cell_padding};
        const double inner = w - 2 * cell_padding;
        const double at = columns[i].anchor == draw::Anchor::left     ? x + cell_padding
                          : columns[i].anchor == draw::Anchor::centre ? x + cell_padding + inner / 2
                                                                      : x + cell_padding + inner;
        const auto drawn =
            draw_it ? canvas_.text({at, y_ + 2}, cells[i].text, style) : canvas_.measure(cells[i].text, style);
        height = std::max(height, drawn.height);
        x += w;
    }
    return height + 4;
}

void Flow::table_head(const std::vector<Column>& columns, double size) {
    Row titles;
    for (const auto& c : columns) titles.emplace_back(c.title, true, draw::grey);
    y_ += row(columns, titles, size, true);
    canvas_.line({margin, y_}, {margin + width(), y_}, {.width = 0.6});
}

void Flow::table(const std::vector<Column>& columns, const std::vector<Row>& rows, double size) {
    need(40);
    table_head(columns, size);
    for (const auto& cells : rows) {
        const double height = row(columns, cells, size, false);
        if (y_ + height > size_.height - foot - 6) {
            new_page();
            table_head(columns, size);
        }
        row(columns, cells, size, true);
        y_ += height;
        canvas_.line({margin, y_}, {margin + width(), y_}, {.width = 0.25, .colour = draw::pale});
    }
    y_ += 6;
}

std::string Flow::finish(const draw::Meta& meta) {
    number_pages();
    return canvas_.pdf(meta);
}

}  // namespace bw::paper
