// SPDX-License-Identifier: MIT
// Pieces as elements of their class, their types, and what is known of each.

#include <map>
#include <tuple>

#include "model/ifc_writer.h"
#include "units/nominal.h"

namespace bw::model {
namespace {

using plant::Piece;
using text::Part;

std::string upper(std::string_view word) {
    std::string out(word);
    for (char& c : out) c = static_cast<char>(c >= 'a' && c <= 'z' ? c - 'a' + 'A' : c);
    return out;
}

std::string object_type(const IfcClass& c, const Piece& piece) {
    return quoted21(c.object.empty() ? text::name(piece.part) : c.object);
}

/// A fastener has a diameter and a length between its tag and its kind.
std::string_view fastener(const IfcClass& c) { return c.name == "MechanicalFastener" ? ",$,$" : ""; }

/// The identity that maps a shared shape to where its element stands.
int unmoved(IfcWriter& w) {
    const int origin = w.point({});
    return w.text.add("IFCCARTESIANTRANSFORMATIONOPERATOR3D($,$,#{},1.,$)", origin);
}

}  // namespace

void IfcWriter::elements() {
    element.assign(plant.pieces.size(), 0), placement.assign(plant.pieces.size(), 0);
    frame.resize(plant.pieces.size());
    std::vector<int> shape_of(plant.pieces.size(), -1);
    for (const auto& placed : scene.placed) {
        frame[static_cast<std::size_t>(placed.piece)] = placed.frame;
        shape_of[static_cast<std::size_t>(placed.piece)] = placed.shape;
    }
    const int target = unmoved(*this);
    std::vector<int> all;
    for (std::size_t i = 0; i < plant.pieces.size(); ++i) {
        const auto& piece = plant.pieces[i];
        if (piece.part == Part::connection) continue;
        placement[i] = text.add("IFCLOCALPLACEMENT(#{},#{})", here, axis2(frame[i]));
        int definition = 0;
        if (shape_of[i] >= 0) {
            const auto s = static_cast<std::size_t>(shape_of[i]);
            int shown = shape_direct[s];
            if (shape_map[s] > 0) {
                const int mapped = text.add("IFCMAPPEDITEM(#{},#{})", shape_map[s], target);
                shown = text.add("IFCSHAPEREPRESENTATION(#{},'Body','MappedRepresentation',(#{}))", body, mapped);
            }
            definition = text.add("IFCPRODUCTDEFINITIONSHAPE($,$,(#{}))", shown);
        }
        const auto c = ifc_class(piece.part);
        element[i] = text.add("IFC{}('{}',$,{},$,{},#{},{},{}{},.{}.)", upper(c.name), guid("piece", piece.id),
                              quoted21(piece.id), object_type(c, piece), placement[i], ref(definition),
                              quoted21(piece.item), fastener(c), c.predefined);
        all.push_back(element[i]);
    }
    text.add("IFCRELCONTAINEDINSPATIALSTRUCTURE('{}',$,$,$,{},#{})", guid("contained", ""), list(all), space);
}

namespace {

/// What every heater of a row has, as the standard's own set for boilers names it.
int boiler_set(IfcWriter& w, const catalogue::Heater& heater) {
    const int input = w.text.add("IFCPROPERTYSINGLEVALUE('NominalEnergyConsumption',$,IFCPOWERMEASURE({}),$)",
                                 real(heater.input_greatest.value()));
    const int water = w.text.add("IFCPROPERTYSINGLEVALUE('WaterStorageCapacity',$,IFCVOLUMEMEASURE({}),$)",
                                 real(heater.water.value()));
    return w.text.add("IFCPROPERTYSET('{}',$,'Pset_BoilerTypeCommon',$,(#{},#{}))", w.guid("boiler", heater.key), input,
                      water);
}

}  // namespace

void IfcWriter::types() {
    struct Kind {
        const Piece* first;
        std::vector<int> elements;
    };
    std::map<std::pair<std::string, Part>, Kind> kinds;  // a cap of a row and a plug of it are two types
    for (std::size_t i = 0; i < plant.pieces.size(); ++i) {
        const auto& piece = plant.pieces[i];
        if (element[i] == 0 || piece.item.empty()) continue;
        auto& kind = kinds[{piece.item, piece.part}];
        if (kind.elements.empty()) kind.first = &piece;
        kind.elements.push_back(element[i]);
    }
    for (const auto& [key, kind] : kinds) {
        const auto c = ifc_class(key.second);
        const auto name = key.first + " " + std::string(text::name(key.second));
        const auto* heater = key.second == Part::heater ? catalogue.heater(key.first) : nullptr;
        const auto* item = catalogue.item(key.first);
        const int sets = heater ? boiler_set(*this, *heater) : 0;
        const auto title = heater ? quoted21(heater->title) : item ? quoted21(item->title) : "$";
        const bool bolt = !fastener(c).empty();
        const int type = text.add("IFC{}TYPE('{}',$,{},{},$,{},$,$,{},.{}.{})", upper(c.name), guid("type", name),
                                  quoted21(key.first), title, sets > 0 ? "(" + ref(sets) + ")" : "$",
                                  object_type(c, *kind.first), c.predefined, bolt ? ",$,$" : "");
        text.add("IFCRELDEFINESBYTYPE('{}',$,$,$,{},#{})", guid("typed", name), list(kind.elements), type);
    }
}

}  // namespace bw::model
