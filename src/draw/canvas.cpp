// SPDX-License-Identifier: MIT
#include "draw/canvas.h"

#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <pango/pangocairo.h>

#include <cmath>
#include <numbers>

namespace bw::draw {

struct Canvas::Ink {
    std::string bytes;
    cairo_surface_t* surface = nullptr;
    cairo_t* cr = nullptr;
    PangoLayout* layout = nullptr;
    int page = 1;
    bool pdf = false;
    std::vector<int> parents;  ///< open bookmark of each level

    Ink() = default;
    Ink(const Ink&) = delete;
    Ink& operator=(const Ink&) = delete;
    ~Ink() { close(); }
    void close() {
        if (layout) g_object_unref(layout);
        if (cr) cairo_destroy(cr);
        if (surface) cairo_surface_destroy(surface);
        layout = nullptr;
        cr = nullptr;
        surface = nullptr;
    }
    static cairo_status_t write(void* self, const unsigned char* data, unsigned int length) {
        static_cast<Ink*>(self)->bytes.append(reinterpret_cast<const char*>(data), length);
        return CAIRO_STATUS_SUCCESS;
    }
    void use(Colour c) const { cairo_set_source_rgb(cr, c.r, c.g, c.b); }
    void stroke(const Pen& pen) const {
        use(pen.colour);
        cairo_set_line_width(cr, pen.width);
        cairo_set_dash(cr, pen.dash.data(), static_cast<int>(pen.dash.size()), 0);
        cairo_stroke(cr);
    }
    void path(const std::vector<At>& points, bool closed) const {
        cairo_new_path(cr);
        for (const auto& p : points) cairo_line_to(cr, p.x, p.y);
        if (closed) cairo_close_path(cr);
    }
    void set(std::string_view text, const TextStyle& style) const {
        PangoFontDescription* font =
            pango_font_description_from_string(style.mono ? "Liberation Mono" : "Liberation Sans");
        pango_font_description_set_absolute_size(font, style.size * PANGO_SCALE);
        pango_font_description_set_weight(font, style.bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
        pango_font_description_set_style(font, style.italic ? PANGO_STYLE_ITALIC : PANGO_STYLE_NORMAL);
        pango_layout_set_font_description(layout, font);
        pango_font_description_free(font);
        pango_layout_set_width(layout, style.width > 0 ? static_cast<int>(style.width * PANGO_SCALE) : -1);
        pango_layout_set_wrap(layout, PANGO_WRAP_WORD_CHAR);
        pango_layout_set_alignment(layout, style.anchor == Anchor::left     ? PANGO_ALIGN_LEFT
                                           : style.anchor == Anchor::centre ? PANGO_ALIGN_CENTER
                                                                            : PANGO_ALIGN_RIGHT);
        PangoAttrList* attributes =
            pango_attr_list_new();  // identifiers are broken without a hyphen that is not theirs
        pango_attr_list_insert(attributes, pango_attr_insert_hyphens_new(FALSE));
        pango_layout_set_attributes(layout, attributes);
        pango_attr_list_unref(attributes);
        pango_layout_set_text(layout, text.data(), static_cast<int>(text.size()));
    }
    [[nodiscard]] TextSize size() const {
        int w = 0, h = 0;
        pango_layout_get_size(layout, &w, &h);
        return {static_cast<double>(w) / PANGO_SCALE, static_cast<double>(h) / PANGO_SCALE};
    }
};

Canvas::Canvas(Format format, double width, double height, const Meta& meta)
    : ink_(std::make_unique<Ink>()), width_(width), height_(height) {
    ink_->pdf = format == Format::pdf;
    if (ink_->pdf) {
        ink_->surface = cairo_pdf_surface_create_for_stream(&Ink::write, ink_.get(), width, height);
        auto tell = [&](cairo_pdf_metadata_t key, const std::string& value) {
            if (!value.empty()) cairo_pdf_surface_set_metadata(ink_->surface, key, value.c_str());
        };
        tell(CAIRO_PDF_METADATA_TITLE, meta.title);
        tell(CAIRO_PDF_METADATA_AUTHOR, meta.author);
        tell(CAIRO_PDF_METADATA_SUBJECT, meta.subject);
        tell(CAIRO_PDF_METADATA_CREATOR, "Bankwright");
        // a fixed date where none is given: the same survey gives the same bytes
        const auto date = (meta.date.empty() ? std::string("2000-01-01") : meta.date) + "T00:00:00Z";
        tell(CAIRO_PDF_METADATA_CREATE_DATE, date);
    } else {
        ink_->surface = cairo_svg_surface_create_for_stream(&Ink::write, ink_.get(), width, height);
        cairo_svg_surface_set_document_unit(ink_->surface, CAIRO_SVG_UNIT_PT);
    }
    ink_->cr = cairo_create(ink_->surface);
    cairo_set_line_join(ink_->cr, CAIRO_LINE_JOIN_MITER);
    ink_->layout = pango_cairo_create_layout(ink_->cr);
    pango_context_set_round_glyph_positions(pango_layout_get_context(ink_->layout), FALSE);
}

Canvas::~Canvas() = default;

void Canvas::line(At a, At b, const Pen& pen) { polyline({a, b}, pen); }

void Canvas::polyline(const std::vector<At>& points, const Pen& pen, bool closed) {
    ink_->path(points, closed);
    ink_->stroke(pen);
}

void Canvas::fill(const std::vector<At>& points, Colour colour) {
    ink_->path(points, true);
    ink_->use(colour);
    cairo_fill(ink_->cr);
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
    cairo_new_path(ink_->cr);
    cairo_arc(ink_->cr, c.x, c.y, radius, 0, 2 * std::numbers::pi);
    ink_->use(colour);
    cairo_fill(ink_->cr);
    circle(c, radius, pen);
}

void Canvas::arc(At c, double radius, double from, double to, const Pen& pen) {
    cairo_new_path(ink_->cr);
    cairo_arc(ink_->cr, c.x, c.y, radius, from, to);
    ink_->stroke(pen);
}

void Canvas::hatch(const std::vector<At>& points, double spacing, const Pen& pen) {
    auto* cr = ink_->cr;
    cairo_save(cr);
    ink_->path(points, true);
    double x0 = 0, y0 = 0, x1 = 0, y1 = 0;
    cairo_fill_extents(cr, &x0, &y0, &x1, &y1);
    cairo_clip(cr);
    for (double x = x0 - (y1 - y0); x < x1; x += spacing) {
        cairo_move_to(cr, x, y1);
        cairo_line_to(cr, x + (y1 - y0), y0);
    }
    ink_->stroke(pen);
    cairo_restore(cr);
}

void Canvas::clip(At c, double width, double height) {
    cairo_save(ink_->cr);
    cairo_rectangle(ink_->cr, c.x, c.y, width, height);
    cairo_clip(ink_->cr);
}

void Canvas::unclip() { cairo_restore(ink_->cr); }

void Canvas::scale(At fixed, double times) {
    cairo_save(ink_->cr);
    cairo_translate(ink_->cr, fixed.x * (1 - times), fixed.y * (1 - times));
    cairo_scale(ink_->cr, times, times);
}

void Canvas::unscale() { cairo_restore(ink_->cr); }

TextSize Canvas::measure(std::string_view text, const TextStyle& style) {
    ink_->set(text, style);
    return ink_->size();
}

TextSize Canvas::text(At at, std::string_view text, const TextStyle& style) {
    const auto size = measure(text, style);
    auto* cr = ink_->cr;
    cairo_save(cr);
    cairo_translate(cr, at.x, at.y);
    cairo_rotate(cr, style.angle);
    const double box = style.width > 0 ? style.width : size.width;
    const double left = style.anchor == Anchor::left ? 0 : style.anchor == Anchor::centre ? -box / 2 : -box;
    if (style.backed) {
        ink_->use(white);
        cairo_rectangle(cr, left - 1, -0.5, box + 2, size.height + 1);
        cairo_fill(cr);
    }
    ink_->use(style.colour);
    cairo_move_to(cr, left, 0);
    pango_cairo_update_layout(cr, ink_->layout);
    pango_cairo_show_layout(cr, ink_->layout);
    cairo_restore(cr);
    return size;
}

void Canvas::bookmark(const std::string& title, int level, double y) {
    if (!ink_->pdf) return;
    const auto depth = static_cast<std::size_t>(level);
    const int parent = depth == 0 || ink_->parents.size() < depth ? CAIRO_PDF_OUTLINE_ROOT : ink_->parents[depth - 1];
    const auto link = "page=" + std::to_string(ink_->page) + " pos=[0 " + std::to_string(static_cast<int>(y)) + "]";
    const auto flags = static_cast<cairo_pdf_outline_flags_t>(level == 0 ? CAIRO_PDF_OUTLINE_FLAG_BOLD : 0);
    const int id = cairo_pdf_surface_add_outline(ink_->surface, parent, title.c_str(), link.c_str(), flags);
    ink_->parents.resize(depth + 1);
    ink_->parents[depth] = id;
}

void Canvas::next_page() {
    cairo_show_page(ink_->cr);
    ++ink_->page;
}

namespace {

/// Cairo counts surfaces on through the whole run of the program and names the SVG's group by it.
void forget_count(std::string& svg) {
    constexpr std::string_view named = "id=\"surface";
    if (const auto at = svg.find(named); at != std::string::npos)
        svg.replace(at + named.size(), svg.find('"', at + named.size()) - at - named.size(), "");
}

}  // namespace

std::string Canvas::finish() {
    cairo_show_page(ink_->cr);
    g_object_unref(ink_->layout);
    ink_->layout = nullptr;
    cairo_destroy(ink_->cr);
    ink_->cr = nullptr;
    cairo_surface_finish(ink_->surface);
    if (!ink_->pdf) forget_count(ink_->bytes);
    return std::move(ink_->bytes);
}

}  // namespace bw::draw
