// SPDX-License-Identifier: MIT
#include "network/runs.h"

#include <fmt/format.h>

#include <algorithm>

#include "network/service_tree.h"

namespace bw::network {
namespace {

using plant::Piece;
using text::Part;

bool holds_pressure(const Piece& piece) {
    return piece.part == Part::pressure_reducer || piece.part == Part::regulator;
}

bool is_tee(const Piece& piece) { return piece.part == Part::tee || piece.part == Part::vent_tee; }

class Reader {
public:
    Reader(const plant::Plant& plant, const catalogue::Catalogue& catalogue, const Tree& tree)
        : plant_(plant), catalogue_(catalogue), tree_(tree) {}

    /// Runs in the tree's order, each after the one before it. Fails on a piece without a bore.
    Result<std::vector<Run>> runs() {
        std::vector<int> branches(tree_.traversals.size(), 0);
        for (const auto& passage : tree_.traversals)
            if (passage.heaters > 0 && passage.before >= 0) ++branches[static_cast<std::size_t>(passage.before)];
        run_of_.assign(tree_.traversals.size(), -1);
        for (std::size_t i = 0; i < tree_.traversals.size(); ++i) {
            const auto& passage = tree_.traversals[i];
            if (passage.heaters < 1) continue;
            const auto before = static_cast<std::size_t>(std::max(passage.before, 0));
            const auto& piece = plant_.pieces[static_cast<std::size_t>(passage.piece)];
            if (passage.before < 0 || piece.part == Part::heater) {
                end_of_tree(i, piece);
                continue;
            }
            auto here = one(passage, piece, runs_[static_cast<std::size_t>(run_of_[before])].bore);
            if (!(here.bore > 0))
                return fail(fmt::format("{}: no bore is known for it", piece.id), "an inside diameter");
            if (holds_pressure(piece) && !here.holds)
                return fail(fmt::format("{} names no outlet pressure", piece.id), "`outlet` in its catalogue row");
            here.before = run_of_[before];
            auto& upstream = runs_[static_cast<std::size_t>(run_of_[before])];
            if (branches[before] == 1 && joins(upstream, here)) {
                join(upstream, here);
                run_of_[i] = run_of_[before];
            } else {
                run_of_[i] = static_cast<int>(runs_.size());
                runs_.push_back(std::move(here));
            }
        }
        return std::move(runs_);
    }

private:
    /// The connection begins the first run; a heater ends its run where it stands.
    void end_of_tree(std::size_t i, const Piece& piece) {
        const auto& passage = tree_.traversals[i];
        if (passage.before < 0) {
            Run root;
            root.pieces = {passage.piece};
            root.bore = piece.bore;
            root.end = {passage.piece, passage.out};
            run_of_[i] = static_cast<int>(runs_.size());
            runs_.push_back(std::move(root));
            return;
        }
        Run end;
        end.before = run_of_[static_cast<std::size_t>(passage.before)];
        end.heater = piece.heater;
        end.end = {passage.piece, passage.in};
        runs_.push_back(std::move(end));
    }

    Run one(const Traversal& passage, const Piece& piece, double upstream_bore) const {
        Run run;
        run.pieces = {passage.piece};
        run.end = {passage.piece, passage.out};
        run.bore = piece.bore > 0 ? piece.bore : upstream_bore;
        if (const auto* row = piece.item.empty() ? nullptr : catalogue_.pipe(piece.item))
            run.roughness = row->roughness.value();
        run.one_way = piece.part == Part::check_valve || piece.part == Part::backflow_preventer;
        if (holds_pressure(piece))
            if (const auto* item = catalogue_.item(piece.item)) run.holds = item->number("outlet");
        run.local = velocity_heads(piece, passage);
        if (is_tee(piece) && !straight_on(piece, passage)) {
            // a side outlet may be smaller than the run: its loss counts in the smaller bore
            const auto mate = plant_.mate(run.end);
            const double next = mate.piece < 0 ? 0 : plant_.pieces[static_cast<std::size_t>(mate.piece)].bore;
            if (next > 0) run.bore = std::min(run.bore, next);
        }
        if (!is_tee(piece))
            run.length = shape::distance(piece.ports[static_cast<std::size_t>(passage.in)].at,
                                         piece.ports[static_cast<std::size_t>(passage.out)].at);
        return run;
    }

    static bool joins(const Run& run, const Run& next) {
        if (run.before < 0 || run.whole() || next.whole()) return false;
        if (run.lossless() || next.lossless()) return true;
        return run.bore == next.bore && (run.roughness == 0 || next.roughness == 0 || run.roughness == next.roughness);
    }

    static void join(Run& run, const Run& next) {
        if (run.lossless()) run.bore = next.bore;
        run.length += next.length;
        run.local += next.local;
        run.roughness = std::max(run.roughness, next.roughness);
        run.end = next.end;
        run.pieces.insert(run.pieces.end(), next.pieces.begin(), next.pieces.end());
    }

    const plant::Plant& plant_;
    const catalogue::Catalogue& catalogue_;
    const Tree& tree_;
    std::vector<Run> runs_;
    std::vector<int> run_of_;  ///< by passage
};

}  // namespace

Result<std::vector<Run>> runs_of(const plant::Plant& plant, const catalogue::Catalogue& catalogue,
                                 text::Service service, std::string_view root) {
    const auto tree = trace_service(plant, service, plant.find(root));
    if (!tree) return tl::unexpected(tree.error());
    return Reader(plant, catalogue, *tree).runs();
}

std::string name_of(const plant::Plant& plant, const Run& run) {
    const auto& first = plant.pieces[static_cast<std::size_t>(run.pieces.front())].id;
    if (run.pieces.size() == 1) return first;
    return fmt::format("{} to {}", first, plant.pieces[static_cast<std::size_t>(run.pieces.back())].id);
}

std::string name_of(const plant::Plant& plant, plant::PortRef port) {
    const auto& piece = plant.pieces[static_cast<std::size_t>(port.piece)];
    return fmt::format("{}.{}", piece.id, piece.ports[static_cast<std::size_t>(port.port)].name);
}

}  // namespace bw::network
