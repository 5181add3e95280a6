// SPDX-License-Identifier: MIT
#include "network/run/fall.h"

#include <algorithm>
#include <cmath>

namespace bw::network {
namespace {

using plant::Part;
using plant::Piece;
using text::Service;

std::size_t at(int i) { return static_cast<std::size_t>(i); }

const Piece& piece_of(const plant::Plant& plant, int index) { return plant.pieces[at(index)]; }

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

/// The longest vertical pipe between the low point and the first fork, or -1.
int trunk_pipe(const plant::Plant& plant, const Falling& line) {
    int best = -1;
    for (std::size_t i = 1; i < line.links.size() && line.fed_by[at(line.links[i].before)] == 1; ++i) {
        const auto& piece = piece_of(plant, line.links[i].piece);
        if (vertical(piece) && (best < 0 || height(piece) > height(piece_of(plant, line.links[at(best)].piece))))
            best = static_cast<int>(i);
    }
    return best;
}

/// Links from a fixed end back to the low point, as long as nothing else flows into them.
std::vector<int> own_way(const Falling& line, int end) {
    std::vector<int> way;
    for (int k = line.links[at(end)].before; k >= 0 && line.fed_by[at(k)] == 1; k = line.links[at(k)].before)
        way.push_back(k);
    return way;
}

/// Lets the longest vertical pipe of a fixed end's own way take up what its line is shifted by, and everything beyond
/// that pipe fall away from the end.
void hold_end(const plant::Plant& plant, const Falling& line, double slope, std::size_t i,
              const std::vector<double>& held_at, Hung& out) {
    const auto& end = line.links[i];
    const auto way = own_way(line, static_cast<int>(i));
    int bends = -1;
    for (const int k : way)
        if (const auto& piece = piece_of(plant, line.links[at(k)].piece);
            vertical(piece) && (bends < 0 || height(piece) > height(piece_of(plant, line.links[at(bends)].piece))))
            bends = k;
    if (bends < 0) {
        if (std::fabs(out.shift[line.at(i, at(end.in))]) > 1e-6) out.stuck.push_back(end.piece);
        return;
    }
    const auto& taking = line.links[at(bends)];
    const double below = out.shift[line.at(at(bends), at(taking.in))];
    const double fixed_at = held_at.empty() ? 0 : held_at[at(end.piece)];
    for (std::size_t k = line.at(i, 0); k < at(line.first[i + 1]); ++k) out.shift[k] = fixed_at;
    for (const int k : way) {
        for (std::size_t p = line.at(at(k), 0); p < at(line.first[at(k) + 1]); ++p)
            if (k != bends || p != line.at(at(k), at(taking.in)))
                out.shift[p] = fixed_at + slope * (line.reach[p] - end.along);
        if (k == bends) break;
    }
    double above = fixed_at;
    for (std::size_t p = line.at(at(bends), 0); p < at(line.first[at(bends) + 1]); ++p)
        if (p != line.at(at(bends), at(taking.in))) above = out.shift[p];
    const double longer = above - below;
    out.take_ups.push_back({taking.piece, stands(piece_of(plant, taking.piece), taking.in) ? longer : -longer});
}

/// Fixed ends that flow through each link.
std::vector<int> ends_beyond(const Falling& line) {
    std::vector<int> ends(line.links.size(), 0);
    for (std::size_t i = line.links.size(); i-- > 1;) {
        ends[i] += line.links[i].fixed ? 1 : 0;
        ends[at(line.links[i].before)] += ends[i];
    }
    return ends;
}

/// Lowers shared lines towards where they are drawn by the vertical pipes they fall through, the nearest to the low
/// point first.
void settle(const plant::Plant& plant, const Falling& line, double share, Hung& out) {
    const auto ends = ends_beyond(line);
    std::vector<char> beyond(line.links.size());
    for (std::size_t i = 1; i < line.links.size(); ++i) {
        const auto& link = line.links[i];
        const auto& pipe = piece_of(plant, link.piece);
        if (ends[i] < 2 || !vertical(pipe) || !stands(pipe, link.in)) continue;
        std::ranges::fill(beyond, 0);
        beyond[i] = 1;
        double excess = 0;
        for (std::size_t k = i + 1; k < line.links.size(); ++k) {
            beyond[k] = beyond[at(line.links[k].before)];
            if (!beyond[k] || ends[k] < 2) continue;
            for (std::size_t p = line.at(k, 0); p < at(line.first[k + 1]); ++p) excess = std::max(excess, out.shift[p]);
        }
        const auto taken = std::ranges::find(out.take_ups, link.piece, &TakeUp::piece);
        const bool taken_before = taken != out.take_ups.end();
        const double spare = height(pipe) + (taken_before ? taken->change : 0) - shortest_take_up;
        const double lower = std::min(share * excess, spare);
        if (lower < 1e-6) continue;
        for (std::size_t k = i; k < line.links.size(); ++k)
            for (std::size_t p = line.at(k, 0); beyond[k] && p < at(line.first[k + 1]); ++p)
                if (k != i || p != line.at(i, at(link.in))) out.shift[p] -= lower;
        if (taken_before)
            taken->change -= lower;
        else
            out.take_ups.push_back({link.piece, -lower});
    }
}

}  // namespace

Falling falling(const plant::Plant& plant, text::Service service, int low_point) {
    Falling line;
    line.service = service;
    std::vector<char> seen(plant.pieces.size(), 0);
    seen[at(low_point)] = 1;
    line.links.push_back({low_point, -1, -1, 0, false});
    for (std::size_t i = 0; i < line.links.size(); ++i) {
        const auto link = line.links[i];
        if (link.fixed) continue;
        const auto& piece = piece_of(plant, link.piece);
        constexpr int inlet = 0;  // of a pump
        for (int p = 0; p < static_cast<int>(piece.ports.size()); ++p) {
            const auto& port = piece.ports[at(p)];
            if (p == link.in || port.service != service) continue;
            if (link.in < 0 && piece.part == Part::condensate_pump && p != inlet) continue;
            const auto mate = plant.mate({link.piece, p});
            if (mate.piece < 0 || seen[at(mate.piece)]) continue;
            seen[at(mate.piece)] = 1;
            const auto& next = piece_of(plant, mate.piece);
            const double passed = link.in < 0 ? 0 : level_way(piece.ports[at(link.in)], port);
            const bool fixed =
                next.part == Part::heater || next.part == Part::condensate_pump || next.service != service;
            line.links.push_back({mate.piece, mate.port, static_cast<int>(i), link.along + passed, fixed});
        }
    }
    line.fed_by.assign(line.links.size(), 0);
    for (const auto& link : line.links) {
        const auto& piece = piece_of(plant, link.piece);
        line.first.push_back(static_cast<int>(line.reach.size()));
        for (const auto& port : piece.ports)
            line.reach.push_back(link.along + (link.in < 0 ? 0 : level_way(piece.ports[at(link.in)], port)));
        if (link.before >= 0) ++line.fed_by[at(link.before)];
    }
    line.first.push_back(static_cast<int>(line.reach.size()));
    return line;
}

Hung hung(const plant::Plant& plant, const Falling& line, double slope, double drop, const std::vector<double>& held_at,
          double settled) {
    Hung out;
    const auto root = piece_of(plant, line.links.front().piece).part;
    const bool root_stays = root == Part::connection || root == Part::heater || root == Part::condensate_pump;
    const int bend = root_stays && drop > 0 ? trunk_pipe(plant, line) : -1;
    if (root_stays && drop > 0 && bend < 0) out.stuck.push_back(line.links.front().piece);
    out.shift.reserve(line.reach.size());
    for (const double reach : line.reach) out.shift.push_back(slope * reach - drop);
    if (bend >= 0) {
        // links stand nearest first: those up to the pipe that bends stay, and the end it is entered by
        const auto& link = line.links[at(bend)];
        for (std::size_t k = 0; k < line.at(at(bend), 0); ++k) out.shift[k] += drop;
        out.shift[line.at(at(bend), at(link.in))] += drop;
        out.take_ups.push_back({link.piece, stands(piece_of(plant, link.piece), link.in) ? -drop : drop});
    }
    if (settled > 0) settle(plant, line, settled, out);
    for (std::size_t i = 0; i < line.links.size(); ++i) {
        out.level = std::max(out.level, line.links[i].along);
        if (line.links[i].fixed) hold_end(plant, line, slope, i, held_at, out);
    }
    for (const double s : out.shift) out.most = std::max(out.most, s);
    return out;
}

double length_after(const plant::Plant& plant, const TakeUp& take) {
    return height(piece_of(plant, take.piece)) + take.change;
}

std::optional<TakeUp> too_short(const plant::Plant& plant, const Hung& hung) {
    for (const auto& take : hung.take_ups)
        if (length_after(plant, take) < shortest_take_up - 1e-9) return take;
    return std::nullopt;
}

std::optional<Hanging> hang(const plant::Plant& plant, const Falling& line, const std::vector<double>& slopes,
                            const std::vector<double>& held_at, const std::function<bool(const Hung&)>& may_be) {
    constexpr double drop_step = 0.5 * 0.0254;
    // a vent's far ends are its terminals' holes
    const std::vector<double> settlings =
        line.service == Service::condensate ? std::vector{0.0, 1.0, 0.5} : std::vector{0.0};
    for (const double slope : slopes)
        for (const double settled : settlings) {
            const auto drawn = hung(plant, line, slope, 0, held_at, settled);
            for (double drop = 0; drop <= slope * drawn.level + drop_step; drop += drop_step) {
                auto tried = drop > 0 ? hung(plant, line, slope, drop, held_at, settled) : drawn;
                if (may_be(tried)) return Hanging{std::move(tried), slope, drop};
            }
        }
    return std::nullopt;
}

}  // namespace bw::network
