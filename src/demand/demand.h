// SPDX-License-Identifier: MIT
#pragma once
// How much hot water at once, and how many heaters of which model that takes.

#include <optional>
#include <string>
#include <vector>

#include "catalogue/catalogue.h"
#include "reason/reason.h"
#include "survey/survey.h"

namespace bw::demand {

using text::Gas;
using namespace bw::units;  // NOLINT

/// One method's answer. Flows are of water at the distribution temperature.
struct Answer {
    std::string id;      ///< "fixture-units", "hourly"
    std::string title;
    std::optional<VolumeFlow> peak;           ///< what must run at once
    std::optional<VolumeFlow> possible_hour, probable_hour;
    std::optional<Volume> storage;
    bool governs = false;
    std::string says;    ///< why it does or does not govern
    reason::Derivation derivation;
    reason::Sources sources;
};

struct Demand {
    std::vector<Answer> answers;
    VolumeFlow fixtures{};     ///< peak of fixtures, at the distribution temperature
    VolumeFlow blocks{};       ///< block loads together, at the distribution temperature
    VolumeFlow peak{};         ///< fixtures + blocks
    Power recirculation_loss{};
    VolumeFlow recirculation_flow{};
    Temperature cold{}, hot{};
    std::string governing;     ///< id of the governing answer
    reason::Derivation derivation;
};

/// Peak demand by every method built so far. Fails on an empty building.
[[nodiscard]] Result<Demand> peak_demand(const survey::Survey& survey);

/// What one heater gives at the job's rise, altitude and gas.
struct HeaterOutput {
    VolumeFlow flow{};          ///< deliverable: least of heat-limited and greatest flow
    bool limited_by_flow = false;
    Power input{};              ///< derated
    Power output{};
    Ratio efficiency = 0;
    Ratio altitude_factor = 1;
    reason::Derivation derivation;
    reason::Sources sources;
};
/// Fails above the heater's greatest altitude, for a gas it does not burn, or where the setpoint is past its limit.
[[nodiscard]] Result<HeaterOutput> heater_output(const catalogue::Heater& heater, Temperature cold, Temperature hot,
                                                 Length altitude, Gas gas);

/// One model considered.
struct Option {
    std::string heater;         ///< catalogue key
    int needed = 0, spare = 0, installed = 0;
    HeaterOutput each;
    double price = 0;           ///< heaters alone, USD
    std::string refused;        ///< why it is out of the running; empty when it is in
};

struct Capacity {
    std::string heater;         ///< catalogue key chosen
    int needed = 0, spare = 0, installed = 0;
    HeaterOutput each;
    VolumeFlow flow{};          ///< of all installed
    VolumeFlow flow_firm{};     ///< with the spare down
    std::vector<Option> options;///< cheapest first among those that fit
    std::string says;           ///< why this model and this number
    reason::Derivation derivation;
};

/// Number of heaters for one model. Fails with the reason the model cannot serve.
[[nodiscard]] Result<Capacity> capacity_of(const survey::Survey& survey, const Demand& demand,
                                           const catalogue::Catalogue& catalogue, const catalogue::Heater& heater);
/// All models, cheapest first; the survey's wish, when given, is the only one in the running.
[[nodiscard]] Result<Capacity> capacity(const survey::Survey& survey, const Demand& demand,
                                        const catalogue::Catalogue& catalogue);

}  // namespace bw::demand
