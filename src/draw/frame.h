// SPDX-License-Identifier: MIT
#pragma once
// The sheet itself: border, title block, scale bar, notes column.

#include <functional>

#include "design/design.h"
#include "design/solved.h"
#include "draw/sheets.h"
#include "draw/view.h"

namespace bw::draw {

struct SheetSize {
    double width, height;  ///< points, landscape
};
[[nodiscard]] SheetSize size_of(Paper paper);

struct Title {
    std::string sheet;  ///< "Plan"
    int number = 1, of = 1;
};

/// What a sheet is drawn with.
struct SheetContext {
    const design::Result& result;
    const catalogue::Catalogue& catalogue;
    const design::Solved& solved;
    units::System system;
    SheetSize size;
};

/// Where drawings go, and where notes go.
struct Frame {
    Area drawing, notes;
};

/// The free areas of a sheet; needs no canvas.
[[nodiscard]] Frame frame_of(SheetSize size);
/// Draws border, title block with job, date, revision, scale, verdict and cautions.
void draw_frame(Canvas& canvas, const SheetContext& context, const Title& title, const std::string& scale);
/// A bar of feet or metres under the drawing.
void draw_scale_bar(const View& view, At at, units::System system);

/// Headed blocks of lines down the notes column, written when all are known: as large as they find room.
class NotesColumn {
public:
    NotesColumn(Canvas& canvas, Area area) : canvas_(&canvas), area_(area) {}
    ~NotesColumn() { write(); }
    NotesColumn(const NotesColumn&) = delete;
    NotesColumn& operator=(const NotesColumn&) = delete;
    void head(const std::string& text);
    void line(const std::string& text, Colour colour = black);
    /// A stroke of ink, and what it stands for.
    void key(Colour colour, const std::string& text);
    /// A sign drawn at a point on a line of `colour`, and what it stands for.
    void sign(Colour colour, std::function<void(At)> draw, const std::string& text);

private:
    struct Entry {
        enum class Kind { head, line, key, sign } kind{};
        std::string text;
        Colour colour = black;
        std::function<void(At)> draw = {};
    };
    struct Place {
        TextStyle style;
        double indent = 0, before = 0, text = 0, height = 0;
    };
    [[nodiscard]] Place place(const Entry& entry, double times) const;
    void write();
    Canvas* canvas_;
    Area area_;
    std::vector<Entry> entries_;
};

}  // namespace bw::draw
