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
#include "piping/piping.h"
#include "plant/layout.h"
#include "reason/reason.h"
#include "survey/survey.h"

namespace bw::design {

struct Tally {
    int pass = 0, tight = 0, fail = 0, refer = 0;
};
[[nodiscard]] Tally tally(const std::vector<reason::Check>& checks);

/// A plant proved and priced.
struct Proved {
    plant::Layout layout;
    demand::Capacity capacity;
    piping::Built built;
    std::vector<reason::Check> checks;  ///< moved to Result::checks once chosen
    make::Estimate estimate;
};

struct Candidate {
    std::string layout;  ///< id
    std::string heater;  ///< catalogue key
    int heaters = 0;
    double floor_length = 0;  ///< metres
    double parts_cost = 0;    ///< USD
    double total_cost = 0;    ///< USD, with labour and mark-up
    Tally tally;
    std::string refused;  ///< why it could not be built; empty when it could
    bool chosen = false;
};

struct Result {
    survey::Survey survey;
    demand::Demand demand;
    demand::Capacity capacity;
    std::vector<plant::Shortfall> shortfalls;
    std::vector<Candidate> candidates;  ///< those built and proved, best first
    std::optional<Proved> chosen;       ///< empty: no layout fits; `checks` then holds the failing `layout.fit`
    std::vector<reason::Check> checks;  ///< of the chosen plant, or the failing layout.fit alone

    [[nodiscard]] int exit_status() const;  ///< 0, or 2 when a check fails or nothing fits
};

struct Effort {
    int candidates = 2;   ///< layouts of a model to build before choosing; more only until one passes every check
    int most_tried = 10;  ///< layouts of a model tried at all: a room where none passes is said so in a moment
    std::function<bool(int)> go_on = {};  ///< asked before each layout, with the number tried so far; false: stop
};

/// Survey to proved plant. Fails only where demand or capacity has no answer, or when told to stop.
[[nodiscard]] bw::Result<Result> run(const survey::Survey& survey, const catalogue::Catalogue& catalogue,
                                     Effort effort = {});

/// One layout of one model, as `run` would give it were there no other. Fails also where the model cannot serve, the
/// layout is not among those that fit, or it cannot be built.
[[nodiscard]] bw::Result<Result> run_layout(const survey::Survey& survey, const catalogue::Catalogue& catalogue,
                                            const std::string& heater, const std::string& layout);

inline constexpr const char* result_format = "bankwright-result-1";
inline constexpr const char* compare_format = "bankwright-compare-1";

/// The result document (`format` names its version), quantities in one unit system, ending in a newline.
[[nodiscard]] std::string to_json(const Result& result, units::System system);
/// The candidates alone.
[[nodiscard]] std::string compare_json(const Result& result, units::System system);

}  // namespace bw::design
