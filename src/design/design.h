// SPDX-License-Identifier: MIT
#pragma once
// The whole job as one pure function of survey and catalogue.

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "catalogue/catalogue.h"
#include "demand/demand.h"
#include "make/parts.h"
#include "network/hydraulics.h"
#include "piping/piping.h"
#include "plant/layout.h"
#include "reason/reason.h"
#include "survey/survey.h"

namespace bw::design {

struct Tally {
    int pass = 0, tight = 0, fail = 0, refer = 0;
};
[[nodiscard]] Tally tally(const std::vector<reason::Check>& checks);

/// A plant solved, proved and priced.
struct Proved {
    plant::Layout layout;
    demand::Capacity capacity;
    piping::Built built;
    network::Hydraulics hydraulics;
    std::vector<reason::Check> checks;  ///< moved to Result::checks once chosen
    make::Estimate estimate;
};

struct Candidate {
    std::string layout;  ///< id
    std::string heater;  ///< catalogue key
    int heaters = 0;
    double floor_length = 0;          ///< metres
    double floor_area = 0;            ///< m2, working space included
    double parts_cost = 0;            ///< USD
    double total_cost = 0;            ///< USD, with labour and mark-up
    double run = 0;                   ///< metres of pipe and vent, all services
    std::optional<double> shortfall;  ///< of the least favoured heater's flow, share; empty where it is not solved
    Tally tally;
    std::string refused;       ///< why it could not be built; empty when it could
    bool undominated = false;  ///< no other built one is as good in every way and better in one: see `mark_undominated`
    bool chosen = false;
};

/// Marks the candidates that none other betters in all of: failing checks, cost, floor area, run of pipe, shortfall of
/// the least favoured heater. Differences under 100 USD, 0.1 m2, 1 m and 1 % are none.
void mark_undominated(std::vector<Candidate>& candidates);

struct Result {
    survey::Survey survey;
    demand::Demand demand;
    demand::Capacity capacity;
    std::vector<plant::Shortfall> shortfalls;
    int weighed = 0;  ///< layouts that fit the room, of all models, of which the candidates were tried
    std::vector<Candidate> candidates;  ///< those tried: built ones first, best first
    std::optional<Proved> chosen;       ///< empty: no layout fits; `checks` then holds the failing `layout.fit`
    std::vector<reason::Check> checks;  ///< of the chosen plant, or the failing layout.fit alone

    [[nodiscard]] int exit_status() const;  ///< 0, or 2 when a check fails or nothing fits
};

/// How hard to look.
struct Effort {
    int candidates = 1;   ///< layouts of a model to build before choosing; more only until one passes every check
    int most_tried = 10;  ///< layouts of a model tried at all: a room where none passes is said so in a moment
    int further = 0;      ///< more layouts of a model tried where no plant passes, until one does
    int threads = 1;      ///< that build side by side; the answer is the same with any number
    std::function<bool(int)> go_on =
        {};  ///< asked before each layout, or few side by side, with the number tried; false: stop
};
/// For a choice to build from: two dozen layouts of every model.
[[nodiscard]] Effort wide();

/// Survey to proved plant. Fails only where demand or capacity has no answer, or when told to stop.
[[nodiscard]] bw::Result<Result> run(const survey::Survey& survey, const catalogue::Catalogue& catalogue,
                                     const Effort& effort = {});

/// One layout of one model, as `run` would give it were there no other. Fails also where the model cannot serve, the
/// layout does not fit, or it cannot be built. The same with any number of threads, and with anything laid before.
[[nodiscard]] bw::Result<Result> run_layout(const survey::Survey& survey, const catalogue::Catalogue& catalogue,
                                            const std::string& heater, const std::string& layout, int threads = 1,
                                            piping::PlantCache* before = nullptr);

inline constexpr const char* result_format = "bankwright-result-1";
inline constexpr const char* compare_format = "bankwright-compare-1";

/// The result document (`format` names its version), quantities in one unit system, ending in a newline.
[[nodiscard]] std::string to_json(const Result& result, units::System system);
/// The candidates alone.
[[nodiscard]] std::string compare_json(const Result& result, units::System system);

}  // namespace bw::design
