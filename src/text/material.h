// SPDX-License-Identifier: MIT
#pragma once
// What is known of each material, one row each.

#include <optional>

#include "text/row.h"
#include "text/vocabulary.h"

namespace bw::text {

/// Materials that codes treat alike.
enum class Family { steel, stainless, copper, cpvc, corrugated, vent, drain, cable, strut };

enum class Joining { threaded_then_welded, pressed, soldered, solvent, flare, gasketed, wired, bolted };

/// The shortest piece that can be made up between two fittings.
struct Shortest {
    enum class By { close_nipple, two_sockets, length } by;
    double inches;  ///< added to the nipple or to the sockets, or the whole
};

/// The table of the fuel gas code that sizes it.
enum class GasSizing { none, metallic_40, copper, csst };

/// How the fuel gas code allows it; see `code::gas_material`.
enum class GasUse { refused, steel, stainless, low_sulphide, listed_tubing };

struct MaterialRow {
    Column<Material> material;
    Column<std::string_view> key;     ///< as files have it: "copper-l"
    Column<std::string_view> spoken;  ///< as the trade says it: "type L copper"
    Column<Family> family;
    Column<Joining> joining;
    Column<Shortest> shortest;
    Column<GasUse> gas_use;
    Column<GasSizing> gas_sizing;
    Column<bool> tubing;                   ///< smooth tubing, held by the code's distances for such
    Column<double> conductivity;           ///< of the wall, W/(m K)
    Column<double> emissivity;             ///< of its bare surface
    Column<std::optional<double>> growth;  ///< inches an inch a degree Fahrenheit; from memory
};

[[nodiscard]] const MaterialRow& row_of(Material material);
[[nodiscard]] inline Family family(Material material) { return row_of(material).family; }

}  // namespace bw::text
