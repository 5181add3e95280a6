// SPDX-License-Identifier: MIT
#include "piping/water_network.h"

#include <fmt/format.h>

#include <algorithm>

#include "flow/pipes.h"
#include "piping/readoff.h"

namespace bw::piping {
namespace {

using plant::Piece;
using plant::PortRef;
using text::Part;
using text::Service;

/// Roughness of a piece without a pipe row beside it: drawn tubing, 0.0015 mm (Moody 1944).
constexpr double drawn = 1.5e-6;
constexpr double gravity = 9.80665, atmosphere = 101325;

/// Passages in a row of one bore, away from the root of their tree.
struct Run {
    int before = -1;  ///< run upstream; -1 at the root
    std::vector<int> pieces;
    double bore = 0, length = 0, roughness = 0, local = 0;  ///< roughness 0: no pipe in it yet
    bool one_way = false;
    std::optional<double> holds;  ///< a regulator's outlet pressure
    PortRef end;
    int heater = 0;  ///< number of the heater it ends at

    [[nodiscard]] bool whole() const { return one_way || holds; }  ///< takes no other piece in
    [[nodiscard]] bool lossless() const { return length == 0 && local == 0; }
};

bool opposite(const Piece& piece, const Passage& way) {
    const auto& ports = piece.ports;
    return shape::dot(ports[static_cast<std::size_t>(way.in)].facing, ports[static_cast<std::size_t>(way.out)].facing) <
           -0.9;
}

class Reader {
public:
    Reader(const plant::Plant& plant, const catalogue::Catalogue& catalogue, const Tree& tree)
        : plant_(plant), catalogue_(catalogue), tree_(tree) {}

    /// Runs in the tree's order, each after the one before it. Fails on a piece without a bore.
    Result<std::vector<Run>> runs() {
        std::vector<int> branches(tree_.passages.size(), 0);
        for (const auto& passage : tree_.passages)
            if (passage.heaters > 0 && passage.before >= 0) ++branches[static_cast<std::size_t>(passage.before)];
        run_of_.assign(tree_.passages.size(), -1);
        for (std::size_t i = 0; i < tree_.passages.size(); ++i) {
            const auto& passage = tree_.passages[i];
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
        const auto& passage = tree_.passages[i];
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

    Run one(const Passage& passage, const Piece& piece, double upstream_bore) const {
        Run run;
        run.pieces = {passage.piece};
        run.end = {passage.piece, passage.out};
        run.bore = piece.bore > 0 ? piece.bore : upstream_bore;
        if (const auto* row = piece.item.empty() ? nullptr : catalogue_.pipe(piece.item))
            run.roughness = row->roughness.value();
        run.one_way = piece.part == Part::check_valve || piece.part == Part::backflow_preventer;
        if (piece.part == Part::pressure_reducer)
            if (const auto* item = catalogue_.item(piece.item)) run.holds = item->number("outlet");
        run.local = piece.loss_run;
        if (piece.part == Part::tee && !opposite(piece, passage)) {
            // a side outlet may be smaller than the run: its loss counts in the smaller bore
            run.local = piece.loss_stem;
            const auto mate = plant_.mate(run.end);
            const double next = mate.piece < 0 ? 0 : plant_.pieces[static_cast<std::size_t>(mate.piece)].bore;
            if (next > 0) run.bore = std::min(run.bore, next);
        }
        if (piece.part != Part::tee)
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

class Writer {
public:
    Writer(const plant::Plant& plant, const WaterFeed& feed, WaterNetwork& out)
        : plant_(plant), feed_(feed), out_(out) {
        out_.network.least_potential = -atmosphere;
    }

    /// Nodes and links of one service; by heater number - 1 the node at its port.
    std::vector<int> write(const std::vector<Run>& runs, Service service) {
        const bool cold = service == Service::cold;
        const auto& water = cold ? feed_.cold : feed_.hot;
        std::vector<int> end(runs.size(), -1), heater;
        for (std::size_t r = 0; r < runs.size(); ++r) {
            const auto& run = runs[r];
            if (run.before < 0) {
                end[r] = cold ? out_.network.add_fixed(name(run.end), feed_.supply.value())
                              : out_.network.add_node(name(run.end));
                out_.at.push_back(run.end);
                (cold ? out_.source : out_.delivery) = end[r];
                continue;
            }
            const int from = end[static_cast<std::size_t>(run.before)];
            end[r] = from;
            if (run.heater > 0) {
                if (static_cast<int>(heater.size()) < run.heater)
                    heater.resize(static_cast<std::size_t>(run.heater), -1);
                heater[static_cast<std::size_t>(run.heater) - 1] = from;
                continue;
            }
            if (run.lossless() && !run.whole()) continue;
            end[r] = out_.network.add_node(name(run.end));
            out_.at.push_back(run.end);
            add(run, from, end[r], water, cold);
        }
        return heater;
    }

    /// Height of a node above the floor.
    [[nodiscard]] double height(int node) const { return plant_.at(out_.at[static_cast<std::size_t>(node)]).at.z; }

private:
    [[nodiscard]] std::string name(PortRef port) const {
        const auto& piece = plant_.pieces[static_cast<std::size_t>(port.piece)];
        return fmt::format("{}.{}", piece.id, piece.ports[static_cast<std::size_t>(port.port)].name);
    }

    void add(const Run& run, int start, int end, const matter::Water& water, bool along) {
        const double density = water.density.value(), viscosity = water.viscosity.value();
        flow::Link link;
        const auto& first = plant_.pieces[static_cast<std::size_t>(run.pieces.front())].id;
        const auto& last = plant_.pieces[static_cast<std::size_t>(run.pieces.back())].id;
        link.name = run.pieces.size() == 1 ? first : fmt::format("{} to {}", first, last);
        link.from = along ? start : end;
        link.to = along ? end : start;
        link.one_way = run.one_way;
        link.gain = density * gravity * (height(link.from) - height(link.to));
        const flow::Stretch stretch{run.length, run.bore, run.roughness > 0 ? run.roughness : drawn, run.local};
        const auto local = flow::local_by_mass(run.bore, std::max(run.local, 1.0), density, viscosity);
        if (run.holds)
            link.law = flow::Regulator{*run.holds, local.resistance, local.linear_below};
        else if (run.length > 0)
            link.law = flow::by_mass(stretch, density, viscosity);
        else
            link.law = flow::local_by_mass(run.bore, run.local, density, viscosity);
        out_.network.add_link(std::move(link));
        out_.pieces.push_back(run.pieces);
        if (!along) std::reverse(out_.pieces.back().begin(), out_.pieces.back().end());
    }

    const plant::Plant& plant_;
    const WaterFeed& feed_;
    WaterNetwork& out_;
};

Result<std::vector<Run>> runs_of(const plant::Plant& plant, const catalogue::Catalogue& catalogue, Service service,
                                 std::string_view root) {
    const auto tree = read_off(plant, service, plant.find(root));
    if (!tree) return tl::unexpected(tree.error());
    return Reader(plant, catalogue, *tree).runs();
}

/// A heater's curve in kg/s of the water it meets.
flow::Table curve_of(const catalogue::Heater& heater, const matter::Water& cold) {
    flow::Table table;
    for (const auto& point : heater.pressure_drop) {
        table.flow.push_back(point.x.value() * cold.density.value());
        table.loss.push_back(point.y.value());
    }
    return table;
}

}  // namespace

Result<WaterNetwork> water_network(const plant::Plant& plant, const catalogue::Catalogue& catalogue,
                                   const catalogue::Heater& heater, const WaterFeed& feed) {
    const auto cold = runs_of(plant, catalogue, Service::cold, "site.cold");
    if (!cold) return tl::unexpected(cold.error());
    const auto hot = runs_of(plant, catalogue, Service::hot, "site.hot");
    if (!hot) return tl::unexpected(hot.error());
    WaterNetwork out;
    Writer writer(plant, feed, out);
    const auto inlet = writer.write(*cold, Service::cold), outlet = writer.write(*hot, Service::hot);
    out.heater.assign(std::max(inlet.size(), outlet.size()), -1);
    bool any = false;
    for (std::size_t n = 0; n < std::min(inlet.size(), outlet.size()); ++n) {
        if (inlet[n] < 0 || outlet[n] < 0) continue;
        flow::Link link;
        link.name = fmt::format("heater-{}", n + 1);
        link.from = inlet[n];
        link.to = outlet[n];
        link.law = curve_of(heater, feed.cold);
        const double density = (feed.cold.density.value() + feed.hot.density.value()) / 2;
        link.gain = density * gravity * (writer.height(link.from) - writer.height(link.to));
        out.heater[n] = out.network.add_link(std::move(link));
        out.pieces.push_back({plant.find(fmt::format("heater-{}", n + 1))});
        any = true;
    }
    if (!any) return fail("no heater stands between cold and hot water", "heaters joined to both");
    return out;
}

}  // namespace bw::piping
