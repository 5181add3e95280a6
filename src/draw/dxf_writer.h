// SPDX-License-Identifier: MIT
#pragma once
// DXF of AutoCAD release 12, ASCII: the dialect every program reads. Layers, blocks and plain entities, no more.

#include <map>
#include <string>
#include <vector>

namespace bw::draw {

struct DxfPoint {
    double x = 0, y = 0;
};

/// Entities written one after another, in the drawing's unit.
class DxfEntities {
public:
    void line(const std::string& layer, DxfPoint a, DxfPoint b);
    void polyline(const std::string& layer, const std::vector<DxfPoint>& points, bool closed);
    /// Degrees anticlockwise, from one to the other.
    void arc(const std::string& layer, DxfPoint centre, double radius, double from, double to);
    void circle(const std::string& layer, DxfPoint centre, double radius);
    /// Middle of its baseline at the point; degrees anticlockwise.
    void text(const std::string& layer, DxfPoint at, double height, const std::string& text, double angle = 0);
    void insert(const std::string& layer, const std::string& block, DxfPoint at);
    [[nodiscard]] const std::string& bytes() const { return bytes_; }

private:
    friend class DxfFile;
    void pair(int code, const std::string& value);
    void number(int code, double value);
    void start(const char* kind, const std::string& layer);
    void point(int code, DxfPoint at);
    std::string bytes_;
};

class DxfFile {
public:
    /// `dash` and `gap` of dashed lines in the drawing's unit.
    DxfFile(double dash, double gap) : dash_(dash), gap_(gap) {}
    DxfEntities entities;

    /// Colour by index of the DXF palette, 1 to 255.
    void layer(const std::string& name, int colour, bool dashed = false) { layers_[name] = {colour, dashed}; }
    /// The name of a block with this content, drawn about the origin; equal content is one block. `wanted` becomes part
    /// of the name.
    [[nodiscard]] std::string block(const std::string& wanted, const DxfEntities& content);
    /// The whole file; `low` and `high` are the drawing's limits.
    [[nodiscard]] std::string finish(DxfPoint low, DxfPoint high) const;

private:
    double dash_, gap_;
    struct Layer {
        int colour = 7;
        bool dashed = false;
    };
    std::map<std::string, Layer> layers_;
    std::map<std::string, std::string> name_of_;               ///< by content
    std::vector<std::pair<std::string, std::string>> blocks_;  ///< name, content
};

}  // namespace bw::draw
