// SPDX-License-Identifier: MIT
#include "piping/support/level_runs.h"

#include <algorithm>
#include <cmath>

#include "code/gas_rules.h"
#include "code/hangers.h"

namespace bw::piping {
namespace {

constexpr double vent_spacing = 4 * 12 * inch_m;  ///< plastic vent: common practice, no source

bool flows(const Port& port) {
    return port.service != Service::structure && port.service != Service::power && port.service != Service::link;
}

class Runs {
public:
    explicit Runs(const Builder& b) : b_(b), seen_(b.built.plant.pieces.size(), 0) {}

    std::vector<LevelRun> all() {
        std::vector<LevelRun> runs;
        for (int i = 0; i < static_cast<int>(seen_.size()); ++i) {
            const Piece& piece = b_.built.plant.pieces[i];
            if (seen_[i] || !is_level(piece)) continue;
            if (auto run = run_from(i); run.limit > 0) runs.push_back(std::move(run));
        }
        return runs;
    }

private:
    LevelRun run_from(int start) {
        LevelRun run;
        const Piece& first = b_.built.plant.pieces[start];
        run.service = first.service;
        run.way = first.ports[1].facing;
        seen_[start] = 1;
        std::vector<int> back;
        extend(start, -run.way, back);
        run.pieces.assign(back.rbegin(), back.rend());
        run.pieces.push_back(start);
        extend(start, run.way, run.pieces);
        double low = 1e300, high = -1e300;
        for (int i : run.pieces) {
            for (const Port& port : b_.built.plant.pieces[i].ports) {
                if (!flows(port) || std::abs(shape::dot(port.facing, run.way)) < 0.99) continue;
                const double s = shape::dot(port.at, run.way);
                if (s < low) low = s, run.from = port.at;
                high = std::max(high, s);
            }
            tighten(run, i);
        }
        run.length = high - low;
        held(run);
        return run;
    }

    void extend(int piece, Vec way, std::vector<int>& found) {
        for (;;) {
            const auto& plant = b_.built.plant;
            const int out = port_towards(plant.pieces[piece], way);
            if (out < 0) return;
            const int next = plant.mate({piece, out}).piece;
            if (next < 0 || seen_[next] || port_towards(plant.pieces[next], way) < 0) return;
            const Part part = plant.pieces[next].part;
            if (part == Part::heater || part == Part::connection || part == Part::flexible_gas ||
                part == Part::flexible_water)
                return;
            seen_[next] = 1;
            found.push_back(next);
            piece = next;
        }
    }

    void tighten(LevelRun& run, int i) const {
        const auto* row = b_.catalogue.pipe(b_.built.plant.pieces[i].item);
        if (!row) return;
        double limit = 0;
        if (run.service == Service::gas) {
            const bool tube = row->material == Material::copper_k || row->material == Material::copper_l;
            limit = (tube ? code::gas_tubing_support_spacing(row->size) : code::gas_support_spacing(row->size))
                        .value.value();
        } else if (run.service == Service::exhaust || run.service == Service::intake) {
            limit = vent_spacing;
        } else if (const auto rule = code::hanger_spacing(row->material, row->size)) {
            limit = rule->value.value();
        }
        if (limit > 0 && (run.limit == 0 || limit < run.limit)) run.limit = limit;
    }

    void held(LevelRun& run) const {
        for (int i : run.pieces) {
            const Piece& piece = b_.built.plant.pieces[i];
            for (int p = 0; p < static_cast<int>(piece.ports.size()); ++p)
                if (piece.ports[p].service == Service::structure && b_.built.plant.mate({i, p}) != nowhere)
                    run.held.push_back(std::clamp(shape::dot(piece.ports[p].at - run.from, run.way), 0.0, run.length));
        }
        std::sort(run.held.begin(), run.held.end());
    }

    const Builder& b_;
    std::vector<char> seen_;
};

}  // namespace

bool is_level(const Piece& piece) {
    if (piece.part != Part::pipe && piece.part != Part::vent_pipe) return false;
    return piece.ports.size() >= 2 && std::abs(piece.ports[0].at.z - piece.ports[1].at.z) < 1e-3 &&
           shape::distance(piece.ports[0].at, piece.ports[1].at) > 1e-6;
}

int port_towards(const Piece& piece, Vec way) {
    for (int p = 0; p < static_cast<int>(piece.ports.size()); ++p)
        if (flows(piece.ports[p]) && shape::dot(piece.ports[p].facing, way) > 0.99) return p;
    return -1;
}

std::vector<LevelRun> level_runs(const Builder& b) { return Runs(b).all(); }

}  // namespace bw::piping
