// SPDX-License-Identifier: MIT
// Gas pipe by the code's longest-length method: every line carries its load over the longest way, by the printed table
// where one is held, else by the equation.
#include <map>

#include "code/gas_rules.h"
#include "code/gas_tables.h"
#include "proof/checks.h"
#include "proof/gas/gas_run.h"

namespace bw::proof {
namespace {

using namespace bw::units;  // NOLINT: quantity names

/// Pipe before the first regulator, or behind the last: one inlet, one allowed drop, one longest length.
struct Zone {
    code::GasFeed feed;
    Pressure drop{};
    Length longest{};
};

/// The thinnest pipe of a line for its load.
struct Line {
    int zone = 0;
    int piece = -1;
    VolumeFlow load{};
    code::Ruled<code::PipeCapacity> capacity;
};

int zone_of(const GasRun& run, const GasSection& section) {
    if (run.regulators.empty()) return 0;
    const auto first = std::find(run.pieces.begin(), run.pieces.end(), run.regulators.front());
    const auto here = std::find(run.pieces.begin(), run.pieces.end(), section.pieces.front());
    return here < first ? 0 : 1;
}

using Runs = std::vector<const GasRun*>;

/// Developed length of one way before its regulator and behind it.
std::array<Length, 2> lengths(const GasRun& run) {
    std::array<Length, 2> length{};
    for (const auto& section : run.sections)
        if (!section.pieces.empty())
            length[static_cast<std::size_t>(zone_of(run, section))] += section.length + section.equivalent;
    return length;
}

std::array<Zone, 2> zones(const View& view, const Runs& runs) {
    const auto& gas = view.survey.gas;
    const code::GasFeed feed{*gas.kind, *gas.specific_gravity, *gas.delivery_pressure};
    std::array<Zone, 2> found{Zone{feed, *gas.allowed_drop, {}},
                              Zone{feed, std::min(*gas.allowed_drop, code::drop_behind_regulator), {}}};
    for (const auto* run : runs) {
        const auto length = lengths(*run);
        for (std::size_t z = 0; z < 2; ++z) found[z].longest = std::max(found[z].longest, length[z]);
        if (!run->regulators.empty())
            found[1].feed.inlet = view.number(run->regulators.back(), "outlet").value_or(0) * pascal;
    }
    return found;
}

std::string line_name(const Piece& piece, int zone, bool regulated) {
    const auto bank = piece.bank > 0 ? fmt::format("bank-{}", piece.bank) : std::string("main");
    const auto* part = piece.heater > 0 ? "-branch" : "";
    return fmt::format("{}{}{}", bank, part, regulated && zone == 0 ? "-before-regulator" : "");
}

/// Pipe of one size in a line: its greatest load, and the longest way past any of it.
struct Met {
    const catalogue::Pipe* row = nullptr;
    int zone = 0;
    VolumeFlow load{};
    Length longest{};
};

struct Gathered {
    std::map<std::string, Line> lines;
    std::map<std::string, std::map<Nominal, Met>> met;
    std::string refused;  ///< why a capacity could not be found
};

/// Pipe of a regulator's size on either side of it, up to the change of size and no more than 2 ft, is the regulator's
/// connection and not a line: its loss counts in the pressure at the heaters (common practice, no source).
std::vector<int> regulators_own(const View& view, const GasRun& run) {
    constexpr double most = 24 * 0.0254;
    std::vector<int> own;
    const auto take = [&](auto from, auto end, int regulator) {
        double length = 0;
        for (; from != end; ++from) {
            const auto& piece = view.piece(*from);
            length += piece.cut;
            if (piece.size != view.piece(regulator).size || piece.part == Part::tee || length > most) return;
            own.push_back(*from);
        }
    };
    for (const int regulator : run.regulators) {
        const auto at = std::find(run.pieces.begin(), run.pieces.end(), regulator);
        take(at + 1, run.pieces.end(), regulator);
        take(std::make_reverse_iterator(at), run.pieces.rend(), regulator);
    }
    return own;
}

void gather(const View& view, const GasRun& run, const std::array<Zone, 2>& zone, Gathered& found) {
    const auto own = regulators_own(view, run);
    const auto way = lengths(run);
    for (const auto& section : run.sections)
        for (const int i : section.pieces) {
            const auto* row = view.pipe(i);
            if (!row || row->inside.value() <= 0 || std::find(own.begin(), own.end(), i) != own.end()) continue;
            const int z = zone_of(run, section);
            const auto name = line_name(view.piece(i), z, !run.regulators.empty());
            auto& met = found.met[name][row->size];
            met = {row, z, std::max(met.load, section.flow), std::max(met.longest, way[static_cast<std::size_t>(z)])};
            auto& line = found.lines[name];
            if (line.piece >= 0 && (line.piece == i || row->inside / view.pipe(line.piece)->inside >= 1) &&
                section.flow <= line.load)
                continue;
            const auto& at = zone[static_cast<std::size_t>(z)];
            auto capacity = code::pipe_capacity(at.feed, at.drop, row->material, row->size, row->inside, at.longest,
                                                *view.survey.gas.low_sulphide);
            if (!capacity) {
                found.refused = fmt::format("{}: {}", view.name(i), capacity.error().what);
                continue;
            }
            const bool worse =
                line.piece < 0 || section.flow / capacity->value.governing > line.load / line.capacity.value.governing;
            if (worse) line = {z, i, section.flow, std::move(*capacity)};
        }
}

struct Branch {
    std::map<std::string, std::pair<Length, VolumeFlow>> worst;  ///< by line: the length, and what its pipe carries
    bool all_hold = true;
};

Result<VolumeFlow> carried(const View& view, const Zone& at, const Met& pipe) {
    const auto capacity = code::pipe_capacity(at.feed, at.drop, pipe.row->material, pipe.row->size, pipe.row->inside,
                                              pipe.longest, *view.survey.gas.low_sulphide);
    if (!capacity) return tl::unexpected(capacity.error());
    return capacity->value.governing;
}

/// The code's branch-length method: the longest way as by the other; every branch off it over the length to the
/// farthest outlet it leads to.
Branch by_branch(const View& view, const std::array<Zone, 2>& zone, const Gathered& found) {
    Branch out;
    for (const auto& [name, met] : found.met) {
        double worst = 0;
        for (const auto& [size, pipe] : met) {
            const auto& at = zone[static_cast<std::size_t>(pipe.zone)];
            const auto& line = found.lines.at(name);
            const bool same = line.piece >= 0 && view.pipe(line.piece) == pipe.row && pipe.longest == at.longest;
            const auto carries = same ? Result<VolumeFlow>(line.capacity.value.governing) : carried(view, at, pipe);
            if (!carries) {
                out.all_hold = false;
                continue;
            }
            const double used = pipe.load / *carries;
            if (used > worst) out.worst[name] = {pipe.longest, *carries};
            worst = std::max(worst, used);
        }
        out.all_hold = out.all_hold && worst <= 1;
    }
    return out;
}

/// The smallest pipe of the material that carries the line's load, or that none does.
std::string larger(const View& view, const Line& line, const Zone& zone) {
    const auto material = view.pipe(line.piece)->material;
    std::vector<code::GasSize> sizes;
    for (const auto* row : view.catalogue.sizes(material)) sizes.push_back({row->size, row->inside});
    const auto size =
        code::gas_size(zone.feed, zone.drop, material, line.load, zone.longest, sizes, *view.survey.gas.low_sulphide);
    if (!size) return " No size of the catalogue carries it: a higher delivery pressure with a line regulator.";
    return fmt::format(" {} would carry it.", print(size->value.size.nominal));
}

/// Whether every heater has what it needs in the solved network (gas.solved).
bool solved_holds(const View& view) {
    const auto& solved = view.hydraulics.gas;
    if (!solved || !solved->flows.all) return false;
    const auto& all = *solved->flows.all;
    const auto* inlet = gas_inlet(view);
    return inlet && all.heater[static_cast<std::size_t>(all.lowest) - 1] >= inlet->least;
}

Check of_line(const View& view, const std::string& name, Line& line, const std::array<Zone, 2>& zone,
              const Branch& branch) {
    auto check =
        new_check("gas.size.<line>", std::move(line.capacity.sources), {{"line", name, plant::in_words(name)}});
    check.derivation = std::move(line.capacity.derivation);
    about(check, view, {line.piece});
    depends_on_fields(check, view.survey,
                      {"gas.delivery-pressure", "gas.heating-value", "gas.specific-gravity", "site.altitude"});
    if (line.zone == 1)
        step(check,
             "Behind the regulator half an inch of water is allowed; what is of the regulator's size within 2 ft of it "
             "is its own "
             "(common "
             "practice, no source).");
    check.says = "The line's load against what the pipe carries over the longest way.";
    if (!line.capacity.value.table_note.empty()) check.says += " Note: " + line.capacity.value.table_note;
    auto carries = line.capacity.value.governing;
    if (const auto other = branch.worst.find(name); other != branch.worst.end()) {
        step(check, "By the branch-length method, each line over the longest way that passes it.", {},
             {{"L", "pipe and fittings to the farthest outlet", amount(other->second.first, Kind::long_length)}},
             Term{"Qb", "carries", amount(other->second.second, Kind::gas_flow)});
        if (line.load > carries && branch.all_hold) {
            carries = other->second.second;
            check.says +=
                " Short by the longest-length method; by the branch-length method, which the code allows in "
                "its stead, every line carries its load.";
        }
    }
    if (line.load > carries) {
        check.says += fmt::format(" It lacks {}.", us(amount(line.load - carries, Kind::gas_flow)));
        check.says += larger(view, line, zone[static_cast<std::size_t>(line.zone)]);
    }
    check = at_most(std::move(check), amount(line.load, Kind::gas_flow), amount(carries, Kind::gas_flow));
    if (check.status == Status::fail && *view.survey.preferences.engineered_gas && solved_holds(view))
        return reason::referred(
            std::move(check),
            "Beyond the table, as the survey allows: the pressure solved at every heater holds. The "
            "engineer of record signs for it, and whoever has jurisdiction accepts it.");
    return check;
}

}  // namespace

void check_gas_size(const View& view, Checks& checks) {
    Runs runs;
    for (int n = 1; n <= view.heaters(); ++n)
        if (const auto& run = view.gas_run(n)) runs.push_back(&*run);
    Gathered found;
    const auto zone = zones(view, runs);
    for (const auto* run : runs) gather(view, *run, zone, found);
    const auto branch = by_branch(view, zone, found);
    for (auto& [name, line] : found.lines)
        if (line.piece >= 0) checks.push_back(of_line(view, name, line, zone, branch));
    if (!found.refused.empty() || found.lines.empty())
        checks.push_back(holds(new_check("gas.size", {ifgc("402.4")}), false, {},
                               found.lines.empty() ? "The plant has no gas pipe." : found.refused));
}

}  // namespace bw::proof
