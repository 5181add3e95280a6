// SPDX-License-Identifier: MIT
// What is known of each element: quantities, what it is in the plant, and the solved pressure and flow.

#include "model/ifc_writer.h"
#include "units/nominal.h"

namespace bw::model {
namespace {

class Sets {
public:
    Sets(IfcWriter& writer, std::size_t piece)
        : w_(writer), text_(writer.text), at_(piece), piece_(writer.plant.pieces[piece]) {}

    void quantities() {
        if (piece_.cut > 0) add("IFCQUANTITYLENGTH('Length',$,$,{},$)", real(piece_.cut));
        add("IFCQUANTITYWEIGHT('GrossWeight',$,$,{},$)", real(piece_.mass_dry));
        const auto set = text_.add("IFCELEMENTQUANTITY('{}',$,'Qto_{}BaseQuantities',$,$,{})",
                                   w_.guid("quantities", piece_.id), ifc_class(piece_.part).name, list(kept_));
        define("quantified", set);
    }

    void piece() {
        if (piece_.part != text::Part::heater) label("Service", text::name(piece_.service));
        if (piece_.size.eighths > 0) label("Size", units::print(piece_.size));
        if (piece_.bore > 0) value("Bore", "POSITIVELENGTHMEASURE", piece_.bore);
        if (piece_.water > 0) {
            value("WaterHeld", "VOLUMEMEASURE", piece_.water);
        }
        if (piece_.heater > 0) add("IFCPROPERTYSINGLEVALUE('Heater',$,IFCINTEGER({}),$)", piece_.heater);
        if (piece_.bank > 0) add("IFCPROPERTYSINGLEVALUE('Bank',$,IFCINTEGER({}),$)", piece_.bank);
        property_set("Bankwright_Piece", "pieced");
    }

    void flow() {
        const auto& state = w_.solved.piece[at_];
        if (piece_.part == text::Part::heater) {
            heater(static_cast<std::size_t>(piece_.heater) - 1);
        } else if (state) {
            if (state->flow) value("FlowRate", "VOLUMETRICFLOWRATEMEASURE", state->flow->value());
            if (state->mass_flow) value("MassFlowRate", "MASSFLOWRATEMEASURE", state->mass_flow->value());
            value("PressureAtRunStart", "PRESSUREMEASURE", state->start.value());
            value("PressureAtRunEnd", "PRESSUREMEASURE", state->end.value());
        }
        if (!kept_.empty()) property_set("Bankwright_Flow", "flowing");
    }

private:
    void heater(std::size_t n) {
        if (n >= w_.solved.heater_water.size()) return;
        if (const auto& q = w_.solved.heater_water[n]) value("WaterFlowRate", "VOLUMETRICFLOWRATEMEASURE", q->value());
        if (const auto& p = w_.solved.heater_cold[n]) value("ColdPressure", "PRESSUREMEASURE", p->value());
        if (const auto& p = w_.solved.heater_hot[n]) value("HotPressure", "PRESSUREMEASURE", p->value());
        if (const auto& q = w_.solved.heater_gas[n]) value("GasFlowRate", "VOLUMETRICFLOWRATEMEASURE", q->value());
        if (const auto& p = w_.solved.heater_gas_pressure[n]) value("GasPressure", "PRESSUREMEASURE", p->value());
    }

    template <class... T>
    void add(fmt::format_string<T...> form, T&&... values) {
        kept_.push_back(text_.add(form, std::forward<T>(values)...));
    }
    void label(std::string_view name, std::string_view value) {
        add("IFCPROPERTYSINGLEVALUE('{}',$,IFCLABEL({}),$)", name, quoted21(value));
    }
    void value(std::string_view name, std::string_view measure, double si) {
        add("IFCPROPERTYSINGLEVALUE('{}',$,IFC{}({}),$)", name, measure, real(si));
    }
    void property_set(std::string_view name, std::string_view relation) {
        const int set = text_.add("IFCPROPERTYSET('{}',$,'{}',$,{})", w_.guid(name, piece_.id), name, list(kept_));
        define(relation, set);
    }
    void define(std::string_view relation, int set) {
        text_.add("IFCRELDEFINESBYPROPERTIES('{}',$,$,$,(#{}),#{})", w_.guid(relation, piece_.id), w_.element[at_],
                  set);
        kept_.clear();
    }

    IfcWriter& w_;
    Part21& text_;
    std::size_t at_;
    const plant::Piece& piece_;
    std::vector<int> kept_;
};

}  // namespace

void IfcWriter::quantities() {
    for (std::size_t i = 0; i < plant.pieces.size(); ++i) {
        if (element[i] == 0) continue;
        Sets sets(*this, i);
        sets.quantities();
        sets.piece();
        sets.flow();
    }
}

}  // namespace bw::model
