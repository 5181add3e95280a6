// SPDX-License-Identifier: MIT
#include "draw/single_line.h"

#include <algorithm>

#include "network/service_tree.h"

namespace bw::draw {
namespace {

using plant::Part;

std::size_t at(int index) { return static_cast<std::size_t>(index); }

class Reader {
public:
    Reader(const plant::Plant& plant, text::Service service, network::Tree tree)
        : plant_(plant), service_(service), tree_(std::move(tree)), next_(tree_.traversals.size()) {
        for (std::size_t i = 1; i < tree_.traversals.size(); ++i)
            if (tree_.traversals[i].before >= 0) next_[at(tree_.traversals[i].before)].push_back(static_cast<int>(i));
    }

    void read(int root, std::vector<Line>& lines) {
        lines_ = &lines;
        lines.push_back({service_, root, root, {}});
        lines.back().nodes.push_back({.kind = Node::Kind::start, .piece = root});
        follow(0, lines.size() - 1);
    }

private:
    const network::Traversal& passage(int i) const { return tree_.traversals[at(i)]; }
    const plant::Piece& piece(int passage_index) const { return plant_.pieces[at(passage(passage_index).piece)]; }

    /// A port of another service that something flows through.
    bool joins_another(const plant::Piece& p) const {
        using text::Service;
        return (p.part == Part::tee || p.part == Part::vent_tee) && std::ranges::any_of(p.ports, [&](const auto& port) {
                   return port.service != service_ && port.service != Service::structure &&
                          port.service != Service::power;
               });
    }

    bool widens(int i) const {
        const auto& p = passage(i);
        if (p.in < 0 || p.out < 0) return false;
        const auto& ports = piece(i).ports;
        return ports[at(p.in)].size < ports[at(p.out)].size;
    }

    void take(Run& run, int i) const {
        const auto& p = piece(i);
        if (p.part != Part::pipe && p.part != Part::vent_pipe) return;
        if (run.sizes.empty() || run.sizes.back() != p.size) run.sizes.push_back(p.size);
        run.piece = passage(i).piece;
    }

    /// Length and load are known where the run ends.
    Run closed(Run run, int from, int to) const {
        run.length = passage(to).along - passage(from).along;
        run.heaters = passage(to).heaters;
        return run;
    }

    /// From a passage that has been told, on to the end of its line.
    void follow(int i, std::size_t line) {
        Run run;
        int from = i;
        for (;;) {
            const auto& on = next_[at(i)];
            if (on.empty())
                return add(line, {.kind = Node::Kind::end, .piece = passage(i).piece, .run = closed(run, from, i)});
            if (on.size() == 1) {
                i = on.front();
                if (piece(i).heater > 0 && passage(i).heaters == 1) {
                    auto column = column_from(i);
                    column.run = closed(run, from, i);
                    return add(line, std::move(column));
                }
                take(run, i);
                if (joins_another(piece(i)))
                    add(line, {.kind = Node::Kind::joined, .piece = passage(i).piece});
                else if (has_sign(piece(i).part) && !next_[at(i)].empty())
                    add(line, {.kind = Node::Kind::device, .piece = passage(i).piece, .widens = widens(i)});
                continue;
            }
            const int main = main_of(on);
            for (const int side : on) {
                if (side == main) continue;
                if (passage(side).heaters == 0) {
                    add(line, {.kind = Node::Kind::stub, .piece = passage(side).piece, .devices = devices_from(side)});
                } else if (single(side)) {
                    auto column = column_from(side);
                    column.run = closed(run, from, side);
                    column.run.heaters = passage(i).heaters;
                    add(line, std::move(column));
                    run = {}, from = side;
                } else {
                    Node split{.kind = Node::Kind::split, .piece = passage(side).piece};
                    split.run = closed(run, from, side);
                    split.run.heaters = passage(i).heaters;
                    run = {}, from = side;
                    split.line = static_cast<int>(lines_->size());
                    lines_->push_back({service_, -1, passage(side).piece, {}});
                    lines_->back().nodes.push_back({.kind = Node::Kind::start, .piece = passage(side).piece});
                    add(line, split);
                    follow(side, at(split.line));
                }
            }
            i = main;
        }
    }

    void add(std::size_t line, Node node) { (*lines_)[line].nodes.push_back(std::move(node)); }

    /// Straight on, unless that feeds nobody while more than one heater's own branch goes aside.
    int main_of(const std::vector<int>& ways) const {
        const auto straight =
            std::ranges::find_if(ways, [&](int w) { return network::straight_on(piece(w), passage(w)); });
        const auto most =
            std::ranges::max_element(ways, [&](int a, int b) { return passage(a).heaters < passage(b).heaters; });
        if (straight == ways.end()) return *most;
        const bool own = std::ranges::all_of(ways, [&](int w) { return w == *straight || single(w); });
        return passage(*straight).heaters > 0 || own ? *straight : *most;
    }

    /// One heater's own branch, from a tee that is nobody's own.
    bool single(int i) const {
        if (passage(i).heaters != 1) return false;
        for (int k = i; !next_[at(k)].empty(); k = feeding(k))
            if (piece(k).heater == 0 && k != i && piece(k).part != Part::adapter && piece(k).part != Part::reducer &&
                piece(k).ports.size() > 2)
                return false;
        return true;
    }

    int feeding(int i) const {
        return *std::ranges::max_element(next_[at(i)],
                                         [&](int a, int b) { return passage(a).heaters < passage(b).heaters; });
    }

    std::vector<int> devices_from(int i) const {
        std::vector<int> found;
        for (; !next_[at(i)].empty();) {
            i = next_[at(i)].front();
            if (has_sign(piece(i).part)) found.push_back(passage(i).piece);
        }
        return found;
    }

    Node column_from(int i) const {
        Node column{.kind = Node::Kind::column, .piece = passage(i).piece};
        const int from = i;
        const auto tell = [&](int k) {
            take(column.branch, k);
            if (has_sign(piece(k).part)) column.devices.push_back(passage(k).piece);
        };
        if (piece(i).ports.size() == 2) tell(i);
        while (!next_[at(i)].empty()) {
            const auto& on = next_[at(i)];
            i = feeding(i);
            if (piece(i).part == Part::heater) break;
            tell(i);
            for (const int side : on)  // a pocket's cap, a relief valve: told after the tee it hangs on
                if (side != i)
                    for (const int d : devices_from(side)) column.devices.push_back(d);
        }
        column.heater = piece(i).heater;
        column.branch = closed(column.branch, from, i);
        return column;
    }

    const plant::Plant& plant_;
    text::Service service_;
    network::Tree tree_;
    std::vector<std::vector<int>> next_;
    std::vector<Line>* lines_ = nullptr;
};

}  // namespace

int Line::columns() const {
    return static_cast<int>(std::ranges::count_if(nodes, [](const Node& n) { return n.kind == Node::Kind::column; }));
}

bool has_sign(Part part) {
    switch (part) {
        case Part::pipe:
        case Part::elbow:
        case Part::elbow_45:
        case Part::tee:
        case Part::coupling:
        case Part::adapter:
        case Part::nipple:
        case Part::dielectric:
        case Part::vent_pipe:
        case Part::vent_elbow:
        case Part::vent_tee:
        case Part::vent_adapter:
        case Part::connection: return false;
        default: return true;
    }
}

std::vector<Line> lines_of(const plant::Plant& plant, text::Service service) {
    std::vector<Line> lines;
    for (std::size_t i = 0; i < plant.pieces.size(); ++i) {
        const auto& piece = plant.pieces[i];
        if (piece.part != Part::connection || piece.ports.empty() || piece.ports.front().service != service) continue;
        if (auto tree = network::trace_service(plant, service, static_cast<int>(i)))
            Reader(plant, service, std::move(*tree)).read(static_cast<int>(i), lines);
    }
    return lines;
}

}  // namespace bw::draw
