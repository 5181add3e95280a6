// SPDX-License-Identifier: MIT
#pragma once
// What is given about a job. A survey may be short: what it leaves out gets a stated default, and every default taken
// is listed, to be confirmed on site.

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "shape/ceiling.h"
#include "shape/polygon.h"
#include "shape/vec.h"
#include "text/vocabulary.h"
#include "units/error.h"
#include "units/nominal.h"
#include "units/quantity.h"

namespace bw::survey {

using text::Building;
using text::Fixture;
using text::Gas;
using text::Material;
using namespace bw::units;  // NOLINT: quantity names are the language of this header

/// A value that was given, or taken by default and to be confirmed.
template <class T>
struct Given {
    T value{};
    bool assumed = true;
    const T& operator*() const { return value; }
    const T* operator->() const { return &value; }
    bool operator==(const Given&) const = default;
};

struct Assumption {
    std::string field;    ///< key in the survey file: "gas.delivery-pressure", "room.wall.3.build", "connections.panel"
    std::string value;    ///< as printed in the survey's own syntax: "7 inH2O"
    std::string why;      ///< where the default comes from
    bool safety = false;  ///< bears on safety: checks that rest on it refer until it is confirmed
};

/// A time of the day, in minutes from midnight; `to` is past 1440 where it runs over midnight.
struct Hours {
    int from = 0, to = 0;
};

/// Loads that run together at full flow: gang showers, washers, warewashing, filling.
struct Block {
    std::string name;
    int count = 0;
    VolumeFlow flow{};          ///< each, at `temperature`
    Temperature temperature{};  ///< of the water as drawn (mixed); at or below the distribution temperature
    int shower_heads = 0;       ///< counted as showers by the hourly method, 0 where not showers
    std::vector<Hours> runs{};  ///< when, every day; empty: during the fixtures' busiest hour
};

/// People served, for the occupancy methods: an identifier of the occupancy table and how many.
struct Occupancy {
    std::string kind;
    int count = 0;
};

/// Which method's peak governs.
enum class MethodPreference { automatic, fixture_units, fixture_units_nspc, fixture_probability };

struct BuildingUse {
    Given<Building> building;  ///< kind for the hourly-demand table
    std::map<Fixture, int> fixtures;
    std::vector<Occupancy> occupancies;
    std::vector<Block> blocks;
    std::map<Fixture, double> busy;           ///< measured or judged chance that one runs in the busiest hour
    Given<double> percentile{.value = 0.99};  ///< of the busiest hour's moments, for the probability method
    Given<MethodPreference> method;
    bool care = false;              ///< patients, elderly or children: spare defaults to one down
    bool chemistry_in_air = false;  ///< laundry, pool or salon chemistry near the heaters' air
};

struct Supply {
    Given<Pressure> pressure;  ///< static, gauge
    Given<double> hardness;    ///< mg/L as CaCO3
    Given<Temperature> coldest;
    std::optional<Temperature> mean_air;             ///< of the year, outdoors
    std::optional<TemperatureDifference> air_swing;  ///< warmest less coldest month's mean
    bool southern = false;                           ///< hemisphere
    Given<bool> closed;                              ///< check valve, reducer or backflow preventer on the service
};

struct OtherGasLoad {
    std::string name;
    Power input{};
};

struct GasSupply {
    Given<Gas> kind;
    Given<HeatingValue> heating_value;  ///< as delivered, gross
    Given<double> specific_gravity;
    Given<Pressure> delivery_pressure;  ///< gauge, at the point of connection
    Given<Pressure> allowed_drop;       ///< from the point of connection to a heater's regulator or inlet
    Given<VolumeFlow> meter;            ///< capacity; value 0 with assumed = true means not known
    std::vector<OtherGasLoad> other;    ///< on the same meter
    Given<bool> low_sulphide;           ///< not more than 0.3 grain per 100 ft3, which copper needs
};

struct Temperatures {
    Given<Temperature> distribution;  ///< leaving the plant
    Given<Temperature> use;           ///< mixed at the taps
};

/// One way of the building's loop: hot pipe out from the plant, and the return from its end.
struct LoopBranch {
    std::string name;
    Length length{};  ///< out
    Nominal size;     ///< of the pipe out
    Given<Length> return_length;
    Given<Nominal> return_size;
    Given<Material> material;
    Given<Length> insulation;  ///< zero with assumed = true: the energy code's least
    Given<double> fittings;    ///< share of the length that fittings add to the loss of pressure
};

struct Recirculation {
    Given<bool> present;
    Given<VolumeFlow> flow;             ///< zero: found from the loss and the drop
    Given<Power> loss;                  ///< heat lost by the loop
    Given<TemperatureDifference> drop;  ///< supply to return
    std::optional<Length> head;         ///< the building's loop takes at its flow, where its designer gave it
    std::vector<LoopBranch> branches;   ///< empty: the building's loop was not surveyed
};

enum class WallBuild { concrete, masonry, wood_stud, steel_stud, glass };
[[nodiscard]] std::string_view name(WallBuild build);  // "wood-stud"

struct Wall {
    Given<WallBuild> build;
    Given<bool> combustible;  ///< face or frame within the heaters' clearance
    Given<bool> outside;      ///< the far side is outdoors
    Given<bool> rated;        ///< fire-rated: penetrations are firestopped
    int number = 0;           ///< in the file, 1-based: differs from the index + 1 where the plan was
                              ///< given clockwise and turned round
    bool operator==(const Wall&) const = default;
};

struct Door {
    int wall = 0;                        ///< index, 0-based (1-based in the file)
    Length offset{}, width{}, height{};  ///< offset of the near jamb from the wall's start corner
    Given<bool> swings_in;
    Given<bool> hinge_far;  ///< hinge on the jamb farther from the wall's start
    bool operator==(const Door&) const = default;
};

/// The way from the street to the room.
struct WayIn {
    Given<Length> corridor;             ///< clear width
    Given<Length> corridor_after_turn;  ///< zero: no turn
    Given<Length> ceiling;
    bool operator==(const WayIn&) const = default;
};

struct Obstacle {
    std::string name;
    shape::Box box;
    bool operator==(const Obstacle&) const = default;
};

/// Where the plant meets the building. `facing` points into the room, out of the building's pipe.
struct Connection {
    bool given = false;          ///< there is one: stated in the file, or placed by assumption
    bool assumed_place = false;  ///< placed by assumption; `connections.<name>` stands in `assumed`
    shape::Vec at;
    shape::Vec facing;
    std::optional<Nominal> size;  ///< of what is there
    bool operator==(const Connection&) const = default;
};

/// A ceiling that falls evenly towards one wall, square to it across the plan.
struct CeilingSlope {
    int wall = 0;  ///< index, 0-based (1-based in the file); no part of the plan lies behind its line
    Length low{};  ///< clear height along that wall
    bool operator==(const CeilingSlope&) const = default;
};

struct Room {
    shape::Polygon plan;                ///< counter-clockwise, metres; wall i runs from corner i to i+1
    Given<Length> ceiling;              ///< the greatest height
    std::optional<CeilingSlope> slope;  ///< nothing where the ceiling is level
    std::vector<Wall> walls;            ///< one for each side of the plan
    std::vector<Door> doors;            ///< at least one
    WayIn way_in;
    std::vector<Obstacle> obstacles;
    Connection gas, cold, hot, recirculation, drain, exhaust, intake, panel;
    Given<double> air_changes;   ///< infiltration per hour, for indoor combustion air
    Given<bool> freezing;        ///< room or drain can freeze
    Given<bool> terminal_clear;  ///< vent outlet's surroundings were surveyed and are clear by code

    /// The height over every place of the plan.
    [[nodiscard]] shape::Ceiling overhead() const;
    bool operator==(const Room&) const = default;
};

struct Code {
    std::string document;    ///< "IFGC"
    std::string edition;     ///< "2018"
    std::string amendments;  ///< free text; empty: none stated
};

enum class ArrangementPreference { any, wall, rack_one_sided, rack_two_sided };
enum class SparePolicy { none, one, share, share_one_down };
enum class VentPreference { any, single, common };

struct Preferences {
    Given<Material> gas_pipe, water_pipe, vent_pipe;
    Given<ArrangementPreference> arrangement;
    Given<VentPreference> vent;
    Given<bool> room_air;  ///< burn room air rather than piped outdoor air
    Given<SparePolicy> spare;
    Given<double> spare_share;             ///< of peak: beyond it (share), or still met with one down (share_one_down)
    Given<double> scale_allowance;         ///< share of a heater's output given up to scale between cleanings
    std::optional<Volume> tank;            ///< a store preferred, whole volume
    std::optional<std::string> heater;     ///< catalogue key
    Place heater_place;                    ///< where the file names it, for a refusal by those who see the catalogue
    std::optional<std::string> place;      ///< the layout, or family of layouts, to keep to: "wall-2", "wall-2-at-30"
    Given<double> labour_rate;             ///< USD an hour
    Given<double> markup;                  ///< share of parts
    std::map<std::string, double> prices;  ///< catalogue key to USD (per metre for pipe)
    std::map<std::string, Place> price_places;
    Given<int> most_in_line;      ///< heaters in one line or rack before the plant is split (8)
    Given<int> most_in_assembly;  ///< heaters in one assembly (16)
    Given<int> header_serves;     ///< heaters a header length serves (4)
    Given<bool> engineered_gas;  ///< gas pipe by its solved pressures, where that is accepted, rather than by the table
};

/// What the structural engineer gives of the site; without it earthquake checks refer.
struct Seismic {
    std::optional<double> sds;  ///< design spectral acceleration at short periods, in g
    double importance = 1;      ///< of the components
    double height_ratio = 1;    ///< of the room's floor over the roof's: 0 at grade, 1 under the roof
};

struct Survey {
    std::string file;                         ///< where it was read from
    std::string job;                          ///< title
    std::string prepared_by, revision, date;  ///< as given; may be empty
    BuildingUse use;
    Supply supply;
    GasSupply gas;
    Given<Length> altitude;
    Seismic seismic;
    Temperatures temperatures;
    Recirculation recirculation;
    Room room;
    std::vector<Code> codes;  ///< empty: code checks refer
    Given<bool> emergency_stop_required, co_alarm_required;
    Preferences preferences;
    std::vector<Assumption> assumed;

    /// Whether `field`, or anything under it ("room.wall" for "room.wall.3.build"), stands in `assumed`.
    [[nodiscard]] bool depends_on_fields(std::string_view field) const;
    /// The adopted edition of a document; "NEC" and "NFPA 70" are one.
    [[nodiscard]] const Code* adopted(std::string_view document) const;
};

/// Reads, validates and fills defaults. Geometry is snapped to the 1/16 in grid.
[[nodiscard]] Result<Survey> read(const std::string& path);
[[nodiscard]] Result<Survey> parse(std::string text, std::string file_name);
/// A commented, runnable starter.
[[nodiscard]] std::string starter();
/// JSON Schema (2020-12) of the survey file.
[[nodiscard]] std::string schema();

}  // namespace bw::survey
