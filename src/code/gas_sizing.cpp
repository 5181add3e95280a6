// SPDX-License-Identifier: MIT
// A pipe's capacity as the code has it: the printed cell where we hold it, the equation beside it.
#include <algorithm>
#include <array>
#include <cmath>

#include "code/gas_tables.h"
#include "code/sources.h"
#include "text/material.h"

namespace bw::code {

namespace {

constexpr double propane_btu_per_cubic_foot = 2516;

std::string feet(double value) { return fmt::format("{:.6g} ft", value); }
std::string say(VolumeFlow q) { return print(amount(q, Kind::gas_flow), System::us); }

/// The code's rule: the row of the next longer printed length. nullopt beyond the last row.
std::optional<double> row_for(const GasTable& table, Length length) {
    double wanted = length / foot * (1 - 1e-9);
    auto at = std::lower_bound(table.lengths.begin(), table.lengths.end(), wanted);
    if (at == table.lengths.end()) return std::nullopt;
    return *at;
}

const GasCell* cell_at(const GasTable& table, Nominal size, double row) {
    for (const auto& cell : table.cells)
        if (cell.size == size && std::abs(cell.length / foot - row) < 1e-6) return &cell;
    return nullptr;
}

/// The held cell of the shortest row not below the length: never more than the printed row would allow.
const GasCell* next_held(const GasTable& table, Nominal size, Length length) {
    const GasCell* best = nullptr;
    for (const auto& cell : table.cells)
        if (cell.size == size && cell.length >= length * (1 - 1e-9) && (!best || cell.length < best->length))
            best = &cell;
    return best;
}

VolumeFlow flow_of(const GasTable& table, const GasCell& cell, double multiplier) {
    double cubic_feet = table.heat ? cell.printed * 1000 / propane_btu_per_cubic_foot : cell.printed;
    return cubic_feet * multiplier * cubic_foot_per_hour;
}

Source source_of(const GasTable& table, Standing standing) {
    return {table.document, table.edition, "Table " + table.number, standing};
}

/// Looks the pipe up in the printed table and says what was found or why nothing stands beside the equation.
struct LookUp {
    std::optional<TableCapacity> cell;
    VolumeFlow flow{};
    std::string note;
};

LookUp look_up(const GasTable& table, const GasFeed& feed, Nominal size, Length length, double multiplier) {
    LookUp out;
    auto row = row_for(table, length);
    const GasCell* cell = row ? cell_at(table, size, *row) : nullptr;
    bool exact = cell && (table.rows_complete || std::abs(cell->length / length - 1) < 1e-9);
    if (exact) {
        out.flow = flow_of(table, *cell, multiplier);
        out.cell = TableCapacity{.table = table.number, .row = *row, .standing = cell->standing};
        if (table.heat)
            out.cell->heat = cell->printed * multiplier * kbtu_per_hour;
        else
            out.cell->flow = out.flow;
        if (feed.specific_gravity != table.specific_gravity)
            out.note = "the printed cell is multiplied for the specific gravity";
        return out;
    }
    if (!row)
        out.note = fmt::format("Table {} ends at {}", table.number, feet(table.lengths.back()));
    else
        out.note = fmt::format("the cell of Table {} for {} in at {} is not held here", table.number, print(size),
                               feet(table.rows_complete ? *row : double(length / foot)));
    return out;
}

std::string departure(const GasTable& table) {
    return fmt::format("printed cells of Table {} stand from {:.1f} % below to {:.1f} % above the equation",
                       table.number, table.below * 100, table.above * 100);
}

reason::Step table_step(const LookUp& found, const GasTable& table, Nominal size, Length length) {
    reason::Step step;
    step.says = fmt::format("Table {}: {} in, row {} (the next printed length), which governs", table.number,
                            print(size), feet(found.cell->row));
    step.given = {{"L", "length", amount(length, Kind::long_length)}};
    if (found.cell->heat) step.given.push_back({"H", "printed capacity", units::amount(*found.cell->heat)});
    if (found.cell->heat) step.formula = "Q = H / 2516 Btu/ft3";
    step.result = reason::Term{"Q", "capacity by the table", amount(found.flow, Kind::gas_flow)};
    return step;
}

/// Corrugated tubing is sold by trade size and tabled by EHD. Two EHDs are sold under each trade size; the smaller is
/// safe.
Nominal hydraulic_size(Nominal size) {
    constexpr std::array<std::pair<int, int>, 7> smaller{
        {{3, 13}, {4, 18}, {6, 23}, {8, 30}, {10, 37}, {12, 46}, {16, 60}}};
    for (const auto& [eighths, ehd] : smaller)
        if (size.eighths == eighths) return Nominal{ehd * 8};
    return size;
}

Result<Ruled<PipeCapacity>> csst_capacity(const GasTable* table, const GasFeed& feed, Nominal sold, Length length,
                                          double multiplier) {
    const Nominal size = hydraulic_size(sold);
    if (!table)
        return fail(
            "the code prints no table for corrugated tubing at this inlet pressure and drop, and no equation "
            "serves it",
            "natural gas below 2 psi with 0.5 inH2O drop; propane at 11 inH2O with 0.5 inH2O, or at 2 psi with "
            "1 psi");
    auto found = look_up(*table, feed, size, length, multiplier);
    const GasCell* held = next_held(*table, size, length);
    if (!held)
        return fail(fmt::format("no held cell of Table {} covers EHD {} over {}", table->number, print(size),
                                print(amount(length, Kind::long_length), System::us)),
                    "the maker's table for the tubing");
    Ruled<PipeCapacity> out;
    if (size != sold)
        out.derivation.push_back(
            {fmt::format("Trade size {} is taken as the smaller tubing sold under it, EHD {} (from "
                         "memory; the maker's sheet decides)",
                         print(sold), print(size))});
    out.value.table_number = table->number;
    out.value.table = found.cell;
    out.value.table_note = found.note;
    out.value.governing = found.cell ? found.flow : flow_of(*table, *held, multiplier);
    if (found.cell) {
        out.derivation.push_back(table_step(found, *table, size, length));
    } else {
        reason::Step step;
        step.says =
            fmt::format("{}; the longer held row {} is a safe lower value", found.note, feet(held->length / foot));
        step.result = reason::Term{"Q", "capacity, at least", amount(out.value.governing, Kind::gas_flow)};
        out.derivation.push_back(std::move(step));
    }
    out.sources.push_back(source_of(*table, held->standing));
    return out;
}

/// What governs where the code prints a table whose cell we do not hold: the equation less the table's known departure.
void fall_back(Ruled<PipeCapacity>& out, const GasTable& table, const std::string& note) {
    double share = 1 - table.below;
    out.value.table_note = note + "; " + departure(table);
    out.value.governing = *out.value.equation * share;
    reason::Step step;
    step.says =
        "The equation stands in, lowered by the most the table is known to fall below it: " + out.value.table_note;
    step.formula = "Qg = Q (1 - b)";
    step.given = {{"Q", "capacity by the equation", amount(*out.value.equation, Kind::gas_flow)},
                  {"b", "greatest departure below", units::percent(table.below)}};
    step.result = reason::Term{"Qg", "capacity taken", amount(out.value.governing, Kind::gas_flow)};
    out.derivation.push_back(std::move(step));
    out.sources.push_back(source_of(table, Standing::computed));
}

}  // namespace

Result<Ruled<PipeCapacity>> pipe_capacity(const GasFeed& feed, Pressure drop, Material material, Nominal size,
                                          Length inside, Length length, bool low_sulphide) {
    auto allowed = gas_material(material, low_sulphide);
    if (!allowed) return tl::unexpected(allowed.error());
    auto multiplier = specific_gravity_multiplier(feed.gas, feed.specific_gravity);
    if (!multiplier) return tl::unexpected(multiplier.error());
    if (!(length.value() > 0)) return fail("length of gas pipe is not above zero", "a length above zero");
    const GasTable* table = gas_table(feed, drop, material);
    if (text::row_of(material).gas_sizing == text::GasSizing::csst)
        return csst_capacity(table, feed, size, length, multiplier->value);
    auto equation = gas_capacity(feed, drop, inside, length);
    if (!equation) return tl::unexpected(equation.error());
    Ruled<PipeCapacity> out;
    out.value.equation = equation->value;
    out.value.governing = equation->value;
    out.derivation = std::move(equation->derivation);
    out.sources = std::move(equation->sources);
    if (!table) {
        out.value.table_note = "the code prints no table for this pipe, inlet pressure and drop";
        return out;
    }
    out.value.table_number = table->number;
    auto found = look_up(*table, feed, size, length, multiplier->value);
    if (!found.cell) {
        fall_back(out, *table, found.note);
        return out;
    }
    out.value.table = found.cell;
    out.value.table_note = table->follows_equation ? found.note : departure(*table);
    out.value.governing = found.flow;
    out.derivation.push_back(table_step(found, *table, size, length));
    out.sources.push_back(source_of(*table, found.cell->standing));
    if (table->heat) out.sources.push_back(nfpa54("energy of propane, 2,516 Btu/ft3", Standing::memory));
    return out;
}

Result<Ruled<GasChoice>> gas_size(const GasFeed& feed, Pressure drop, Material material, VolumeFlow load,
                                  Length longest, const std::vector<GasSize>& sizes, bool low_sulphide) {
    if (!(load.value() > 0)) return fail("gas load is " + say(load), "a load above zero");
    auto rising = sizes;
    std::sort(rising.begin(), rising.end(), [](const GasSize& a, const GasSize& b) {
        return a.inside != b.inside ? a.inside < b.inside : a.nominal < b.nominal;
    });
    std::optional<VolumeFlow> most;
    std::optional<Error> last;
    for (const auto& size : rising) {
        auto capacity = pipe_capacity(feed, drop, material, size.nominal, size.inside, longest, low_sulphide);
        if (!capacity) {
            last = capacity.error();
            continue;
        }
        if (!most || capacity->value.governing > *most) most = capacity->value.governing;
        if (capacity->value.governing < load) continue;
        Ruled<GasChoice> out{{size, capacity->value}, std::move(capacity->derivation), std::move(capacity->sources)};
        reason::Step step;
        step.says =
            "Longest-length method: the smallest size whose capacity over the longest run carries the load is " +
            print(size.nominal) + " in";
        step.given = {{"Q", "load", amount(load, Kind::gas_flow)},
                      {"L", "longest run", amount(longest, Kind::long_length)}};
        step.result = reason::Term{"Qc", "capacity", amount(out.value.capacity.governing, Kind::gas_flow)};
        out.derivation.push_back(std::move(step));
        out.sources.push_back(ifgc("402.4, A.6.1 (longest-length method)", Standing::published));
        return out;
    }
    if (!most && last) return tl::unexpected(*last);
    if (!most) return fail("no sizes of gas pipe to choose from", "at least one size");
    return fail("no size of gas pipe carries " + say(load) + "; the largest carries " + say(*most),
                "a larger pipe, a shorter run, more pressure or a greater allowed drop");
}

}  // namespace bw::code
