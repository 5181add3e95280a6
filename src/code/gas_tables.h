// SPDX-License-Identifier: MIT
#pragma once
// The cells we hold of the fuel gas code's printed pipe tables. Where the code prints a table the table governs; the
// equation stands beside it. Cells are few: a cell that is not held is never made up.

#include <optional>
#include <vector>

#include "code/gas_pipe.h"

namespace bw::code {

enum class GasPipeKind { metallic_40, copper, polyethylene, csst };

struct GasCell {
    Nominal size;  ///< for CSST the EHD number stands in whole inches: EHD 18 is Nominal "18"
    Length length{};
    double printed = 0;  ///< ft3/h, or kBtu/h in propane tables
    Standing standing = Standing::published;
};

struct GasTable {
    std::string number;  ///< "402.4(2)"
    Gas gas{};
    Ratio specific_gravity = 0;
    GasPipeKind kind{};
    Pressure inlet{};             ///< the printed inlet; for "below 2 psi" that bound
    bool inlet_is_bound = false;  ///< inlet is "less than", not "at"
    Pressure drop{};
    bool heat = false;  ///< printed in kBtu/h
    bool follows_equation = true;
    double below = 0, above = 0;  ///< how far the printed cells stand below and above the equation, shares
    bool rows_complete = true;    ///< false: `lengths` are only rows of which a cell is held
    std::vector<double> lengths;  ///< printed rows, ft, rising (from memory)
    std::vector<GasCell> cells;
    std::string document, edition;
};

/// All tables held, in file order. Fails only where the data file is broken.
[[nodiscard]] Result<std::vector<GasTable>> read_gas_tables(std::string text, std::string file_name);
/// The tables embedded in the program, read once.
[[nodiscard]] const std::vector<GasTable>& gas_tables();

/// The printed table for a material, inlet and drop, or nullptr where the code prints none (schedule 80, stainless,
/// other pressures).
[[nodiscard]] const GasTable* gas_table(const GasFeed& feed, Pressure drop, Material material);

/// What the printed table says for a size and length, by the code's next-longer-row rule.
struct TableCapacity {
    std::string table;               ///< "402.4(2)"
    double row = 0;                  ///< ft: the printed row that was taken
    std::optional<VolumeFlow> flow;  ///< natural-gas tables, corrected for specific gravity where it differs
    std::optional<Power> heat;       ///< propane tables
    Standing standing = Standing::published;
};

/// A pipe's capacity as the code has it: table and equation side by side.
struct PipeCapacity {
    std::optional<VolumeFlow> equation;  ///< none for CSST, which has tables only
    std::optional<TableCapacity> table;  ///< held printed cell
    std::string table_number;            ///< of the printed table, also when its cell is not held
    std::string table_note;              ///< why no cell stands beside the equation, and how far the table departs
    VolumeFlow governing{};  ///< table where its cell is held, else equation (less the departure where known)
};
/// Fails for a material that may not carry gas, a CSST size or length beyond the held cells, and as gas_capacity does.
/// Propane cells become ft3/h at 2,516 Btu/ft3 in `governing`. CSST may be named by its EHD ("18") or by its trade size
/// ("1/2"), which is taken as the smaller EHD sold under it.
[[nodiscard]] Result<Ruled<PipeCapacity>> pipe_capacity(const GasFeed& feed, Pressure drop, Material material,
                                                        Nominal size, Length inside, Length length,
                                                        bool low_sulphide = true);

struct GasSize {
    Nominal nominal;
    Length inside{};
};
struct GasChoice {
    GasSize size;
    PipeCapacity capacity;
};
/// Longest-length method: the smallest of `sizes` (any order) whose governing capacity over the longest run carries the
/// load. Fails when none does, naming the greatest capacity. Source: IFGC 2018 402.4.1, A.3.
[[nodiscard]] Result<Ruled<GasChoice>> gas_size(const GasFeed& feed, Pressure drop, Material material, VolumeFlow load,
                                                Length longest, const std::vector<GasSize>& sizes,
                                                bool low_sulphide = true);

/// Straight pipe that loses as much as a fitting: L/D times the inside diameter. Source: common L/D values (elbow 30,
/// 45-degree elbow 16, tee run 20, tee branch 60, gas cock or ball valve 8) from memory of handbooks.
/// `part` is elbow, elbow_45, tee (branch flow), coupling, union_joint, ball_valve, gas_valve …; 0 for parts that add
/// nothing. `tee_run` takes a tee's run. `gas_equivalent_diameters` gives the L/D.
[[nodiscard]] double gas_equivalent_diameters(text::Part part, bool tee_run = false);
[[nodiscard]] Clause<Length> gas_equivalent_length(text::Part part, Length inside, bool tee_run = false);

}  // namespace bw::code
