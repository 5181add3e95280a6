// SPDX-License-Identifier: MIT
#include "proof/fall.h"

#include <algorithm>
#include <cmath>

namespace bw::proof {
namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }

double level_way(const plant::Port& a, const plant::Port& b) { return std::hypot(a.at.x - b.at.x, a.at.y - b.at.y); }

bool vertical(const Piece& piece) {
    if (piece.part != Part::pipe && piece.part != Part::vent_pipe) return false;
    const auto way = piece.ports[1].at - piece.ports[0].at;
    return std::hypot(way.x, way.y) < 1e-6 && std::fabs(way.z) > 1e-6;
}

double height(const Piece& piece) { return std::fabs(piece.ports[1].at.z - piece.ports[0].at.z); }

/// Whether a vertical pipe stands on the port it is entered by, rather than hangs from it.
bool stands(const Piece& pipe, int in) {
    double top = pipe.ports[at(in)].at.z;
    for (const auto& port : pipe.ports) top = std::max(top, port.at.z);
    return top > pipe.ports[at(in)].at.z + 1e-9;
}

/// How many links each link is fed by.
std::vector<int> fed(const Falling& line) {
    std::vector<int> by(line.links.size(), 0);
    for (const auto& link : line.links)
        if (link.before >= 0) ++by[at(link.before)];
    return by;
}

/// The longest vertical pipe between the low point and the first fork, or -1.
int trunk_pipe(const View& view, const Falling& line, const std::vector<int>& fed_by) {
    int best = -1;
    for (std::size_t i = 1; i < line.links.size() && fed_by[at(line.links[i].before)] == 1; ++i) {
        const auto& piece = view.piece(line.links[i].piece);
        if (vertical(piece) && (best < 0 || height(piece) > height(view.piece(line.links[at(best)].piece))))
            best = static_cast<int>(i);
    }
    return best;
}

/// Links from a fixed end back to the low point, as long as nothing else flows into them.
std::vector<int> own_way(const Falling& line, const std::vector<int>& fed_by, int end) {
    std::vector<int> way;
    for (int k = line.links[at(end)].before; k >= 0 && fed_by[at(k)] == 1; k = line.links[at(k)].before)
        way.push_back(k);
    return way;
}

}  // namespace

Falling falling(const View& view, Service service, int low_point) {
    Falling line;
    line.service = service;
    std::vector<char> seen(view.plant.pieces.size(), 0);
    seen[at(low_point)] = 1;
    line.links.push_back({low_point, -1, -1, 0, false});
    for (std::size_t i = 0; i < line.links.size(); ++i) {
        const auto link = line.links[i];
        if (link.fixed) continue;
        const auto& piece = view.piece(link.piece);
        for (int p = 0; p < static_cast<int>(piece.ports.size()); ++p) {
            const auto& port = piece.ports[at(p)];
            if (p == link.in || port.service != service) continue;
            const auto mate = view.plant.mate({link.piece, p});
            if (mate.piece < 0 || seen[at(mate.piece)]) continue;
            seen[at(mate.piece)] = 1;
            const auto& next = view.piece(mate.piece);
            const double passed = link.in < 0 ? 0 : level_way(piece.ports[at(link.in)], port);
            const bool fixed = next.part == Part::heater || next.service != service;
            line.links.push_back({mate.piece, mate.port, static_cast<int>(i), link.along + passed, fixed});
        }
    }
    return line;
}

Hung hung(const View& view, const Falling& line, double slope, double drop, const std::vector<double>& held_at) {
    Hung out;
    const auto fed_by = fed(line);
    const auto root = view.piece(line.links.front().piece).part;
    const bool root_stays = root == Part::connection || root == Part::heater;
    const int bend = root_stays && drop > 0 ? trunk_pipe(view, line, fed_by) : -1;
    if (root_stays && drop > 0 && bend < 0) out.stuck.push_back(line.links.front().piece);
    for (std::size_t i = 0; i < line.links.size(); ++i) {
        const auto& link = line.links[i];
        const auto& piece = view.piece(link.piece);
        std::vector<double> shift;
        for (std::size_t p = 0; p < piece.ports.size(); ++p) {
            const double passed = link.in < 0 ? 0 : level_way(piece.ports[at(link.in)], piece.ports[p]);
            // links stand nearest first, so those up to the pipe that bends are before it
            const bool below =
                static_cast<int>(i) < bend || (static_cast<int>(i) == bend && static_cast<int>(p) == link.in);
            shift.push_back(slope * (link.along + passed) - (below ? 0 : drop));
        }
        out.level = std::max(out.level, link.along);
        out.shift.push_back(std::move(shift));
    }
    if (bend >= 0) {
        const auto& link = line.links[at(bend)];
        out.take_ups.push_back({link.piece, stands(view.piece(link.piece), link.in) ? -drop : drop});
    }
    for (std::size_t i = 0; i < line.links.size(); ++i) {
        const auto& end = line.links[i];
        if (!end.fixed) continue;
        const auto way = own_way(line, fed_by, static_cast<int>(i));
        int bends = -1;
        for (const int k : way)
            if (vertical(view.piece(line.links[at(k)].piece)) &&
                (bends < 0 ||
                 height(view.piece(line.links[at(k)].piece)) > height(view.piece(line.links[at(bends)].piece))))
                bends = k;
        if (bends < 0) {
            if (std::fabs(out.shift[i][at(end.in)]) > 1e-6) out.stuck.push_back(end.piece);
            continue;
        }
        const double below = out.shift[at(bends)][at(line.links[at(bends)].in)];
        // beyond the pipe that takes it up the line falls away from the fixed end
        const double fixed_at = held_at.empty() ? 0 : held_at[at(end.piece)];
        std::fill(out.shift[i].begin(), out.shift[i].end(), fixed_at);
        double above = 0;
        for (const int k : way) {
            const auto& link = line.links[at(k)];
            const auto& piece = view.piece(link.piece);
            for (std::size_t p = 0; p < piece.ports.size(); ++p) {
                if (k == bends && static_cast<int>(p) == link.in) continue;
                const double passed = level_way(piece.ports[at(link.in)], piece.ports[p]);
                out.shift[at(k)][p] = fixed_at + slope * (link.along + passed - end.along);
            }
            if (k == bends) {
                for (std::size_t p = 0; p < piece.ports.size(); ++p)
                    if (static_cast<int>(p) != link.in) above = out.shift[at(k)][p];
                break;
            }
        }
        const auto& taking = line.links[at(bends)];
        const double longer = above - below;
        out.take_ups.push_back({taking.piece, stands(view.piece(taking.piece), taking.in) ? longer : -longer});
    }
    for (const auto& shift : out.shift)
        for (const double s : shift) out.most = std::max(out.most, s);
    return out;
}

}  // namespace bw::proof
