// SPDX-License-Identifier: MIT
// The loop's checks: heat against what is allowed for it, the pump, the balance of its branches, velocities.
#include <map>

#include "code/water.h"
#include "matter/pipe_heat.h"
#include "proof/checks.h"
#include "proof/water/loop_branches.h"
#include "reason/document.h"

namespace bw::proof {
namespace {

using namespace bw::units;  // NOLINT: quantity names

Amount feet(Length length) { return amount(length, Kind::long_length); }

Source insulation_code() { return reason::cite(reason::Document::ashrae_90_1, "Table 6.8.3-1", Standing::memory); }

Sources heat_sources() {
    auto sources = matter::pipe_heat_sources();
    sources.push_back(insulation_code());
    return sources;
}

void rests_on_loop(Check& check, const View& view) {
    depends_on_fields(check, view.survey,
                      {"water.distribution", "recirculation.loss", "recirculation.drop", "recirculation.branch"});
}

/// What the plant's own pipe loses, insulated as the energy code asks: nothing in the plant shows that it will be.
Power insulation(const View& view, Checks& checks) {
    auto check = new_check("water.insulation", heat_sources());
    depends_on_fields(check, view.survey, {"water.distribution", "recirculation.drop"});
    const auto pipes = warm_pipes(view);
    if (!pipes) {
        checks.push_back(
            holds(std::move(check), false, {}, fmt::format("Its heat is not found: {}.", describe(pipes.error()))));
        return {};
    }
    Power loss{}, bare{};
    for (const auto& pipe : *pipes) {
        step(check,
             fmt::format("{} pipe {}, fittings by their centre lines, still air at 70 degF, mineral fibre.",
                         pipe.service == Service::hot ? "Hot" : "Return", units::print(pipe.size)),
             {},
             {{"t", "water", amount(pipe.water)},
              {"L", "length", feet(pipe.length)},
              {"e", "least thickness by the energy code", amount(pipe.thickness, Kind::small_length)}},
             Term{"H", "heat lost", amount(pipe.loss)});
        loss += pipe.loss;
        bare += pipe.bare;
    }
    check.value = amount(loss);
    checks.push_back(reason::referred(
        std::move(check),
        fmt::format("Insulated to the energy code's least the plant's own pipe loses {}, bare it would lose {}. The "
                    "contractor insulates it, as thick as the working says or thicker; the inspector looks.",
                    us(amount(loss)), us(amount(bare)))));
    return loss;
}

/// Branches with less insulation than the energy code asks of new pipe.
std::string thin(const Branches& branches) {
    std::string names;
    for (const auto& b : branches.at)
        if (b.insulation < b.code_insulation) names += (names.empty() ? "" : ", ") + b.branch->name;
    return names;
}

/// Heat found from the branches against what the heaters and the pump were sized for.
void heat(const View& view, const Branches& branches, Power own, Checks& checks) {
    auto check = new_check("water.recirculation-loss", matter::pipe_heat_sources());
    rests_on_loop(check, view);
    const auto below = thin(branches);
    const bool by_code = std::any_of(branches.at.begin(), branches.at.end(),
                                     [](const BranchFigures& b) { return b.branch->insulation.assumed; });
    if (by_code || !below.empty()) check.sources.push_back(insulation_code());
    for (const auto& b : branches.at)
        step(check, fmt::format("{}: out and back.", b.branch->name), {},
             {{"L1", "out", feet(b.branch->length)},
              {"e1", "its insulation", amount(b.insulation, Kind::small_length)},
              {"L2", "back", feet(*b.branch->return_length)},
              {"e2", "its insulation", amount(b.return_insulation, Kind::small_length)}},
             Term{"H", "heat lost", amount(b.loss)});
    step(check, "The plant's own pipe.", {}, {}, Term{"H0", "heat lost", amount(own)});
    const auto whole = branches.loss + own, allowed = view.demand.recirculation_loss;
    check.says = whole <= allowed ? "The heaters were chosen with this heat counted."
                                  : fmt::format(
                                        "{} more than recirculation.loss in the survey: put {} there, or "
                                        "thicker insulation.",
                                        us(amount(whole - allowed)), us(amount(whole)));
    if (!below.empty()) check.says += fmt::format(" Thinner than the energy code asks of new pipe: {}.", below);
    checks.push_back(at_most(std::move(check), amount(whole), amount(allowed)));
}

void plant_told(Check& check, const View& view, const PlantWay& plant, const matter::Water& water) {
    step(check, "The return's pieces in the plant, pump left out, by Darcy-Weisbach.", {},
         {{"V", "loop flow", amount(view.demand.recirculation_flow)}},
         Term{"h1", "head", feet(head_of(plant.back, water))});
    step(check,
         fmt::format("From there through {} open heater{} to the delivery, by heater {}, the hardest; solved as a "
                     "network.",
                     plant.open, plant.open == 1 ? "" : "s", plant.heater),
         {}, {}, Term{"h2", "head", feet(head_of(plant.onward, water))});
}

/// The cheapest pump of the catalogue that gives the head at the flow.
std::string better_pump(const View& view, Length head) {
    const auto* best = network::pump_for(view.catalogue, view.demand.recirculation_flow, head);
    return best ? fmt::format("{} would do.", best->key)
                : "No pump of the catalogue does: larger return pipe, or two pumps in line.";
}

/// The pump against all that is known of the loop.
void duty(const View& view, const PlantWay& plant, std::optional<Length> building, std::string_view from,
          const PumpCurve& pump, const matter::Water& water, Check check, Checks& checks) {
    const auto flow = view.demand.recirculation_flow;
    const auto gives = pump.at(flow), own = head_of(plant.whole(), water);
    plant_told(check, view, plant, water);
    if (!building) {
        step(check, "The pump at that flow, by its curve.", {}, {}, Term{"hp", "head", feet(gives)});
        check.value = feet(gives - own);
        if (gives < own) {
            check.says = fmt::format("The plant's own way takes {} more than the pump gives at {}. {}",
                                     us(feet(own - gives)), us(amount(flow)), better_pump(view, own));
            checks.push_back(at_least(std::move(check), feet(gives), feet(own)));
            return;
        }
        checks.push_back(reason::referred(
            std::move(check),
            fmt::format("The building's loop was not surveyed. At {} the pump leaves {} for it after the plant's own "
                        "{}: whoever designs the loop confirms that it takes no more.",
                        us(amount(flow)), us(feet(gives - own)), us(feet(own)))));
        return;
    }
    const auto needed = own + *building;
    step(check, std::string(from), "h = h1 + h2 + h3", {{"h3", "the building's loop", feet(*building)}},
         Term{"h", "head needed", feet(needed)});
    check.says = gives >= needed ? "The pump moves the loop's flow; what it gives above that the valves take."
                                 : fmt::format("It lacks {} at {}. {}", us(feet(needed - gives)), us(amount(flow)),
                                               better_pump(view, needed));
    checks.push_back(at_least(std::move(check), feet(gives), feet(needed)));
}

/// Flow of the least favoured branch over what it needs, valves set.
void balance(const View& view, const Branches& branches, Checks& checks) {
    auto check = new_check("water.recirculation-balance",
                           {practice(),
                            {"Todini and Pilati", "1988", "gradient method for pipe networks", Standing::computed},
                            {"Darcy-Weisbach, friction by Colebrook 1939", "", "", Standing::computed}});
    rests_on_loop(check, view);
    double least = 1e9;
    std::size_t worst = 0;
    for (std::size_t i = 0; i < branches.at.size(); ++i) {
        const auto& b = branches.at[i];
        step(check,
             branches.unset_refused.empty()
                 ? fmt::format("{}: with every valve wide open {} flow and come back at {}; set, {} at {}.",
                               b.branch->name, us(amount(b.unset)), us(amount(b.back_unset)), us(amount(b.set)),
                               us(amount(b.back)))
                 : fmt::format("{}: set, {} flow and come back at {}.", b.branch->name, us(amount(b.set)),
                               us(amount(b.back))),
             "Cv = V sqrt(s / dp)",
             {{"V", "flow it needs by its heat", amount(b.needed)},
              {"hp", "its pipes take", amount(b.pipe)},
              {"dp", "its valve takes", amount(b.valve)},
              {"Cv0", "wide open, gpm at 1 psi", number(b.open)}},
             Term{"Cv", "setting, gpm at 1 psi", number(b.setting)});
        const double share = (b.set / b.needed).value();
        if (share < least) worst = i;
        least = std::min(least, share);
    }
    if (!branches.unset_refused.empty())
        step(check, "With every valve wide open there is no answer: " + branches.unset_refused + ".");
    const auto& b = branches.at[worst];
    const auto& hardest = *branches.at[branches.hardest].branch;
    check.says = least >= 1
                     ? fmt::format(
                           "{} comes back coldest, at {}. Settings stand in the working; whoever starts the "
                           "plant up sets and measures them.",
                           branches.at[branches.coldest].branch->name, us(amount(branches.at[branches.coldest].back)))
                     : fmt::format(
                           "{} gets {} of the {} it needs and comes back at {}. More head from the pump, or a "
                           "return larger than {} on {}, which takes most.",
                           b.branch->name, us(amount(b.set)), us(amount(b.needed)), us(amount(b.back)),
                           units::print(*hardest.return_size), hardest.name);
    checks.push_back(at_least(std::move(check), percent(least), percent(1)));
}

struct Fast {
    Velocity velocity{}, limit{};
    std::string where, rule;
    Source source;
};

Fast fast(const View& view, Velocity velocity, Material material, std::string where) {
    Fast out{velocity, {}, std::move(where), {}, practice()};
    if (const auto rule = code::loop_velocity_limit(material, view.demand.hot)) {
        out.limit = rule->value;
        out.rule = rule->says;
        out.source = rule->source;
    }
    return out;
}

void velocity(const View& view, const PlantWay& plant, const Branches* branches, Checks& checks) {
    std::vector<Fast> all;
    if (plant.fastest_piece >= 0)
        all.push_back(fast(view, plant.fastest, view.material(plant.fastest_piece).value_or(Material::copper_l),
                           view.name(plant.fastest_piece)));
    for (std::size_t i = 0; branches && i < branches->at.size(); ++i)
        all.push_back(
            fast(view, branches->at[i].fastest, *branches->at[i].branch->material, branches->at[i].branch->name));
    const Fast* worst = nullptr;
    for (const auto& one : all)
        if (one.limit.value() > 0 && (!worst || one.velocity / one.limit > worst->velocity / worst->limit))
            worst = &one;
    if (!worst) return;
    auto check = new_check("water.recirculation-velocity", {worst->source});
    rests_on_loop(check, view);
    about(check, view, {plant.fastest_piece});
    check.says = fmt::format("Fastest in {}. {}", worst->where, worst->rule);
    if (worst->velocity > worst->limit)
        check.says += fmt::format(" {} times the bore would do, or less flow.",
                                  us(number(std::sqrt((worst->velocity / worst->limit).value()))));
    checks.push_back(at_most(std::move(check), amount(worst->velocity), amount(worst->limit)));
}

Check drafted_duty(const View& view) {
    auto check = new_check("water.recirculation-duty",
                           {practice(), {"Darcy-Weisbach, friction by Colebrook 1939", "", "", Standing::computed}});
    depends_on_fields(check, view.survey, {"recirculation.flow", "recirculation.loss", "recirculation.drop"});
    step(check, "Flow that carries the loop's heat at its drop.", {},
         {{"Q", "heat lost by the loop", amount(view.demand.recirculation_loss)},
          {"dT", "drop", amount(*view.survey.recirculation.drop)}},
         Term{"V", "loop flow", amount(view.demand.recirculation_flow)});
    return check;
}

}  // namespace

std::optional<Temperature> check_loop(const View& view, const LoopWay& way, Checks& checks) {
    const auto own = insulation(view, checks);
    const auto pumps = way.of(view, Part::pump);
    auto check = drafted_duty(view);
    about(check, view, pumps);
    const auto& loop = view.survey.recirculation;
    const auto plant = plant_way(view, way);
    const auto water = matter::water(view.demand.hot - *loop.drop);
    const auto* row = pumps.empty() ? nullptr : view.item(pumps.front());
    if (!plant || !water || !row) {
        const auto why = !row ? "no pump stands on the loop" : describe(plant ? water.error() : plant.error());
        checks.push_back(holds(std::move(check), false, {}, fmt::format("The loop is not solved: {}.", why)));
        return {};
    }
    check.sources.insert(check.sources.end(), row->sources.begin(), row->sources.end());
    const auto curve = network::pump_curve(*row);
    if (loop.branches.empty()) {
        duty(view, *plant, loop.head, "The building's loop, as its designer gives it.", curve, *water, std::move(check),
             checks);
        velocity(view, *plant, nullptr, checks);
        return {};
    }
    const auto branches = loop_branches(view, plant->whole(), curve);
    if (!branches) {
        checks.push_back(holds(std::move(check), false, {},
                               fmt::format("The building's loop is not solved: {}.", describe(branches.error()))));
        return {};
    }
    heat(view, *branches, own, checks);
    const auto& hardest = branches->at[branches->hardest];
    duty(view, *plant, head_of(branches->index, *water),
         fmt::format("The building's loop by {}, which takes most, its valve wide open.", hardest.branch->name), curve,
         *water, std::move(check), checks);
    balance(view, *branches, checks);
    velocity(view, *plant, &*branches, checks);
    return branches->at[branches->coldest].back;
}

}  // namespace bw::proof
