// SPDX-License-Identifier: MIT
#include "model/ifc_writer.h"
#include "model/model.h"

namespace bw::model {

IfcWriter::IfcWriter(const design::Result& r, const catalogue::Catalogue& c)
    : result(r),
      catalogue(c),
      plant(r.chosen->built.plant),
      scene(model::scene(plant)),
      solved(design::solved(r)),
      guid(r.survey.job) {}

bool flows(text::Service service) { return service != text::Service::structure; }

int IfcWriter::point(shape::Vec v) {
    return text.add("IFCCARTESIANPOINT(({},{},{}))", real(v.x), real(v.y), real(v.z));
}

int IfcWriter::direction(shape::Vec v) { return text.add("IFCDIRECTION(({},{},{}))", real(v.x), real(v.y), real(v.z)); }

int IfcWriter::axis2(const Frame& f) {
    const int at = point(f.origin);
    if (f.z == shape::Vec{0, 0, 1} && f.x == shape::Vec{1, 0, 0}) return text.add("IFCAXIS2PLACEMENT3D(#{},$,$)", at);
    const int along = direction(f.z), side = direction(f.x);
    return text.add("IFCAXIS2PLACEMENT3D(#{},#{},#{})", at, along, side);
}

bw::Result<std::string> ifc(const design::Result& result, const catalogue::Catalogue& catalogue) {
    if (!result.chosen) return fail("nothing was chosen", "a survey whose plant fits");
    IfcWriter writer(result, catalogue);
    writer.project();
    writer.shapes();
    writer.elements();
    writer.types();
    writer.quantities();
    writer.ports();
    writer.connections();
    writer.systems();
    return writer.text.file("IFC4", "pieces, ports and systems of a hot-water plant", result.survey.job,
                            result.survey.date, result.survey.prepared_by);
}

}  // namespace bw::model
