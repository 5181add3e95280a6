// SPDX-License-Identifier: MIT
#include "draw/type.h"

#include <fmt/format.h>

namespace bw::draw {
namespace {

PangoLayout* laid_out(PangoContext* context, std::string_view text, const TextStyle& style) {
    PangoLayout* layout = pango_layout_new(context);
    PangoFontDescription* font = pango_font_description_new();
    pango_font_description_set_family_static(font, style.mono ? "Liberation Mono" : "Liberation Sans");
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
    // identifiers are broken without a hyphen that is not theirs
    PangoAttrList* attributes = pango_attr_list_new();
    pango_attr_list_insert(attributes, pango_attr_insert_hyphens_new(FALSE));
    pango_layout_set_attributes(layout, attributes);
    pango_attr_list_unref(attributes);
    pango_layout_set_text(layout, text.data(), static_cast<int>(text.size()));
    return layout;
}

TextSize size_of(PangoLayout* layout) {
    int w = 0, h = 0;
    pango_layout_get_size(layout, &w, &h);
    return {static_cast<double>(w) / PANGO_SCALE, static_cast<double>(h) / PANGO_SCALE};
}

/// Whatever of a style changes how the text is laid out; colour and angle do not.
std::string key_of(std::string_view text, const TextStyle& style) {
    const int anchor = style.width > 0 ? static_cast<int>(style.anchor) : 0;
    return fmt::format("{} {} {} {}{}{} {}", style.size, style.width, anchor, int{style.bold}, int{style.italic},
                       int{style.mono}, text);
}

}  // namespace

Type::Type() : context_(pango_font_map_create_context(pango_cairo_font_map_get_default())) {
    // as on paper of any fineness: glyphs keep their own widths and stand where these put them
    cairo_font_options_t* options = cairo_font_options_create();
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
    pango_cairo_context_set_font_options(context_, options);
    cairo_font_options_destroy(options);
    pango_context_set_round_glyph_positions(context_, FALSE);
}

Type::~Type() {
    for (const auto& [key, set] : known_) g_object_unref(set.layout);
    g_object_unref(context_);
}

const Type::Set& Type::set(std::string_view text, const TextStyle& style) {
    auto key = key_of(text, style);
    if (const auto found = known_.find(key); found != known_.end()) return found->second;
    PangoLayout* layout = laid_out(context_, text, style);
    return known_.emplace(std::move(key), Set{layout, size_of(layout)}).first->second;
}

}  // namespace bw::draw
