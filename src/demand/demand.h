// SPDX-License-Identifier: MIT
#pragma once
// How much hot water at once, and how many heaters of which model that takes.

#include <array>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "catalogue/catalogue.h"
#include "demand/spread.h"
#include "reason/reason.h"
#include "survey/survey.h"

namespace bw::demand {

using text::Gas;
using namespace bw::units;  // NOLINT

/// One method's answer. Flows are of water at the distribution temperature.
struct Answer {
    std::string id;  ///< "fixture-units", "hourly"
    std::string title;
    std::optional<VolumeFlow> peak;  ///< what must run at once
    std::optional<VolumeFlow> possible_hour, probable_hour;
    std::optional<Volume> storage;
    std::optional<Volume> max_day, average_day;  ///< occupancy use
    bool governs = false;
    std::string says;  ///< why it does or does not govern
    reason::Derivation derivation;
    reason::Sources sources;
};

/// One kind of fixture in the busiest hour.
struct FixtureLoad {
    text::Fixture fixture{};
    int count = 0;
    double busy = 0;       ///< chance that one runs at a moment of the busiest hour
    VolumeFlow drawn{};    ///< as it leaves the tap
    VolumeFlow hot{};      ///< of that, water at the distribution temperature
    std::string why;       ///< where the chance comes from
    bool studied = false;  ///< chance measured in dwellings and this is one, or given by the survey
};

/// A stretch of the day over which the load's law does not change.
struct Stretch {
    int from = 0, to = 0;  ///< minutes from midnight
    double share = 0;      ///< of the busiest hour's chances
    VolumeFlow blocks{};   ///< at the distribution temperature
};

/// How a day's draw runs.
struct Day {
    std::vector<Stretch> stretches;   ///< midnight to midnight
    std::array<double, 24> share{};   ///< of the busiest hour, by the hour
    std::array<Volume, 24> volume{};  ///< hot water drawn in each hour
    Volume total{}, largest_hour{};
    int busiest = 0;   ///< hour
    std::string says;  ///< where shape and size come from
    reason::Derivation derivation;
    reason::Sources sources;
};

/// The fixtures' flow at a moment, for one share of the busiest hour's chances.
struct Level {
    double share = 1;
    Spread spread;
};

struct Demand {
    std::vector<Answer> answers;
    VolumeFlow fixtures{};  ///< peak of fixtures, at the distribution temperature
    VolumeFlow blocks{};    ///< block loads together, at the distribution temperature
    VolumeFlow peak{};      ///< fixtures + blocks
    Power recirculation_loss{};
    VolumeFlow recirculation_flow{};
    Temperature cold{}, hot{};
    std::string governing;     ///< id of the governing answer
    double percentile = 0.99;  ///< asked of the probability method
    std::vector<FixtureLoad> loads;
    std::vector<std::string> without_chance;           ///< fixtures no chance is known for: no part of the distribution
    std::shared_ptr<const std::vector<Level>> levels;  ///< rising share; never null after peak_demand
    Day day;
    reason::Derivation derivation;
};

/// Peak demand by every method built so far. Fails on an empty building.
[[nodiscard]] Result<Demand> peak_demand(const survey::Survey& survey);

/// What one heater gives at the job's rise, altitude and gas.
struct HeaterOutput {
    VolumeFlow flow{};  ///< deliverable: least of heat-limited and greatest flow
    bool limited_by_flow = false;
    VolumeFlow flow_greatest{};  ///< it can pass here, by itself and by the pressure there is
    Power input{};               ///< derated
    Power output{};
    Ratio efficiency = 0;
    Ratio altitude_factor = 1;
    reason::Derivation derivation;
    reason::Sources sources;
};
/// What a heater gives with a share of its output given up to scale, and no more flow than `pressure` may be lost to.
struct HeaterDuty {
    double scale_allowance = 0;
    std::optional<Pressure> pressure;  ///< that the heater may use up; empty: not limited
};
/// Fails above the heater's greatest altitude, for a gas it does not burn, or where the setpoint is past its limit.
[[nodiscard]] Result<HeaterOutput> heater_output(const catalogue::Heater& heater, Temperature cold, Temperature hot,
                                                 Length altitude, Gas gas, const HeaterDuty& duty = {});

/// One model considered.
struct Option {
    std::string heater;  ///< catalogue key
    int needed = 0, spare = 0, installed = 0;
    HeaterOutput each;
    double price = 0;     ///< heaters alone, USD
    std::string refused;  ///< why it is out of the running; empty when it is in
};

/// What so many heaters would mean.
struct RiskPoint {
    int heaters = 0;
    VolumeFlow flow{};          ///< they deliver beside the loop's loss
    double short_chance = 0;    ///< that the demand at a moment of the worst stretch is above it
    double minutes_a_year = 0;  ///< with demand above it
    Temperature coldest{};      ///< leaving them at the percentile's demand, if all of it is let through
};

/// Fewer heaters with a store, for the same day.
struct StoreOption {
    int heaters = 0;
    VolumeFlow recovery{};
    Volume usable{}, tank{};  ///< usable: what must be drawn off hot; tank: whole volume
};

/// Two models together.
struct Mixed {
    std::string first, second;  ///< catalogue keys
    int of_first = 0, of_second = 0;
    VolumeFlow flow{};
    double price = 0;  ///< heaters alone, USD
};

/// Fewest heaters of a curve whose chance of falling short is within `share`; nothing where none is.
[[nodiscard]] std::optional<int> enough_by_chance(const std::vector<RiskPoint>& risk, double share);

struct Capacity {
    std::string heater;  ///< catalogue key chosen
    int needed = 0, spare = 0, installed = 0;
    HeaterOutput each;
    VolumeFlow flow{};            ///< of all installed
    VolumeFlow flow_firm{};       ///< with the spare down
    std::vector<Option> options;  ///< cheapest first among those that fit
    std::string says;             ///< why this model and this number
    reason::Derivation derivation;
    std::vector<RiskPoint> risk;        ///< one heater to installed + 3
    std::vector<StoreOption> stores;    ///< fewest heaters first
    std::optional<Mixed> mixed;         ///< cheapest pair of models, where it is cheaper than one model
    std::vector<reason::Check> advice;  ///< low flow, scale, scald, germs; `design` puts them among the checks
};

/// Number of heaters for one model. Fails with the reason the model cannot serve.
[[nodiscard]] Result<Capacity> capacity_of(const survey::Survey& survey, const Demand& demand,
                                           const catalogue::Catalogue& catalogue, const catalogue::Heater& heater);
/// All models, cheapest first; the survey's preference, when given, is the only one in the running.
[[nodiscard]] Result<Capacity> capacity(const survey::Survey& survey, const Demand& demand,
                                        const catalogue::Catalogue& catalogue);

}  // namespace bw::demand
