// SPDX-License-Identifier: MIT
#pragma once
// A diagram that is not to scale: heaters stand in rows of columns, lines run along the rows with their branches to the
// heaters, and go on in the next row, or on the next sheet, at flags of one name.

#include <functional>
#include <map>

#include "draw/frame.h"
#include "draw/signs.h"
#include "draw/single_line.h"

namespace bw::draw {

struct Stall {
    int row = 0;
    double x = 0;  ///< points from the drawing's left
};

/// Where the heaters stand.
struct Rows {
    std::map<int, Stall> heater;  ///< by number
    int count = 0;
    double pitch = 0;
};

/// Heaters in the order of the lines' columns, as many a row as have room between `lead` points and `trail`.
[[nodiscard]] Rows rows_of(const std::vector<Line>& lines, double width, double lead, double trail);
/// Points that the signs before a line's first column take.
[[nodiscard]] double lead_of(const Line& line);
[[nodiscard]] double lead_of(const std::vector<Line>& lines);

/// How a service's lines lie in a row.
struct Band {
    double line = 0;       ///< page y of the line
    double box = 0;        ///< page y of the heaters' side its branches reach
    double shift = 0;      ///< of the branches from the heaters' middle
    bool upright = false;  ///< what comes before the first column stands above the line, else left of it
    double join_at = 0;    ///< a tee to another service stands at least this far from the left
    char letter = 'G';
};

/// Text about a run or a heater; empty where nothing is known.
using RunText = std::function<std::string(const Run&)>;

/// What is written about a heater by its number; either may be empty.
struct HeaterTexts {
    std::function<std::string(int)> above, inside;
};

/// A diagram's rows, enlarged as far as they go on as few sheets as they can.
struct Fit {
    Rows rows;
    Area area;         ///< before it is enlarged
    double times = 1;  ///< on paper
    int rows_a_sheet = 1;
    double row_height = 0;

    [[nodiscard]] double top(int rows_here) const {
        return area.y + (area.height - row_height * static_cast<double>(rows_here)) / 2;
    }
};
[[nodiscard]] Fit fitted(const std::vector<Line>& lines, Area area, double lead, double row_height, double trail = 38);

struct Stop;

class Chart {
public:
    Chart(Canvas& canvas, const SheetContext& context, Area area, const Rows& rows)
        : canvas_(canvas), context_(context), area_(area), rows_(rows) {}

    /// What of the lines lies in a row. Tells where tees to other services came to stand.
    std::map<int, At> draw_lines(const std::vector<Line>& lines, int row, const Band& band, const RunText& carried);
    /// Boxes with the heaters' numbers.
    void draw_heaters(int row, double top, double height, const HeaterTexts& texts);
    /// Signs one after another from a point to the right; gives where they end.
    At draw_row(const Line& line, At from, char letter);

private:
    void draw_stop(const Line& line, std::size_t index, const Stop& stop, double turn, const Band& band,
                   std::map<int, At>& joined);
    void draw_line(const Line& line, std::size_t index, int row, const Band& band, const RunText& carried,
                   std::map<int, At>& joined);
    void draw_branch(const Node& node, double slot, const Band& band, std::size_t order, Colour colour);
    void draw_stub(const Node& node, At at, const Band& band, Colour colour);
    void draw_split(const Node& node, At at, const Band& band, Colour colour);
    void draw_drain(int index, At at);
    void label_run(const Run& run, double from, double to, bool leading, const Band& band, Colour colour,
                   const RunText& carried);
    void put_sign(Spot spot, int piece, Colour colour, bool widens = false);
    void dot(At at, Colour colour);
    [[nodiscard]] const plant::Piece& piece(int i) const {
        return context_.result.chosen->built.plant.pieces[static_cast<std::size_t>(i)];
    }

    Canvas& canvas_;
    const SheetContext& context_;
    Area area_;
    const Rows& rows_;
};

/// Every part that lines show, with how many there are, in the order of the vocabulary.
void write_legend(NotesColumn& notes, Canvas& canvas, const SheetContext& context,
                  const std::vector<const std::vector<Line>*>& lines);

}  // namespace bw::draw
