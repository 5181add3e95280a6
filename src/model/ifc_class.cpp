// SPDX-License-Identifier: MIT
#include "model/ifc_class.h"

namespace bw::model {

IfcClass ifc_class(text::Part part) {
    using text::Part;
    switch (part) {
        case Part::heater: return {"Boiler", "WATER"};
        case Part::pipe:
        case Part::nipple: return {"PipeSegment", "RIGIDSEGMENT"};
        case Part::flexible_gas:
        case Part::flexible_water: return {"PipeSegment", "FLEXIBLESEGMENT"};
        case Part::elbow:
        case Part::elbow_45: return {"PipeFitting", "BEND"};
        case Part::tee: return {"PipeFitting", "JUNCTION"};
        case Part::cap: return {"PipeFitting", "USERDEFINED", "CAP"};
        case Part::coupling:
        case Part::union_joint:
        case Part::adapter:
        case Part::dielectric: return {"PipeFitting", "CONNECTOR"};
        case Part::reducer: return {"PipeFitting", "TRANSITION"};
        case Part::test_port: return {"PipeFitting", "USERDEFINED", "TESTPORT"};
        case Part::ball_valve:
        case Part::service_valve_cold:
        case Part::service_valve_hot: return {"Valve", "ISOLATING"};
        case Part::gas_valve: return {"Valve", "GASCOCK"};
        case Part::check_valve: return {"Valve", "CHECK"};
        case Part::balancing_valve: return {"Valve", "REGULATING"};
        case Part::mixing_valve: return {"Valve", "MIXING"};
        case Part::relief_valve: return {"Valve", "PRESSURERELIEF"};
        case Part::pressure_reducer:
        case Part::regulator: return {"Valve", "PRESSUREREDUCING"};
        case Part::backflow_preventer: return {"Valve", "USERDEFINED", "BACKFLOWPREVENTER"};
        case Part::strainer: return {"Filter", "STRAINER"};
        case Part::thermometer: return {"FlowInstrument", "THERMOMETER"};
        case Part::pump: return {"Pump", "CIRCULATOR"};
        case Part::expansion_vessel: return {"Tank", "EXPANSION"};
        case Part::tank: return {"Tank", "STORAGE"};
        case Part::vent_pipe: return {"DuctSegment", "RIGIDSEGMENT"};
        case Part::vent_elbow: return {"DuctFitting", "BEND"};
        case Part::vent_tee: return {"DuctFitting", "JUNCTION"};
        case Part::vent_collar: return {"DuctFitting", "CONNECTOR"};
        case Part::vent_adapter: return {"DuctFitting", "TRANSITION"};
        case Part::vent_damper: return {"Damper", "BACKDRAFTDAMPER"};
        case Part::vent_terminal: return {"AirTerminal", "USERDEFINED", "FLUETERMINAL"};
        case Part::intake_terminal: return {"AirTerminal", "USERDEFINED", "INTAKETERMINAL"};
        case Part::condensate_trap: return {"WasteTerminal", "WASTETRAP"};
        case Part::neutraliser: return {"Filter", "USERDEFINED", "CONDENSATENEUTRALISER"};
        case Part::condensate_pump: return {"Pump", "SUMPPUMP"};
        case Part::overflow_switch: return {"Sensor", "LEVELSENSOR"};
        case Part::air_gap: return {"WasteTerminal", "USERDEFINED", "AIRGAP"};
        case Part::panel_feed: return {"ProtectiveDevice", "CIRCUITBREAKER"};
        case Part::cable:
        case Part::link_cable: return {"CableSegment", "CABLESEGMENT"};
        case Part::bond: return {"CableSegment", "CONDUCTORSEGMENT"};
        case Part::disconnect: return {"SwitchingDevice", "SWITCHDISCONNECTOR"};
        case Part::emergency_stop: return {"SwitchingDevice", "EMERGENCYSTOP"};
        case Part::link_plug: return {"CableFitting", "CONNECTOR"};
        case Part::frame_post: return {"Member", "POST"};
        case Part::frame_rail: return {"Member", "MEMBER"};
        case Part::strut: return {"Member", "STRUT"};
        case Part::foot: return {"DiscreteAccessory", "ANCHORPLATE"};
        case Part::anchor: return {"MechanicalFastener", "ANCHORBOLT"};
        case Part::hanger: return {"DiscreteAccessory", "USERDEFINED", "PIPEHANGER"};
        case Part::rod: return {"DiscreteAccessory", "USERDEFINED", "HANGERROD"};
        case Part::bracket: return {"DiscreteAccessory", "BRACKET"};
        case Part::firestop: return {"BuildingElementProxy", "USERDEFINED", "FIRESTOP"};
        case Part::co_alarm: return {"Sensor", "COSENSOR"};
        case Part::connection: break;
    }
    return {"BuildingElementProxy", "NOTDEFINED"};
}

IfcSystem ifc_system(text::Service service) {
    using text::Service;
    switch (service) {
        case Service::gas: return {"GAS", {}, "PIPE"};
        case Service::cold: return {"DOMESTICCOLDWATER", {}, "PIPE"};
        case Service::hot: return {"DOMESTICHOTWATER", {}, "PIPE"};
        case Service::recirculation: return {"DOMESTICHOTWATER", "RECIRCULATION", "PIPE"};
        case Service::exhaust: return {"EXHAUST", "FLUEGAS", "DUCT"};
        case Service::intake: return {"VENTILATION", "COMBUSTIONAIR", "DUCT"};
        case Service::condensate: return {"DRAINAGE", "CONDENSATE", "PIPE"};
        case Service::relief: return {"DRAINAGE", "RELIEF", "PIPE"};
        case Service::power: return {"ELECTRICAL", {}, "CABLE"};
        case Service::link: return {"CONTROL", {}, "CABLE"};
        case Service::structure: break;
    }
    return {};
}

}  // namespace bw::model
