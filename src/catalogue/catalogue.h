// SPDX-License-Identifier: MIT
#pragma once
// What can be bought. Everything the rooms below know about a thing is here, with its source.

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "catalogue/flat_index.h"
#include "reason/reason.h"
#include "shape/vec.h"
#include "text/vocabulary.h"
#include "units/nominal.h"
#include "units/quantity.h"

namespace bw::catalogue {

using text::Gas;
using text::Material;
using text::Part;
using text::Service;
using namespace bw::units;  // NOLINT: quantity names are the language of this header

/// One size of pipe, tube or vent pipe.
struct Pipe {
    std::string key;  ///< "pipe/copper-l/2"
    Material material{};
    Nominal size;
    Length outside{}, inside{};
    Length roughness{};           ///< absolute
    MassPerLength mass{};         ///< empty pipe
    Length stock{};               ///< length it is sold in
    double price_per_metre = 0;   ///< USD
    Time labour_per_metre{};      ///< hang and place
    Pressure rating{};            ///< at the temperatures met here, zero for vent and drain
    bool drinking_water = false;  ///< listed for drinking water (NSF/ANSI/CAN 61)
    Temperature greatest{};       ///< greatest service temperature
    reason::Sources sources;
};

/// A fitting, valve, connector, support, cable or other thing bought by the piece.
struct Item {
    std::string key;  ///< "elbow/copper-l/2", "tee/steel-40/3x3/4", "heater-disconnect"
    Part part{};
    std::string title;
    std::optional<Material> material;  ///< the pipe it goes with
    std::optional<Nominal> size;       ///< run size
    std::optional<Nominal> branch;     ///< branch of a tee, small end of a reducer
    std::vector<Service> services;     ///< services it may be used in; empty means any
    /// Take-outs: from the crossing of centre lines (or the end-to-end middle) to where the pipe end sits when made up.
    /// Multiples of 1/16 in, so cut lengths on a 1/16 in grid come out exact.
    Length run{};          ///< elbow: both legs; tee: each run leg; straight things: half the made-up length
    Length stem{};         ///< tee: branch leg; relief valve, trap: outlet leg; else zero
    Length outside{};      ///< greatest outside diameter or width of the body, for solids and clearance
    double loss_run = 0;   ///< K, velocity heads in the run size
    double loss_stem = 0;  ///< K through the branch, velocity heads in the branch size
    Mass mass{};
    double price = 0;  ///< USD
    Time labour{};     ///< to make up its joints and set it
    bool drinking_water = false;
    bool gas_listed = false;
    std::optional<text::Gas> gas;  ///< the gas a regulator is made for: every regulator has it
    /// Numbers only some parts have, SI, by name: `set-pressure` (Pa), `capacity` (W for relief, m3/s for regulators),
    /// `inlet-greatest`, `outlet`, `lock-up` (Pa), `length`, `offset-greatest` (m) for flexibles, `medium-mass` (kg)
    /// and `rated-input` (W) for neutralisers, `flow-1` (m3/s) and `head-1` (m) to `flow-5`, `head-5` for pumps, `load`
    /// (N) for supports, `rating` (A), `volume` and `acceptance` (m3); docs/catalogue.md names them all.
    std::map<std::string, double, std::less<>> data;
    reason::Sources sources;

    /// A named number; nullopt where the row does not have it.
    [[nodiscard]] std::optional<double> number(std::string_view name) const;
};

struct HeaterPort {
    std::string name;  ///< gas cold hot condensate exhaust intake power link-in link-out mount
    Service service{};
    shape::Vec at;      ///< metres from the lower back corner at the right hand of whoever faces the heater: x to their
                        ///< left, y towards them (out from the wall), z up
    shape::Vec facing;  ///< unit vector out of the heater
    Nominal size;       ///< zero for power, link and mount
};

template <class X, class Y>
struct CurvePoint {
    X x{};
    Y y{};
};

struct GasInlet {
    Gas gas{};
    Pressure least{}, greatest{};  ///< at the inlet, while firing; greatest also at lock-up
};
struct VentLimit {
    Nominal size;
    Length longest{};           ///< straight pipe, single vent
    Length elbow_equivalent{};  ///< each 90 degree elbow counts as this much
};
struct CommonVentLimit {
    Nominal size;
    int most = 0;      ///< heaters on one common vent of this size
    Length longest{};  ///< developed length from the farthest collar to the terminal
};

struct Heater {
    std::string key;  ///< "demo-199"
    std::string title;
    Power input_greatest{}, input_least{};
    std::vector<CurvePoint<Temperature, Ratio>> efficiency;  ///< against return water temperature; at least two points
    VolumeFlow flow_least{}, flow_greatest{};
    std::vector<CurvePoint<VolumeFlow, Pressure>> pressure_drop;  ///< rising from (0, 0)
    Length width{}, height{}, depth{};
    Mass mass{};  ///< dry
    Volume water{};
    std::vector<HeaterPort> ports;
    std::vector<GasInlet> gas;
    Pressure fan{};  ///< available to the vent at greatest input
    std::vector<VentLimit> vents;
    std::vector<CommonVentLimit> common_vents;  ///< empty: not listed for common venting
    std::string common_vent_listing;            ///< what the maker's listing says; empty when none
    std::vector<Material> vent_materials;
    TemperatureDifference flue_over_return{};  ///< flue gas above return water at greatest input
    int greatest_group = 1;                    ///< heaters in one linked group
    std::optional<int> groups_together;  ///< such groups on common headers by the manufacturer's word; empty: not said
    Length gap_side{}, gap_top{}, gap_front{}, gap_bottom{};  ///< to anything; front is service space
    Length combustible{};                                     ///< to combustible construction, every side but the front
    Voltage voltage{};
    Current current_running{}, current_freeze{};  ///< heaters for freeze protection add to nothing else
    Ratio excess_air = 0.25;                      ///< at greatest input
    double condensate_acidity = 3.5;              ///< pH
    Temperature water_greatest{}, setpoint_greatest{};
    Pressure water_pressure_greatest{}, water_pressure_least{};
    double hardness_greatest = 0;             ///< mg/L as CaCO3
    std::optional<double> derate_per_1000ft;  ///< maker's altitude rule, share of input per 1,000 ft
    Length derate_above{};                    ///< maker's rule starts here
    Length altitude_greatest{};
    bool room_air_allowed = false, closes_when_idle = true, condensate_trap_built_in = false;
    Pressure relief_greatest{};  ///< weakest part: relief set no higher than this
    Length hang_height{};        ///< usual height of the heater's bottom above the floor
    double price = 0;
    Time labour{};
    reason::Sources sources;

    [[nodiscard]] const HeaterPort* port(std::string_view name) const;
    /// nullptr where it does not burn that gas.
    [[nodiscard]] const GasInlet* inlet(Gas kind) const;
};

/// Thermal efficiency at a return temperature, straight lines between points; outside the points the end value holds
/// only up to 5 K beyond, else fails.
[[nodiscard]] Result<Ratio> efficiency(const Heater& heater, Temperature return_water);
/// Pressure lost through the heater; fails above flow_greatest.
[[nodiscard]] Result<Pressure> pressure_drop(const Heater& heater, VolumeFlow flow);

/// Sizes of the fewest linked groups so many heaters make, as even as can be, the larger first.
[[nodiscard]] std::vector<int> linked_groups(const Heater& heater, int heaters);

class Catalogue {
public:
    std::vector<Heater> heaters;  ///< by key order
    std::vector<Pipe> pipes;      ///< by material, then size
    std::vector<Item> items;      ///< by key order

    [[nodiscard]] const Heater* heater(std::string_view key) const;
    [[nodiscard]] const Pipe* pipe(Material material, Nominal size) const;
    [[nodiscard]] const Pipe* pipe(std::string_view key) const;
    /// Sizes of a material, rising.
    [[nodiscard]] std::vector<const Pipe*> sizes(Material material) const;
    [[nodiscard]] const Item* item(std::string_view key) const;
    /// The item of a part for a material and size (and branch size), or nullptr. O(1). A row that names no material
    /// goes with any pipe, and answers where no row of the material does. Of several rows the cheapest answers.
    [[nodiscard]] const Item* item(Part part, Material material, Nominal size,
                                   std::optional<Nominal> branch = {}) const;
    /// The cheapest item of a part and size that names no material (valves, connectors, hangers), or nullptr. O(1).
    [[nodiscard]] const Item* item(Part part, Nominal size, std::optional<Nominal> branch = {}) const;
    /// The cheapest item of a part of whatever size, or nullptr. O(1).
    [[nodiscard]] const Item* cheapest(Part part) const;
    /// All items of a part, cheapest first. Nothing is searched or sorted here.
    [[nodiscard]] std::vector<const Item*> of(Part part) const;

    /// Rebuilds the look-up tables after the vectors changed; fails on two rows of one key.
    [[nodiscard]] Result<void> index();

private:
    std::vector<std::size_t> heater_order_, pipe_order_, item_order_;  ///< rows by rising key
    FlatIndex fitting_at_, pipe_size_at_;
    std::vector<std::vector<std::size_t>> part_at_, material_at_;  ///< items by price, pipes by size
};

/// The catalogue embedded in the program, with extra files read over it: a row of the same key replaces, others add.
/// `overrides` are paths of TOML files or folders of them.
[[nodiscard]] Result<Catalogue> load(const std::vector<std::string>& overrides = {});
/// Judges one catalogue file as `load` would.
[[nodiscard]] Result<void> check_file(const std::string& path);

}  // namespace bw::catalogue
