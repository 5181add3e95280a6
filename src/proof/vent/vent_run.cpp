// SPDX-License-Identifier: MIT
#include "proof/vent/vent_run.h"

#include "shape/polygon.h"

namespace bw::proof {
namespace {

bool is_terminal(Part part) { return part == Part::vent_terminal || part == Part::intake_terminal; }

/// Centre line through a piece from one port to another: a square turn is longer than the straight line across it.
double through(const Piece& piece, int in, int out) {
    const auto &a = piece.ports[static_cast<std::size_t>(in)], &b = piece.ports[static_cast<std::size_t>(out)];
    const double across = shape::distance(a.at, b.at);
    return std::fabs(shape::dot(a.facing, b.facing)) < 0.1 ? std::sqrt(2.0) * across : across;
}

void measure(const View& view, VentRun& run) {
    for (std::size_t i = 0; i < run.path.size(); ++i) {
        const auto& piece = view.piece(run.path[i].piece);
        run.elbows += piece.part == Part::vent_elbow || piece.part == Part::elbow;
        run.bends += piece.part == Part::elbow_45;
        if ((piece.part == Part::vent_tee || piece.part == Part::tee) && run.first_tee < 0)
            run.first_tee = static_cast<int>(i);
        if (piece.part == Part::vent_pipe || piece.part == Part::pipe) {
            run.greatest = std::max(run.greatest, piece.size);
            run.least = run.least.eighths == 0 ? piece.size : std::min(run.least, piece.size);
        }
        if (i + 1 == run.path.size()) break;
        const auto left_by = view.plant.mate({run.path[i + 1].piece, run.path[i + 1].in});
        const auto length = through(piece, run.path[i].in, left_by.port) * units::metre;
        run.centre_line += length;
        if (run.first_tee >= 0) run.beyond_tee += length;
    }
}

}  // namespace

std::vector<VentRun> vent_runs(const View& view, std::string_view port) {
    std::vector<VentRun> runs;
    for (int n = 1; n <= view.heaters(); ++n) {
        VentRun run;
        run.heater = n;
        const auto from = view.heater_port(n, port);
        const auto walk = view.outward(from, [&](int piece, int in) {
            const auto service = view.piece(piece).ports[static_cast<std::size_t>(in)].service;
            return view.piece(piece).part != Part::heater &&
                   (service == Service::exhaust || service == Service::intake);
        });
        for (std::size_t i = 0; i < walk.size(); ++i) {
            if (!is_terminal(view.piece(walk[i].piece).part)) continue;
            run.terminal = walk[i].piece;
            run.path = PlantIndex::back(walk, static_cast<int>(i));
            break;
        }
        measure(view, run);
        runs.push_back(std::move(run));
    }
    return runs;
}

bool outdoors(const View& view, int terminal) {
    const auto& ports = view.piece(terminal).ports;
    if (ports.empty()) return false;
    const auto at = ports.front().at;
    return at.z >= view.survey.room.overhead().at(at) || !shape::inside(view.survey.room.plan, {at.x, at.y}, 1e-6);
}

}  // namespace bw::proof
