// SPDX-License-Identifier: MIT
// Geometry as sweeps: boxes and straight rods are extruded, bent rods are a disk led along a line, mitred at its
// corners.

#include <map>

#include "model/ifc_writer.h"

namespace bw::model {
namespace {

class Geometry {
public:
    explicit Geometry(IfcWriter& writer) : w_(writer), style_(looks, 0) {}

    /// One item, in its service's colour.
    int item(const Form& form, Look look) {
        const int made =
            std::holds_alternative<shape::Box>(form) ? box(std::get<shape::Box>(form)) : rod(std::get<Rod>(form));
        w_.text.add("IFCSTYLEDITEM(#{},(#{}),$)", made, style(look));
        return made;
    }

private:
    int box(const shape::Box& box) {
        const auto size = box.max - box.min, middle = 0.5 * (box.min + box.max);
        const int centre = w_.text.add("IFCCARTESIANPOINT((0.,0.))");
        const int flat = w_.text.add("IFCAXIS2PLACEMENT2D(#{},$)", centre);
        const int profile = w_.text.add("IFCRECTANGLEPROFILEDEF(.AREA.,$,#{},{},{})", flat, real(size.x), real(size.y));
        const int at = w_.axis2(Frame{{middle.x, middle.y, box.min.z}});
        return w_.text.add("IFCEXTRUDEDAREASOLID(#{},#{},#{},{})", profile, at, w_.z, real(size.z));
    }

    int rod(const Rod& rod) {
        if (rod.line.size() > 2) return bent(rod);
        const auto along = rod.line[1] - rod.line[0];
        const double length = shape::length(along);
        Frame frame{rod.line[0]};
        frame.z = (1 / length) * along;
        const shape::Vec side = std::abs(frame.z.x) < 0.9 ? shape::Vec{1, 0, 0} : shape::Vec{0, 1, 0};
        const auto off = side - shape::dot(side, frame.z) * frame.z;
        frame.x = (1 / shape::length(off)) * off;
        return w_.text.add("IFCEXTRUDEDAREASOLID(#{},#{},#{},{})", circle(rod.radius), w_.axis2(frame), w_.z,
                           real(length));
    }

    int bent(const Rod& rod) {
        std::vector<int> points;
        for (const auto v : rod.line) points.push_back(w_.point(v));
        const int line = w_.text.add("IFCPOLYLINE({})", list(points));
        return w_.text.add("IFCSWEPTDISKSOLID(#{},{},$,$,$)", line, real(rod.radius));
    }

    int circle(double radius) {
        const auto [known, fresh] = circles_.try_emplace(std::llround(radius * 1e7), 0);
        if (fresh) known->second = w_.text.add("IFCCIRCLEPROFILEDEF(.AREA.,$,$,{})", real(radius));
        return known->second;
    }

    int style(Look look) {
        int& made = style_[static_cast<std::size_t>(index_of(look))];
        if (made > 0) return made;
        const auto c = colour(look);
        const int rgb = w_.text.add("IFCCOLOURRGB($,{},{},{})", real(c.r), real(c.g), real(c.b));
        const int shade = w_.text.add("IFCSURFACESTYLERENDERING(#{},0.,$,$,$,$,$,$,.NOTDEFINED.)", rgb);
        return made = w_.text.add("IFCSURFACESTYLE('{}',.BOTH.,(#{}))", name(look), shade);
    }

    IfcWriter& w_;
    std::map<long long, int> circles_;
    std::vector<int> style_;
};

bool bends(const Form& form) {
    const auto* rod = std::get_if<Rod>(&form);
    return rod && rod->line.size() > 2;
}

}  // namespace

void IfcWriter::shapes() {
    Geometry geometry(*this);
    shape_map.assign(scene.shapes.size(), 0), shape_direct.assign(scene.shapes.size(), 0);
    for (std::size_t i = 0; i < scene.shapes.size(); ++i) {
        const auto& shape = scene.shapes[i];
        std::vector<int> items;
        bool bent = false;
        for (const auto& form : shape.forms) {
            items.push_back(geometry.item(form, shape.look));
            bent = bent || bends(form);
        }
        const int shown = text.add("IFCSHAPEREPRESENTATION(#{},'Body','{}',{})", body,
                                   bent ? "AdvancedSweptSolid" : "SweptSolid", list(items));
        if (shape.used > 1)
            shape_map[i] = text.add("IFCREPRESENTATIONMAP(#{},#{})", axes, shown);
        else
            shape_direct[i] = shown;
    }
}

}  // namespace bw::model
