// SPDX-License-Identifier: MIT
#include "draw/dxf_writer.h"

#include <fmt/format.h>

#include <cctype>
#include <cmath>

namespace bw::draw {
namespace {

constexpr std::size_t longest_name = 31;  // of release 12

/// Release 12 takes letters, digits, $, - and _ in names.
std::string plain_name(const std::string& wanted) {
    std::string name;
    for (const unsigned char c : wanted) name += std::isalnum(c) ? static_cast<char>(std::toupper(c)) : '_';
    return name;
}

/// Release 12 knows no Unicode but by number, and a line break would end the value.
std::string plain_text(const std::string& utf8) {
    std::string text;
    for (std::size_t i = 0; i < utf8.size();) {
        const auto lead = static_cast<unsigned char>(utf8[i]);
        const std::size_t length = lead < 0x80 ? 1 : lead < 0xe0 ? 2 : lead < 0xf0 ? 3 : 4;
        unsigned code = length == 1 ? lead : lead & (0xffu >> (length + 1));
        for (std::size_t k = 1; k < length && i + k < utf8.size(); ++k)
            code = code << 6 | (static_cast<unsigned char>(utf8[i + k]) & 0x3fu);
        i += length;
        if (code < 0x20)
            text += ' ';
        else if (code < 0x7f)
            text += static_cast<char>(code);
        else
            text += code <= 0xffff ? fmt::format("\\U+{:04X}", code) : "?";
    }
    return text;
}

}  // namespace

void DxfEntities::pair(int code, const std::string& value) { bytes_ += fmt::format("{:3}\n{}\n", code, value); }
void DxfEntities::number(int code, double value) {
    auto text = fmt::format("{:.6f}", std::abs(value) < 5e-7 ? 0.0 : value);
    while (text.ends_with('0') && !text.ends_with(".0")) text.pop_back();
    pair(code, text);
}
void DxfEntities::start(const char* kind, const std::string& layer) { pair(0, kind), pair(8, layer); }
void DxfEntities::point(int code, DxfPoint at) { number(code, at.x), number(code + 10, at.y), number(code + 20, 0); }

void DxfEntities::line(const std::string& layer, DxfPoint a, DxfPoint b) {
    start("LINE", layer), point(10, a), point(11, b);
}

void DxfEntities::polyline(const std::string& layer, const std::vector<DxfPoint>& points, bool closed) {
    start("POLYLINE", layer), pair(66, "1"), point(10, {}), pair(70, closed ? "1" : "0");
    for (const auto& p : points) start("VERTEX", layer), point(10, p);
    start("SEQEND", layer);
}

void DxfEntities::circle(const std::string& layer, DxfPoint centre, double radius) {
    start("CIRCLE", layer), point(10, centre), number(40, radius);
}

void DxfEntities::arc(const std::string& layer, DxfPoint centre, double radius, double from, double to) {
    start("ARC", layer), point(10, centre), number(40, radius), number(50, from), number(51, to);
}

void DxfEntities::text(const std::string& layer, DxfPoint at, double height, const std::string& text, double angle) {
    start("TEXT", layer), point(10, at), number(40, height), pair(1, plain_text(text));
    if (angle != 0) number(50, angle);
    pair(72, "1"), point(11, at);
}

void DxfEntities::insert(const std::string& layer, const std::string& block, DxfPoint at) {
    start("INSERT", layer), pair(2, block), point(10, at);
}

std::string DxfFile::block(const std::string& wanted, const DxfEntities& content) {
    if (const auto known = name_of_.find(content.bytes()); known != name_of_.end()) return known->second;
    const auto tail = fmt::format("-{}", blocks_.size() + 1);
    const auto name = plain_name(wanted).substr(0, longest_name - tail.size()) + tail;
    name_of_[content.bytes()] = name;
    blocks_.emplace_back(name, content.bytes());
    return name;
}

std::string DxfFile::finish(DxfPoint low, DxfPoint high) const {
    DxfEntities out;
    const auto section = [&](const char* name) { out.pair(0, "SECTION"), out.pair(2, name); };
    section("HEADER");
    out.pair(9, "$ACADVER"), out.pair(1, "AC1009");
    out.pair(9, "$EXTMIN"), out.point(10, low);
    out.pair(9, "$EXTMAX"), out.point(10, high);
    out.pair(0, "ENDSEC");
    section("TABLES");
    out.pair(0, "TABLE"), out.pair(2, "LTYPE"), out.pair(70, "2");
    out.pair(0, "LTYPE"), out.pair(2, "CONTINUOUS"), out.pair(70, "0"), out.pair(3, "Solid line"), out.pair(72, "65"),
        out.pair(73, "0"), out.number(40, 0);
    out.pair(0, "LTYPE"), out.pair(2, "DASHED"), out.pair(70, "0"), out.pair(3, "Dashed __ __"), out.pair(72, "65"),
        out.pair(73, "2"), out.number(40, dash_ + gap_), out.number(49, dash_), out.number(49, -gap_);
    out.pair(0, "ENDTAB");
    out.pair(0, "TABLE"), out.pair(2, "LAYER"), out.pair(70, std::to_string(layers_.size()));
    for (const auto& [name, layer] : layers_)
        out.pair(0, "LAYER"), out.pair(2, name), out.pair(70, "0"), out.pair(62, std::to_string(layer.colour)),
            out.pair(6, layer.dashed ? "DASHED" : "CONTINUOUS");
    out.pair(0, "ENDTAB"), out.pair(0, "ENDSEC");
    section("BLOCKS");
    for (const auto& [name, content] : blocks_) {
        out.start("BLOCK", "0"), out.pair(2, name), out.pair(70, "0"), out.point(10, {}), out.pair(3, name);
        out.bytes_ += content;
        out.start("ENDBLK", "0");
    }
    out.pair(0, "ENDSEC");
    section("ENTITIES");
    out.bytes_ += entities.bytes();
    out.pair(0, "ENDSEC"), out.pair(0, "EOF");
    return out.bytes_;
}

}  // namespace bw::draw
