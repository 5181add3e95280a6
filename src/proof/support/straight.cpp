// SPDX-License-Identifier: MIT
#include "proof/support/straight.h"

#include <algorithm>
#include <cmath>

namespace bw::proof {
namespace {

bool level(const Piece& piece) {
    return piece.ports.size() >= 2 && std::fabs(piece.ports[0].at.z - piece.ports[1].at.z) < 1e-3 &&
           shape::distance(piece.ports[0].at, piece.ports[1].at) > 1e-6;
}

/// Walks on in a straight line through whatever goes straight on.
void extend(const View& view, int piece, shape::Vec way, std::vector<char>& seen, std::vector<int>& found) {
    for (int guard = 0; guard < 10000; ++guard) {
        const int out = port_along(view.piece(piece), way);
        if (out < 0) return;
        const auto mate = view.plant.mate({piece, out});
        if (mate.piece < 0 || seen[static_cast<std::size_t>(mate.piece)]) return;
        const auto& next = view.piece(mate.piece);
        if (next.part == Part::heater || next.part == Part::connection || next.part == Part::flexible_water ||
            next.part == Part::flexible_gas)
            return;
        if (port_along(next, way) < 0) return;
        seen[static_cast<std::size_t>(mate.piece)] = 1;
        found.push_back(mate.piece);
        piece = mate.piece;
    }
}

/// Where supports joined to a piece hold it, along the run.
void supports(const View& view, int piece, Straight& run) {
    for (int p = 0; p < static_cast<int>(view.piece(piece).ports.size()); ++p) {
        const auto& port = view.piece(piece).ports[static_cast<std::size_t>(p)];
        if (port.service != Service::structure) continue;
        const int holder = view.plant.mate({piece, p}).piece;
        if (holder < 0) continue;
        run.held.push_back({std::clamp(shape::dot(port.at - run.from, run.way), 0.0, run.length), holder});
    }
}

}  // namespace

int port_along(const Piece& piece, shape::Vec way) {
    for (int p = 0; p < static_cast<int>(piece.ports.size()); ++p)
        if (carries_flow(piece.ports[static_cast<std::size_t>(p)].service) &&
            shape::dot(piece.ports[static_cast<std::size_t>(p)].facing, way) > 0.99)
            return p;
    return -1;
}

std::vector<Straight> straights_of(const View& view, Service service) {
    std::vector<Straight> runs;
    std::vector<char> seen(view.plant.pieces.size(), 0);
    for (int i = 0; i < static_cast<int>(view.plant.pieces.size()); ++i) {
        const auto& piece = view.piece(i);
        if (seen[static_cast<std::size_t>(i)] || !view.pipe(i) || piece.service != service || !level(piece) ||
            piece.part == Part::cable)
            continue;
        seen[static_cast<std::size_t>(i)] = 1;
        Straight run;
        run.way = piece.ports[1].facing;
        std::vector<int> ahead, behind;
        extend(view, i, run.way, seen, ahead);
        extend(view, i, -run.way, seen, behind);
        run.pieces.assign(behind.rbegin(), behind.rend());
        run.pieces.push_back(i);
        run.pieces.insert(run.pieces.end(), ahead.begin(), ahead.end());
        double low = 1e300, high = -1e300;
        for (const int p : run.pieces)
            for (const auto& port : view.piece(p).ports) {
                if (!carries_flow(port.service) || std::fabs(shape::dot(port.facing, run.way)) < 0.99) continue;
                const double s = shape::dot(port.at, run.way);
                if (s < low) low = s, run.from = port.at;
                high = std::max(high, s);
            }
        run.length = high - low;
        for (const int p : run.pieces) supports(view, p, run);
        std::sort(run.held.begin(), run.held.end(),
                  [](const Hold& a, const Hold& b) { return a.at != b.at ? a.at < b.at : a.piece < b.piece; });
        runs.push_back(std::move(run));
    }
    return runs;
}

double longest_gap(const Straight& run) {
    double at = 0, gap = 0;
    for (const auto& hold : run.held) {
        gap = std::max(gap, hold.at - at);
        at = hold.at;
    }
    return std::max(gap, run.length - at);
}

}  // namespace bw::proof
