// SPDX-License-Identifier: MIT
// What every IFC file begins with: units, contexts, and the place in the building.

#include <array>

#include "model/ifc_writer.h"

namespace bw::model {
namespace {

int units(Part21& text) {
    std::vector<int> all;
    const auto si = [&](std::string_view kind, std::string_view prefix, std::string_view name) {
        all.push_back(text.add("IFCSIUNIT(*,.{}.,{},.{}.)", kind, prefix, name));
        return all.back();
    };
    const int metre = si("LENGTHUNIT", "$", "METRE");
    si("AREAUNIT", "$", "SQUARE_METRE"), si("VOLUMEUNIT", "$", "CUBIC_METRE"), si("PLANEANGLEUNIT", "$", "RADIAN");
    const int kilogram = si("MASSUNIT", ".KILO.", "GRAM"), second = si("TIMEUNIT", "$", "SECOND");
    si("THERMODYNAMICTEMPERATUREUNIT", "$", "KELVIN"), si("PRESSUREUNIT", "$", "PASCAL"), si("POWERUNIT", "$", "WATT");
    const auto rate = [&](std::string_view kind, int unit, int power) {
        const int above = text.add("IFCDERIVEDUNITELEMENT(#{},{})", unit, power);
        const int below = text.add("IFCDERIVEDUNITELEMENT(#{},-1)", second);
        all.push_back(text.add("IFCDERIVEDUNIT((#{},#{}),.{}.,$)", above, below, kind));
    };
    rate("VOLUMETRICFLOWRATEUNIT", metre, 3);
    rate("MASSFLOWRATEUNIT", kilogram, 1);
    return text.add("IFCUNITASSIGNMENT({})", list(all));
}

/// What a sloping ceiling leaves of the room drawn up to its greatest height.
int under_ceiling(IfcWriter& w, int solid, const survey::Room& room) {
    const auto ceiling = room.overhead();
    const auto& corner = room.plan.front();
    const shape::Vec out{-ceiling.rise_x, -ceiling.rise_y, 1};
    const int at = w.point({corner.x, corner.y, ceiling.at(corner)});
    const int normal = w.direction((1 / shape::length(out)) * out);
    const int plane = w.text.add("IFCPLANE(#{})", w.text.add("IFCAXIS2PLACEMENT3D(#{},#{},$)", at, normal));
    // .F.: the normal points into what is taken away
    const int above = w.text.add("IFCHALFSPACESOLID(#{},.F.)", plane);
    return w.text.add("IFCBOOLEANCLIPPINGRESULT(.DIFFERENCE.,#{},#{})", solid, above);
}

/// The room: its plan up to its ceiling.
int room_shape(IfcWriter& w) {
    const auto& room = w.result.survey.room;
    std::vector<int> corners;
    for (const auto& p : room.plan) corners.push_back(w.text.add("IFCCARTESIANPOINT(({},{}))", real(p.x), real(p.y)));
    corners.push_back(corners.front());
    const int line = w.text.add("IFCPOLYLINE({})", list(corners));
    const int profile = w.text.add("IFCARBITRARYCLOSEDPROFILEDEF(.AREA.,$,#{})", line);
    const int solid =
        w.text.add("IFCEXTRUDEDAREASOLID(#{},#{},#{},{})", profile, w.axes, w.z, real((*room.ceiling).value()));
    const bool slopes = room.slope.has_value();
    const int shown = w.text.add("IFCSHAPEREPRESENTATION(#{},'Body','{}',(#{}))", w.body,
                                 slopes ? "Clipping" : "SweptSolid", slopes ? under_ceiling(w, solid, room) : solid);
    return w.text.add("IFCPRODUCTDEFINITIONSHAPE($,$,(#{}))", shown);
}

}  // namespace

void IfcWriter::project() {
    const auto& survey = result.survey;
    const int origin = point({});
    z = direction({0, 0, 1}), x = direction({1, 0, 0});
    axes = text.add("IFCAXIS2PLACEMENT3D(#{},#{},#{})", origin, z, x);
    const int context = text.add("IFCGEOMETRICREPRESENTATIONCONTEXT($,'Model',3,1.E-5,#{},$)", axes);
    body = text.add("IFCGEOMETRICREPRESENTATIONSUBCONTEXT('Body','Model',*,*,*,*,#{},$,.MODEL_VIEW.,$)", context);
    const int project = text.add("IFCPROJECT('{}',$,{},$,$,$,$,(#{}),#{})", guid("project", ""), quoted21(survey.job),
                                 context, units(text));
    int above = 0;
    const auto place = [&] {
        above = text.add("IFCLOCALPLACEMENT({},#{})", ref(above), axes);
        return above;
    };
    const int site = text.add("IFCSITE('{}',$,'site',$,$,#{},$,$,.ELEMENT.,$,$,{},$,$)", guid("site", ""), place(),
                              real((*survey.altitude).value()));
    building = text.add("IFCBUILDING('{}',$,'building',$,$,#{},$,$,.ELEMENT.,$,$,$)", guid("building", ""), place());
    const int storey = text.add("IFCBUILDINGSTOREY('{}',$,'storey of the heater room',$,$,#{},$,$,.ELEMENT.,0.)",
                                guid("storey", ""), place());
    here = place();
    space = text.add("IFCSPACE('{}',$,'heater room',$,$,#{},#{},$,.ELEMENT.,.INTERNAL.,0.)", guid("space", ""), here,
                     room_shape(*this));
    const std::array chain{project, site, building, storey, space};
    for (std::size_t i = 1; i < chain.size(); ++i)
        text.add("IFCRELAGGREGATES('{}',$,$,$,#{},(#{}))", guid("aggregates", std::to_string(i)), chain[i - 1],
                 chain[i]);
}

}  // namespace bw::model
