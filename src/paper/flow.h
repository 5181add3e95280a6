// SPDX-License-Identifier: MIT
#pragma once
// Text that flows over pages: headings with bookmarks, paragraphs, tables that repeat their header, page numbers.

#include <string>
#include <vector>

#include "draw/canvas.h"

namespace bw::paper {

struct PageSize {
    double width, height;  ///< points
};
inline constexpr PageSize letter{612, 792}, a4{595.28, 841.89};

struct Column {
    std::string title;
    double share = 1;  ///< of the table's width
    draw::Anchor anchor = draw::Anchor::left;
};

/// A table cell: text, and how it stands out.
struct Cell {
    std::string text;
    bool bold = false;
    draw::Colour colour = draw::black;
    Cell(std::string t = {}, bool b = false, draw::Colour c = draw::black) : text(std::move(t)), bold(b), colour(c) {}
    Cell(const char* t) : text(t) {}
};
using Row = std::vector<Cell>;

class Flow {
public:
    /// `running` stands at the foot of every page but the first.
    Flow(PageSize size, std::string running);

    void new_page();
    /// Begins a new page unless this much height is left.
    void need(double height);
    void space(double height);
    /// Level 0 begins a part, 1 a section, 2 a titled item; each is bookmarked down to `bookmarks`.
    void heading(int level, const std::string& text);
    void paragraph(const std::string& text, const draw::TextStyle& style = {.size = 9}, double indent = 0);
    void bullet(const std::string& text, const draw::TextStyle& style = {.size = 9});
    /// A framed box of text on a tinted ground.
    void notice(const std::string& title, const std::string& text, draw::Colour edge);
    void table(const std::vector<Column>& columns, const std::vector<Row>& rows, double size = 8);
    void rule();
    /// Label and value on one line, label in grey.
    void fact(const std::string& label, const std::string& value);

    [[nodiscard]] draw::Canvas& canvas() { return canvas_; }
    [[nodiscard]] double y() const { return y_; }
    [[nodiscard]] double left() const { return margin; }
    [[nodiscard]] double width() const { return size_.width - 2 * margin; }
    /// The document, each page numbered.
    [[nodiscard]] std::string finish(const draw::Meta& meta);

    static constexpr double margin = 54;

private:
    void number_pages();
    double row(const std::vector<Column>& columns, const Row& cells, double size, bool draw_it);
    void table_head(const std::vector<Column>& columns, double size);
    PageSize size_;
    draw::Canvas canvas_;
    std::string running_;
    int page_ = 1;
    double y_ = margin;
};

}  // namespace bw::paper
