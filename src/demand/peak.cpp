// SPDX-License-Identifier: MIT
#include <array>

#include "demand/methods.h"
#include "matter/mains_water.h"

namespace bw::demand {

namespace {

using survey::MethodPreference;

/// Which answer's peak the fixtures get, and why. `id` empty: no fixture takes hot water.
struct Ruling {
    std::string id, why;
};

constexpr auto no_store =
    "instantaneous heaters have no store, so what runs at once governs; hot water has no flush valves, so the "
    "flush-tank curve holds whatever the closets are";

Answer* find(Demand& demand, std::string_view id) {
    for (auto& answer : demand.answers)
        if (answer.id == id) return &answer;
    return nullptr;
}

/// A dwelling whose every fixture the study measured, where the code of the study is adopted.
bool studied_dwelling(const survey::Survey& survey, const Demand& demand) {
    const auto building = *survey.use.building;
    const bool home = building == text::Building::apartment || building == text::Building::residence;
    return home && survey.adopted("UPC") && !survey.adopted("IPC") && demand.without_chance.empty() &&
           std::all_of(demand.loads.begin(), demand.loads.end(), [](const FixtureLoad& load) { return load.studied; });
}

/// The study's own practice where little runs: given that something does, so that it is never nothing.
const char* by_chance(const Demand& demand) {
    double running = 0;
    for (const auto& load : demand.loads) running += load.count * load.busy;
    return running < normal_from ? "fixture-probability-conditioned" : "fixture-probability";
}

Ruling automatic(const survey::Survey& survey, Demand& demand) {
    if (studied_dwelling(survey, demand) && find(demand, "fixture-probability"))
        return {
            by_chance(demand),
            "the survey adopts the UPC, whose Appendix M sizes dwellings by it, and every fixture here was studied"};
    const bool by_nspc = survey.adopted("NSPC") && !survey.adopted("IPC");
    if (by_nspc && find(demand, "fixture-units-nspc"))
        return {"fixture-units-nspc", fmt::format("{} (the survey adopts the NSPC)", no_store)};
    if (by_nspc && find(demand, "fixture-units"))
        return {"fixture-units", "there are more units than the adopted NSPC's curve goes to, so the IPC's is read on"};
    if (find(demand, "fixture-units")) return {"fixture-units", no_store};
    if (find(demand, "fixture-probability"))
        return {by_chance(demand), "there are more fixture units than the printed curve goes to"};
    return {};
}

Result<Ruling> ruling(const survey::Survey& survey, Demand& demand) {
    if (demand.answers.empty()) return Ruling{};
    const auto preferred = *survey.use.method;
    if (preferred == MethodPreference::automatic) return automatic(survey, demand);
    const char* id = preferred == MethodPreference::fixture_units        ? "fixture-units"
                     : preferred == MethodPreference::fixture_units_nspc ? "fixture-units-nspc"
                                                                         : by_chance(demand);
    if (!find(demand, id))
        return fail(fmt::format("building.method: {} has no answer for so many fixtures", id),
                    "fixture-probability or automatic");
    if (preferred == MethodPreference::fixture_probability && !demand.without_chance.empty())
        return fail(
            fmt::format("building.method: no chance is known that {} runs", fmt::join(demand.without_chance, ", ")),
            "its share of the busiest hour under building.busy");
    return Ruling{id, "the survey asks for it"};
}

/// A curve of many fixtures says more than a few can draw: physics then governs.
Ruling within_reach(Demand& demand, Ruling ruled) {
    const auto* by_method = find(demand, ruled.id);
    const auto* open = find(demand, "all-open");
    const bool by_units = by_method && ruled.id.starts_with("fixture-units");
    if (!by_units || !open || *by_method->peak <= *open->peak) return ruled;
    return {open->id, fmt::format("{} gives {}, which is more than every fixture wide open draws: {}", by_method->title,
                                  say(*by_method->peak), say(*open->peak))};
}

/// The readings of the same fixtures side by side, and the one taken.
reason::Step side_by_side(const Demand& demand) {
    reason::Step step{.says =
                          "Readings of the same fixtures, the one taken last; the survey's building.method names "
                          "another where the designer and the code official choose so (IPC E101, E103)",
                      .formula = "Vf = the governing one, never above Va",
                      .given = {},
                      .result = {}};
    constexpr std::array<std::pair<const char*, const char*>, 4> all{
        {{"fixture-units", "Vc"}, {"fixture-units-nspc", "Vn"}, {"fixture-probability", "Vp"}, {"all-open", "Va"}}};
    for (const auto& [id, symbol] : all)
        for (const auto& answer : demand.answers)
            if (answer.id == id) step.given.push_back({symbol, answer.title, units::amount(*answer.peak)});
    step.result = reason::Term{"Vf", "fixtures", units::amount(demand.fixtures)};
    return step;
}

/// Gives the distribution of the busiest hour.
Result<Spread> take_fixtures(const survey::Survey& survey, Demand& out) {
    auto units = fixture_unit_answers(survey);
    if (!units) return tl::unexpected(units.error());
    out.answers = std::move(*units);
    auto loads = fixture_loads(survey);
    if (!loads) return tl::unexpected(loads.error());
    out.loads = loads->loads;
    out.without_chance = loads->without_chance;
    auto spread = spread_of(out.loads, 1);
    if (!spread) return tl::unexpected(spread.error());
    for (auto& answer : probability_answers(*loads, *spread, out.percentile)) out.answers.push_back(std::move(answer));
    auto open = all_open_answer(survey);
    if (!open) return tl::unexpected(open.error());
    if (*open) out.answers.push_back(std::move(**open));
    auto ruled = ruling(survey, out);
    if (!ruled) return tl::unexpected(ruled.error());
    *ruled = within_reach(out, *ruled);
    if (auto* governing = find(out, ruled->id)) {
        governing->governs = true;
        governing->says = ruled->why;
        out.fixtures = *governing->peak;
        out.governing = governing->id;
        out.derivation = governing->derivation;
        out.derivation.push_back(side_by_side(out));
    } else if (!out.answers.empty()) {
        return fail("no method has an answer for so many fixtures", "fewer fixtures, or chances under building.busy");
    }
    return spread;
}

void take_blocks(Demand& out, const std::optional<BlockLoads>& blocks) {
    if (!blocks) return;
    const auto& answer = blocks->answer;
    out.blocks = *answer.peak;
    if (out.governing.empty()) out.governing = answer.id;
    out.derivation.insert(out.derivation.end(), answer.derivation.begin(), answer.derivation.end());
    out.answers.push_back(answer);
}

Result<void> take_hours(const survey::Survey& survey, Demand& out) {
    for (auto* method : {&hourly_answer, &occupancy_answer}) {
        auto answer = (*method)(survey);
        if (!answer) return tl::unexpected(answer.error());
        if (*answer) out.answers.push_back(std::move(**answer));
    }
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

/// How the coldest water was found, where it was found from the year's air.
void take_cold(const survey::Survey& survey, Demand& out) {
    if (!survey.supply.coldest.assumed || !survey.supply.mean_air || !survey.supply.air_swing) return;
    const matter::MainsClimate climate{*survey.supply.mean_air, *survey.supply.air_swing, survey.supply.southern};
    const auto coldest = matter::coldest_mains(climate);
    if (!coldest) return;
    auto steps = matter::mains_derivation(climate, coldest->day);
    if (steps) out.derivation.insert(out.derivation.begin(), steps->begin(), steps->end());
}

Result<void> take_day(const survey::Survey& survey, Demand& out, const std::optional<BlockLoads>& blocks,
                      Spread busiest) {
    out.day = day_of(survey, out, blocks);
    auto levels = levels_of(out.loads, out.day, std::move(busiest));
    if (!levels) return tl::unexpected(levels.error());
    out.levels = std::make_shared<const std::vector<Level>>(std::move(*levels));
    return {};
}

}  // namespace

Result<Demand> peak_demand(const survey::Survey& survey) {
    Demand out;
    out.cold = *survey.supply.coldest;
    out.hot = *survey.temperatures.distribution;
    out.percentile = *survey.use.percentile;
    if (!(out.hot > out.cold))
        return fail("hot water of " + say(out.hot) + " is not above cold water of " + say(out.cold),
                    "a hotter setpoint");
    if (!(out.percentile > 0.5 && out.percentile < 1))
        return fail(fmt::format("a percentile of {:g}", 100 * out.percentile), "between 50 and 100, such as 99");
    auto busiest = take_fixtures(survey, out);
    if (!busiest) return tl::unexpected(busiest.error());
    auto blocks = block_loads(survey, busiest_hour(*survey.use.building));
    if (!blocks) return tl::unexpected(blocks.error());
    take_blocks(out, *blocks);
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
    take_cold(survey, out);
    if (auto ok = take_hours(survey, out); !ok) return tl::unexpected(ok.error());
    if (auto ok = take_loop(survey, out); !ok) return tl::unexpected(ok.error());
    if (auto ok = take_day(survey, out, *blocks, std::move(*busiest)); !ok) return tl::unexpected(ok.error());
    return out;
}

}  // namespace bw::demand
