// SPDX-License-Identifier: MIT
#include "network/run/level_runs.h"

#include <algorithm>
#include <cmath>

namespace bw::network {
namespace {

using plant::Piece;
using text::Part;

std::size_t at(int index) { return static_cast<std::size_t>(index); }

bool ends_a_run(Part part) {
    return part == Part::heater || part == Part::connection || part == Part::flexible_gas ||
           part == Part::flexible_water;
}

class Reader {
public:
    explicit Reader(const plant::Plant& plant) : plant_(plant), seen_(plant.pieces.size(), 0) {}

    std::vector<LevelRun> all(const std::function<bool(int)>& starts) {
        std::vector<LevelRun> runs;
        for (int i = 0; i < static_cast<int>(seen_.size()); ++i)
            if (!seen_[at(i)] && is_level(piece(i)) && starts(i)) runs.push_back(run_from(i));
        return runs;
    }

private:
    [[nodiscard]] const Piece& piece(int index) const { return plant_.pieces[at(index)]; }

    LevelRun run_from(int start) {
        LevelRun run;
        run.service = piece(start).service;
        run.way = piece(start).ports[1].facing;
        seen_[at(start)] = 1;
        std::vector<int> behind;
        extend(start, -run.way, behind);
        run.pieces.assign(behind.rbegin(), behind.rend());
        run.pieces.push_back(start);
        extend(start, run.way, run.pieces);
        measure(run);
        hold(run);
        return run;
    }

    /// Walks on in a straight line through whatever goes straight on.
    void extend(int from, shape::Vec way, std::vector<int>& found) {
        for (;;) {
            const int out = port_along(piece(from), way);
            if (out < 0) return;
            const int next = plant_.mate({from, out}).piece;
            if (next < 0 || seen_[at(next)] || ends_a_run(piece(next).part) || port_along(piece(next), way) < 0) return;
            seen_[at(next)] = 1;
            found.push_back(next);
            from = next;
        }
    }

    void measure(LevelRun& run) const {
        double low = 1e300, high = -1e300;
        for (const int i : run.pieces)
            for (const auto& port : piece(i).ports) {
                if (!carries_flow(port.service) || std::abs(shape::dot(port.facing, run.way)) < 0.99) continue;
                const double s = shape::dot(port.at, run.way);
                if (s < low) low = s, run.from = port.at;
                high = std::max(high, s);
            }
        run.length = high - low;
    }

    void hold(LevelRun& run) const {
        for (const int i : run.pieces)
            for (int p = 0; p < static_cast<int>(piece(i).ports.size()); ++p) {
                const auto& port = piece(i).ports[at(p)];
                const int holder = port.service == text::Service::structure ? plant_.mate({i, p}).piece : -1;
                if (holder < 0) continue;
                run.held.push_back({std::clamp(shape::dot(port.at - run.from, run.way), 0.0, run.length), holder});
            }
        std::ranges::sort(run.held,
                          [](const Hold& a, const Hold& b) { return a.at != b.at ? a.at < b.at : a.piece < b.piece; });
    }

    const plant::Plant& plant_;
    std::vector<char> seen_;
};

}  // namespace

std::vector<LevelRun> level_runs(const plant::Plant& plant, const std::function<bool(int)>& starts) {
    return Reader(plant).all(starts);
}

bool is_level(const Piece& piece) {
    return piece.ports.size() >= 2 && std::abs(piece.ports[0].at.z - piece.ports[1].at.z) < 1e-3 &&
           shape::distance(piece.ports[0].at, piece.ports[1].at) > 1e-6;
}

int port_along(const Piece& piece, shape::Vec way) {
    for (int p = 0; p < static_cast<int>(piece.ports.size()); ++p)
        if (carries_flow(piece.ports[at(p)].service) && shape::dot(piece.ports[at(p)].facing, way) > 0.99) return p;
    return -1;
}

}  // namespace bw::network
