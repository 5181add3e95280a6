// SPDX-License-Identifier: MIT
// Ports, what is joined to what, and the systems they make.

#include "model/ifc_writer.h"

namespace bw::model {
namespace {

std::string_view direction_of(design::Flow flow, text::Service service) {
    if (service == text::Service::link) return "SOURCEANDSINK";
    switch (flow) {
        case design::Flow::in: return "SINK";
        case design::Flow::out: return "SOURCE";
        case design::Flow::unknown: break;
    }
    return "NOTDEFINED";
}

/// A port looks out of its piece, in the piece's own frame.
Frame port_frame(const Frame& piece, const plant::Port& port) {
    Frame frame{piece.in(port.at)};
    frame.z = piece.in(piece.origin + port.facing);
    const shape::Vec side = std::abs(frame.z.x) < 0.9 ? shape::Vec{1, 0, 0} : shape::Vec{0, 1, 0};
    const auto off = side - shape::dot(side, frame.z) * frame.z;
    frame.x = (1 / shape::length(off)) * off;
    return frame;
}

}  // namespace

void IfcWriter::ports() {
    port.resize(plant.pieces.size());
    for (std::size_t i = 0; i < plant.pieces.size(); ++i) {
        const auto& piece = plant.pieces[i];
        port[i].assign(piece.ports.size(), 0);
        if (element[i] == 0) continue;
        std::vector<int> nested;
        for (std::size_t k = 0; k < piece.ports.size(); ++k) {
            const auto& one = piece.ports[k];
            if (!flows(one.service)) continue;
            const auto mate = plant.mate({static_cast<int>(i), static_cast<int>(k)});
            std::string meets = "$";
            if (mate.piece >= 0 && element[static_cast<std::size_t>(mate.piece)] == 0)
                meets = quoted21("meets the building at " + plant.pieces[static_cast<std::size_t>(mate.piece)].id);
            const auto system = ifc_system(one.service);
            const int at = text.add("IFCLOCALPLACEMENT(#{},#{})", placement[i], axis2(port_frame(frame[i], one)));
            port[i][k] = text.add("IFCDISTRIBUTIONPORT('{}',$,{},{},$,#{},$,.{}.,.{}.,.{}.)",
                                  guid("port", piece.id + "." + one.name), quoted21(piece.id + "." + one.name), meets,
                                  at, direction_of(solved.port[i][k], one.service), system.port, system.predefined);
            nested.push_back(port[i][k]);
        }
        if (!nested.empty())
            text.add("IFCRELNESTS('{}',$,$,$,#{},{})", guid("nests", piece.id), element[i], list(nested));
    }
}

void IfcWriter::connections() {
    for (const auto& joint : plant.joints) {
        const auto [a, b] = std::pair(static_cast<std::size_t>(joint.a.piece), static_cast<std::size_t>(joint.b.piece));
        if (element[a] == 0 || element[b] == 0) continue;
        const auto name =
            plant.pieces[a].id + "." + plant.at(joint.a).name + "=" + plant.pieces[b].id + "." + plant.at(joint.b).name;
        const int from = port[a][static_cast<std::size_t>(joint.a.port)],
                  to = port[b][static_cast<std::size_t>(joint.b.port)];
        const auto kind = quoted21(plant::name(joint.kind));
        if (from > 0 && to > 0)
            text.add("IFCRELCONNECTSPORTS('{}',$,{},$,#{},#{},$)", guid("joined", name), kind, from, to);
        else
            text.add("IFCRELCONNECTSELEMENTS('{}',$,{},$,$,#{},#{})", guid("held", name), kind, element[a], element[b]);
    }
}

void IfcWriter::systems() {
    for (int s = 0; s < services; ++s) {
        const auto service = static_cast<text::Service>(s);
        if (!flows(service)) continue;
        std::vector<int> members;
        for (std::size_t i = 0; i < plant.pieces.size(); ++i) {
            const auto& piece = plant.pieces[i];
            if (element[i] == 0) continue;
            bool touches = piece.service == service;
            if (piece.part == text::Part::heater)
                for (const auto& one : piece.ports) touches = touches || one.service == service;
            if (touches) members.push_back(element[i]);
        }
        if (members.empty()) continue;
        const auto name = std::string(text::name(service));
        const auto kind = ifc_system(service);
        const int system = text.add("IFCDISTRIBUTIONSYSTEM('{}',$,'{}',$,{},$,.{}.)", guid("system", name), name,
                                    kind.object.empty() ? std::string("$") : quoted21(kind.object), kind.predefined);
        text.add("IFCRELASSIGNSTOGROUP('{}',$,$,$,{},$,#{})", guid("members", name), list(members), system);
        text.add("IFCRELSERVICESBUILDINGS('{}',$,$,$,#{},(#{}))", guid("serves", name), system, building);
    }
}

}  // namespace bw::model
