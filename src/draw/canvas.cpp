// SPDX-License-Identifier: MIT
#include "draw/canvas.h"

#include <cairo-pdf.h>
#include <cairo-svg.h>

#include <cmath>
#include <functional>
#include <numbers>

#include "draw/type.h"

namespace bw::draw {
namespace {

void use(cairo_t* cr, Colour c) { cairo_set_source_rgb(cr, c.r, c.g, c.b); }

void stroke(cairo_t* cr, const Pen& pen) {
    use(cr, pen.colour);
    cairo_set_line_width(cr, pen.width);
    cairo_set_dash(cr, pen.dash.data(), static_cast<int>(pen.dash.size()), 0);
    cairo_stroke(cr);
}

void trace(cairo_t* cr, const std::vector<At>& points, bool closed) {
    cairo_new_sub_path(cr);
    for (const auto& p : points) cairo_line_to(cr, p.x, p.y);
    if (closed) cairo_close_path(cr);
}

void trace_arc(cairo_t* cr, At c, double radius, double from, double to) {
    cairo_new_sub_path(cr);
    cairo_arc(cr, c.x, c.y, radius, from, to);
}

/// A document being written: its surface and what draws on it.
struct Document {
    std::string bytes;
    cairo_surface_t* surface = nullptr;
    cairo_t* cr = nullptr;

    static cairo_status_t write(void* self, const unsigned char* data, unsigned int length) {
        static_cast<Document*>(self)->bytes.append(reinterpret_cast<const char*>(data), length);
        return CAIRO_STATUS_SUCCESS;
    }
    Document() = default;
    Document(const Document&) = delete;
    Document& operator=(const Document&) = delete;
    ~Document() {
        if (cr) cairo_destroy(cr);
        if (surface) cairo_surface_destroy(surface);
    }
    void begin(cairo_surface_t* on) {
        surface = on;
        cr = cairo_create(surface);
        cairo_set_line_join(cr, CAIRO_LINE_JOIN_MITER);
    }
    std::string finish() {
        cairo_destroy(cr);
        cr = nullptr;
        cairo_surface_finish(surface);
        return std::move(bytes);
    }
};

void describe(cairo_surface_t* surface, const Meta& meta) {
    const auto tell = [&](cairo_pdf_metadata_t key, const std::string& value) {
        if (!value.empty()) cairo_pdf_surface_set_metadata(surface, key, value.c_str());
    };
    tell(CAIRO_PDF_METADATA_TITLE, meta.title);
    tell(CAIRO_PDF_METADATA_AUTHOR, meta.author);
    tell(CAIRO_PDF_METADATA_SUBJECT, meta.subject);
    tell(CAIRO_PDF_METADATA_CREATOR, "Bankwright");
    // a fixed date where none is given: the same survey gives the same bytes
    tell(CAIRO_PDF_METADATA_CREATE_DATE, (meta.date.empty() ? std::string("2000-01-01") : meta.date) + "T00:00:00Z");
}

struct Bookmark {
    std::string title;
    int level = 0, page = 1;
    double y = 0;
};

void add_bookmarks(cairo_surface_t* surface, const std::vector<Bookmark>& bookmarks) {
    std::vector<int> parents;  // open bookmark of each level
    for (const auto& mark : bookmarks) {
        const auto depth = static_cast<std::size_t>(mark.level);
        const int parent = depth == 0 || parents.size() < depth ? CAIRO_PDF_OUTLINE_ROOT : parents[depth - 1];
        const auto link =
            "page=" + std::to_string(mark.page) + " pos=[0 " + std::to_string(static_cast<int>(mark.y)) + "]";
        const auto flags = static_cast<cairo_pdf_outline_flags_t>(depth == 0 ? CAIRO_PDF_OUTLINE_FLAG_BOLD : 0);
        const int id = cairo_pdf_surface_add_outline(surface, parent, mark.title.c_str(), link.c_str(), flags);
        parents.resize(depth + 1);
        parents[depth] = id;
    }
}

/// Cairo counts surfaces on through the whole run of the program and names the SVG's group by it.
std::string without_count(std::string svg) {
    constexpr std::string_view named = "id=\"surface";
    if (const auto at = svg.find(named); at != std::string::npos)
        svg.replace(at + named.size(), svg.find('"', at + named.size()) - at - named.size(), "");
    return svg;
}

}  // namespace

struct Canvas::Ink {
    using Stroke = std::function<void(cairo_t*)>;
    std::vector<std::vector<Stroke>> pages{1};
    std::size_t page = 0;
    std::vector<Bookmark> bookmarks;
    Type type;

    void add(Stroke stroke) { pages[page].push_back(std::move(stroke)); }
};

Canvas::Canvas(double width, double height) : ink_(std::make_unique<Ink>()), width_(width), height_(height) {}

Canvas::~Canvas() = default;

void Canvas::line(At a, At b, const Pen& pen) { polyline({a, b}, pen); }

void Canvas::polyline(const std::vector<At>& points, const Pen& pen, bool closed) {
    ink_->add([=](cairo_t* cr) {
        trace(cr, points, closed);
        stroke(cr, pen);
    });
}

void Canvas::polylines(std::vector<std::vector<At>> lines, const Pen& pen) {
    ink_->add([lines = std::move(lines), pen](cairo_t* cr) {
        for (const auto& points : lines) trace(cr, points, false);
        stroke(cr, pen);
    });
}

void Canvas::fill(const std::vector<At>& points, Colour colour) {
    ink_->add([=](cairo_t* cr) {
        trace(cr, points, true);
        use(cr, colour);
        cairo_fill(cr);
    });
}

void Canvas::polygon(const std::vector<At>& points, const Pen& pen, Colour colour) {
    fill(points, colour);
    polyline(points, pen, true);
}

void Canvas::rectangle(At c, double w, double h, const Pen& pen) {
    polyline({c, {c.x + w, c.y}, {c.x + w, c.y + h}, {c.x, c.y + h}}, pen, true);
}

void Canvas::rectangle(At c, double w, double h, const Pen& pen, Colour colour) {
    polygon({c, {c.x + w, c.y}, {c.x + w, c.y + h}, {c.x, c.y + h}}, pen, colour);
}

void Canvas::circle(At c, double radius, const Pen& pen) { arc(c, radius, 0, 2 * std::numbers::pi, pen); }

void Canvas::circle(At c, double radius, const Pen& pen, Colour colour) {
    ink_->add([=](cairo_t* cr) {
        trace_arc(cr, c, radius, 0, 2 * std::numbers::pi);
        use(cr, colour);
        cairo_fill(cr);
    });
    circle(c, radius, pen);
}

void Canvas::arc(At c, double radius, double from, double to, const Pen& pen) {
    ink_->add([=](cairo_t* cr) {
        trace_arc(cr, c, radius, from, to);
        stroke(cr, pen);
    });
}

void Canvas::hatch(const std::vector<At>& points, double spacing, const Pen& pen) {
    ink_->add([=](cairo_t* cr) {
        cairo_save(cr);
        trace(cr, points, true);
        double x0 = 0, y0 = 0, x1 = 0, y1 = 0;
        cairo_fill_extents(cr, &x0, &y0, &x1, &y1);
        cairo_clip(cr);
        for (double x = x0 - (y1 - y0); x < x1; x += spacing) {
            cairo_move_to(cr, x, y1);
            cairo_line_to(cr, x + (y1 - y0), y0);
        }
        stroke(cr, pen);
        cairo_restore(cr);
    });
}

void Canvas::clip(At c, double width, double height) {
    ink_->add([=](cairo_t* cr) {
        cairo_save(cr);
        cairo_rectangle(cr, c.x, c.y, width, height);
        cairo_clip(cr);
    });
}

void Canvas::unclip() { ink_->add(cairo_restore); }

void Canvas::scale(At fixed, double times) {
    ink_->add([=](cairo_t* cr) {
        cairo_save(cr);
        cairo_translate(cr, fixed.x * (1 - times), fixed.y * (1 - times));
        cairo_scale(cr, times, times);
    });
}

void Canvas::unscale() { ink_->add(cairo_restore); }

TextSize Canvas::measure(std::string_view text, const TextStyle& style) { return ink_->type.set(text, style).size; }

TextSize Canvas::text(At at, std::string_view text, const TextStyle& style) {
    const Type::Set set = ink_->type.set(text, style);  // lives as long as the canvas
    ink_->add([=](cairo_t* cr) {
        cairo_save(cr);
        cairo_translate(cr, at.x, at.y);
        cairo_rotate(cr, style.angle);
        const double box = style.width > 0 ? style.width : set.size.width;
        const double left = style.anchor == Anchor::left ? 0 : style.anchor == Anchor::centre ? -box / 2 : -box;
        if (style.backed) {
            use(cr, white);
            cairo_rectangle(cr, left - 1, -0.5, box + 2, set.size.height + 1);
            cairo_fill(cr);
        }
        use(cr, style.colour);
        cairo_move_to(cr, left, 0);
        pango_cairo_show_layout(cr, set.layout);
        cairo_restore(cr);
    });
    return set.size;
}

void Canvas::bookmark(const std::string& title, int level, double y) {
    ink_->bookmarks.push_back({title, level, static_cast<int>(ink_->page) + 1, y});
}

void Canvas::next_page() {
    ink_->pages.emplace_back();
    ink_->page = ink_->pages.size() - 1;
}

void Canvas::back_to(int page) { ink_->page = static_cast<std::size_t>(page) - 1; }

std::string Canvas::pdf(const Meta& meta) const {
    Document out;
    out.begin(cairo_pdf_surface_create_for_stream(&Document::write, &out, width_, height_));
    describe(out.surface, meta);
    add_bookmarks(out.surface, ink_->bookmarks);
    for (const auto& page : ink_->pages) {
        for (const auto& stroke : page) stroke(out.cr);
        cairo_show_page(out.cr);
    }
    return out.finish();
}

std::string Canvas::svg(int page) const {
    Document out;
    out.begin(cairo_svg_surface_create_for_stream(&Document::write, &out, width_, height_));
    cairo_svg_surface_set_document_unit(out.surface, CAIRO_SVG_UNIT_PT);
    for (const auto& stroke : ink_->pages[static_cast<std::size_t>(page) - 1]) stroke(out.cr);
    cairo_show_page(out.cr);
    return without_count(out.finish());
}

}  // namespace bw::draw
