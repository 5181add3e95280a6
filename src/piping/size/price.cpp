// SPDX-License-Identifier: MIT
#include "piping/size/price.h"

namespace bw::piping {

double Prices::bought(const std::string& key, double price, units::Time labour) const {
    const auto own = preferences_.prices.find(key);
    return (own == preferences_.prices.end() ? price : own->second) * (1 + *preferences_.markup) +
           labour.value() / 3600 * *preferences_.labour_rate;
}

double Prices::change(Line line, Nominal to) const {
    double cost = 0;
    while (line.size != to) {
        const Item* reducer = b_.reducer_towards(line, to);
        if (!reducer) return cost;
        cost += bought(*reducer);
        line.size = line.size > to ? reducer->branch.value_or(to) : reducer->size.value_or(to);
    }
    return cost;
}

std::optional<double> Prices::tee(const Piece& piece, const Line& line, std::optional<Nominal> branch) const {
    Nominal wanted = branch.value_or(line.size);
    if (!branch)
        for (const auto& port : piece.ports)
            if (port.name == "branch") wanted = std::min(port.size, line.size);
    for (Nominal outlet = wanted; outlet <= line.size; ++outlet.eighths) {
        const Item* row = b_.seek(piece.part, line, outlet);
        if (!row) continue;
        Line smaller = line;
        smaller.size = outlet;
        return bought(*row) + change(smaller, wanted);
    }
    return std::nullopt;
}

double Prices::as_it_is(const Piece& piece) const {
    if (const auto* pipe = b_.catalogue.pipe(piece.item))
        return piece.cut * bought(pipe->key, pipe->price_per_metre, pipe->labour_per_metre);
    const auto* row = b_.catalogue.item(piece.item);
    return row ? bought(*row) : 0;
}

std::optional<double> Prices::reducer(const Piece& piece, Nominal laid, const Line& line) const {
    for (std::size_t i = 0; i < 2 && piece.ports.size() == 2; ++i)
        if (piece.ports[i].size == laid) return change(line, piece.ports[1 - i].size);
    return as_it_is(piece);
}

std::optional<double> Prices::counterpart(const Piece& piece, const Line& line, std::optional<Nominal> branch) const {
    if (piece.part == Part::tee) return tee(piece, line, branch);
    if (piece.cut > 0) {
        const auto* row = b_.catalogue.pipe(line.material, line.size);
        if (!row) return std::nullopt;
        return piece.cut * bought(row->key, row->price_per_metre, row->labour_per_metre);
    }
    const Item* row = b_.seek(piece.part, line);
    if (!row) return std::nullopt;
    return bought(*row);
}

std::optional<double> Prices::of(const std::vector<int>& pieces, Nominal laid, const Line& line,
                                 std::optional<Nominal> branch) const {
    double cost = 0;
    for (const int i : pieces) {
        const auto& piece = b_.built.plant.pieces[static_cast<std::size_t>(i)];
        if (piece.part == Part::connection || piece.part == Part::heater || piece.part == Part::regulator) continue;
        const bool reduces = piece.part == Part::reducer;
        if (reduces && branch) continue;
        // connectors have the size of what they lead to
        const bool stays = piece.size != laid || piece.part == Part::flexible_gas || piece.part == Part::flexible_water;
        const auto one = reduces ? reducer(piece, laid, line)
                         : stays ? std::optional(as_it_is(piece))
                                 : counterpart(piece, line, branch);
        if (!one) return std::nullopt;
        cost += *one;
    }
    return cost;
}

}  // namespace bw::piping
