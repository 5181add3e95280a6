// SPDX-License-Identifier: MIT
#pragma once
// Ink on paper: lines, shapes and text in points (1/72 in), y down. Hides Cairo and Pango.

#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace bw::draw {

struct Colour {
    double r = 0, g = 0, b = 0;
    bool operator==(const Colour&) const = default;
};
inline constexpr Colour black{0.10, 0.10, 0.12}, grey{0.45, 0.45, 0.48}, pale{0.80, 0.80, 0.82}, white{1, 1, 1};

struct At {
    double x = 0, y = 0;
};

struct Pen {
    double width = 0.5;
    Colour colour = black;
    std::vector<double> dash = {};
};

/// Where the given point lies on the text's box.
enum class Anchor { left, centre, right };

struct TextStyle {
    double size = 8;
    bool bold = false, italic = false, mono = false;
    Colour colour = black;
    Anchor anchor = Anchor::left;
    double angle = 0;     ///< radians, clockwise on the page
    double width = 0;     ///< wraps at this width when positive
    bool backed = false;  ///< paints white behind itself, so lines do not run through it
};

struct TextSize {
    double width = 0, height = 0;
};

/// Facts about the document that go into its metadata.
struct Meta {
    std::string title, author, subject, date;  ///< date as ISO 8601, or empty
};

/// Pages of ink. What is drawn is kept, and made into a document when that is asked for.
class Canvas {
public:
    Canvas(double width, double height);
    ~Canvas();
    Canvas(const Canvas&) = delete;
    Canvas& operator=(const Canvas&) = delete;

    [[nodiscard]] double width() const { return width_; }
    [[nodiscard]] double height() const { return height_; }

    void line(At a, At b, const Pen& pen);
    void polyline(const std::vector<At>& points, const Pen& pen, bool closed = false);
    /// Many lines of one pen.
    void polylines(std::vector<std::vector<At>> lines, const Pen& pen);
    void polygon(const std::vector<At>& points, const Pen& pen, Colour fill);
    void fill(const std::vector<At>& points, Colour colour);
    void rectangle(At corner, double width, double height, const Pen& pen);
    void rectangle(At corner, double width, double height, const Pen& pen, Colour fill);
    void circle(At centre, double radius, const Pen& pen);
    void circle(At centre, double radius, const Pen& pen, Colour fill);
    /// Angles in radians, clockwise from +x on the page.
    void arc(At centre, double radius, double from, double to, const Pen& pen);
    /// Diagonal lines over a polygon.
    void hatch(const std::vector<At>& points, double spacing, const Pen& pen);

    /// Until `unclip`, nothing is drawn outside the rectangle.
    void clip(At corner, double width, double height);
    void unclip();
    /// Until `unscale`, a point is that many times as far from the fixed one and all is drawn as much larger.
    void scale(At fixed, double times);
    void unscale();

    /// Text whose top (not baseline) is at the point; returns its size.
    TextSize text(At at, std::string_view text, const TextStyle& style);
    [[nodiscard]] TextSize measure(std::string_view text, const TextStyle& style);

    /// For PDF: a bookmark to the top of the current page, or to `y`. Level 0 is outermost.
    void bookmark(const std::string& title, int level, double y = 0);
    void next_page();
    /// What follows is drawn over what is on a page already, counted from 1.
    void back_to(int page);

    [[nodiscard]] std::string pdf(const Meta& meta) const;
    /// One page alone.
    [[nodiscard]] std::string svg(int page) const;

private:
    struct Ink;
    std::unique_ptr<Ink> ink_;
    double width_, height_;
};

}  // namespace bw::draw
