// SPDX-License-Identifier: MIT
#include "demand/methods.h"

namespace bw::demand {

namespace {

void take(Demand& out, Answer answer) {
    if (answer.governs) out.derivation.insert(out.derivation.end(), answer.derivation.begin(), answer.derivation.end());
    out.answers.push_back(std::move(answer));
}

Result<void> take_fixtures(const survey::Survey& survey, Demand& out) {
    auto answers = fixture_unit_answers(survey);
    if (!answers) return tl::unexpected(answers.error());
    for (auto& answer : *answers) {
        if (answer.governs) {
            out.fixtures = *answer.peak;
            out.governing = answer.id;
        }
        take(out, std::move(answer));
    }
    return {};
}

Result<void> take_blocks(const survey::Survey& survey, Demand& out) {
    auto blocks = block_answer(survey);
    if (!blocks) return tl::unexpected(blocks.error());
    if (!*blocks) return {};
    out.blocks = *(*blocks)->peak;
    if (out.governing.empty()) out.governing = (*blocks)->id;
    take(out, std::move(**blocks));
    return {};
}

Result<void> take_loop(const survey::Survey& survey, Demand& out) {
    auto loop = loop_load(survey);
    if (!loop) return tl::unexpected(loop.error());
    out.recirculation_loss = loop->loss;
    out.recirculation_flow = loop->flow;
    out.derivation.insert(out.derivation.end(), loop->derivation.begin(), loop->derivation.end());
    return {};
}

}  // namespace

Result<Demand> peak_demand(const survey::Survey& survey) {
    Demand out;
    out.cold = *survey.supply.coldest;
    out.hot = *survey.temperatures.distribution;
    if (!(out.hot > out.cold))
        return fail("hot water of " + say(out.hot) + " is not above cold water of " + say(out.cold),
                    "a hotter setpoint");
    if (auto ok = take_fixtures(survey, out); !ok) return tl::unexpected(ok.error());
    if (auto ok = take_blocks(survey, out); !ok) return tl::unexpected(ok.error());
    out.peak = out.fixtures + out.blocks;
    if (!(out.peak.value() > 0)) {
        bool people = !survey.use.occupancies.empty();
        return fail(people ? "people are counted but no fixture or block that takes hot water"
                           : "the building has no fixture or block that takes hot water",
                    "at least one under building.fixtures or building.block");
    }
    out.derivation.push_back(
        {"What may run at once",
         "V = Vf + Vb",
         {{"Vf", "fixtures", units::amount(out.fixtures)}, {"Vb", "block loads", units::amount(out.blocks)}},
         reason::Term{"V", "peak flow at the distribution temperature", units::amount(out.peak)}});
    auto hourly = hourly_answer(survey);
    if (!hourly) return tl::unexpected(hourly.error());
    if (*hourly) take(out, std::move(**hourly));
    if (auto ok = take_loop(survey, out); !ok) return tl::unexpected(ok.error());
    return out;
}

}  // namespace bw::demand
