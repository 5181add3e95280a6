// SPDX-License-Identifier: MIT
// Velocity in every line, pressure at and after every heater, and flow within each heater's range, at the peak.
#include <map>

#include "code/water.h"
#include "proof/checks.h"
#include "proof/water/water_run.h"
#include "reason/document.h"
#include "units/constants.h"

namespace bw::proof {
namespace {

using namespace bw::units;  // NOLINT: quantity names

Sources method() {
    return {{"Darcy-Weisbach, friction by Colebrook 1939", "", "", Standing::computed},
            {"Copper Tube Handbook", "", "", Standing::memory}};
}

Temperature of(const View& view, Service service) {
    return service == Service::cold ? view.demand.cold : view.demand.hot;
}

/// The fastest pipe of one line of the plant, by its share of the limit.
struct Fastest {
    int passage = -1;
    Velocity velocity{}, limit{};
    Source source;
    std::string says;
};

std::string line_of(const Piece& piece, Service service) {
    const auto bank = piece.bank > 0 ? fmt::format("bank-{}", piece.bank) : std::string("main");
    return fmt::format("{}.{}{}", bank, text::name(service), piece.heater > 0 ? "-branch" : "");
}

std::map<std::string, Fastest> fastest(const View& view, Service service, const WaterRun& run) {
    std::map<std::string, Fastest> lines;
    std::map<Material, Result<code::Clause<Velocity>>> limits;
    const auto& traversals = view.tree(service)->traversals;
    for (std::size_t i = 0; i < traversals.size(); ++i) {
        const auto* row = view.pipe(traversals[i].piece);
        if (!row || run.at[i].flow.value() <= 0) continue;
        const auto limit =
            limits.try_emplace(row->material, code::water_velocity_limit(row->material, of(view, service)))
                .first->second;
        if (!limit) continue;
        auto& line = lines[line_of(view.piece(traversals[i].piece), service)];
        if (line.passage >= 0 && run.at[i].velocity / limit->value <= line.velocity / line.limit) continue;
        line = {static_cast<int>(i), run.at[i].velocity, limit->value, limit->source, limit->says};
    }
    return lines;
}

/// The heater whose way loses most; 0 when none is reached.
int hardest(const View& view, Service service, const WaterRun& run) {
    const auto& leaf = view.tree(service)->leaf;
    int worst = 0;
    for (int n = 1; n <= static_cast<int>(leaf.size()); ++n) {
        const int here = leaf[static_cast<std::size_t>(n) - 1];
        if (here < 0) continue;
        const int most = worst > 0 ? leaf[static_cast<std::size_t>(worst) - 1] : -1;
        if (most < 0 || run.at[static_cast<std::size_t>(here)].so_far > run.at[static_cast<std::size_t>(most)].so_far)
            worst = n;
    }
    return worst;
}

/// What each line takes on the hardest way, pipe and fittings.
std::map<std::string, Pressure> losses(const View& view, Service service, const WaterRun& run, int heater) {
    std::map<std::string, Pressure> lost;
    const auto& tree = *view.tree(service);
    for (const int at : network::path_to(tree, heater)) {
        const auto& piece = view.piece(tree.traversals[static_cast<std::size_t>(at)].piece);
        lost[line_of(piece, service)] += run.at[static_cast<std::size_t>(at)].lost;
    }
    return lost;
}

void velocities(const View& view, Service service, const WaterRun& run, Checks& checks) {
    const int farthest = hardest(view, service, run);
    const auto lost = losses(view, service, run, farthest);
    for (const auto& [name, line] : fastest(view, service, run)) {
        const auto at = static_cast<std::size_t>(line.passage);
        const auto& piece = view.piece(view.tree(service)->traversals[at].piece);
        auto check = new_check("water.velocity.<line>", {line.source}, {{"line", name, plant::in_words(name)}});
        about(check, view, {view.tree(service)->traversals[at].piece});
        check.says = line.says;
        step(check, "At the peak, the spare down.", "v = 4 V / (pi D^2)",
             {{"V", "flow", amount(run.at[at].flow)},
              {"D", "inside diameter", amount(piece.bore * metre, Kind::small_length)}},
             Term{"v", "velocity", amount(line.velocity)});
        if (const auto here = lost.find(name); here != lost.end())
            step(check, fmt::format("Lost in this line on the hardest way, to heater {}.", farthest),
                 "dp = sum (f L / D + K) rho v^2 / 2", {{"rho", "density", amount(run.water.density)}},
                 Term{"dp", "pressure lost", amount(here->second)});
        checks.push_back(at_most(std::move(check), amount(line.velocity), amount(line.limit)));
    }
}

/// A column of the service's water from one height up to another.
Pressure column(const WaterRun& run, double from, double to) {
    return run.water.density.value() * units::standard_gravity * (to - from) * pascal;
}

double height(const View& view, PortRef port) { return port.piece < 0 ? 0 : view.plant.at(port).at.z; }

double height(const View& view, std::string_view site) {
    const int at = view.plant.find(site);
    return at < 0 ? 0 : height(view, PortRef{at, 0});
}

struct Way {
    int heater = 0;
    Pressure cold{}, through{}, hot{}, lift{};
    [[nodiscard]] Pressure lost() const { return cold + through + hot; }
};

Pressure at_leaf(const View& view, Service service, const WaterRun& run, int number) {
    const int leaf = view.tree(service)->leaf[static_cast<std::size_t>(number) - 1];
    return run.at[static_cast<std::size_t>(leaf)].so_far;
}

bool reached(const View& view, Service service, int number) {
    const auto& leaf = view.tree(service)->leaf;
    return number <= static_cast<int>(leaf.size()) && leaf[static_cast<std::size_t>(number) - 1] >= 0;
}

/// Pressure left on the supply once a reducing valve is passed.
Pressure supply(const View& view) {
    Pressure at = *view.survey.supply.pressure;
    for (const int reducer : view.of(Part::pressure_reducer))
        if (const auto outlet = view.number(reducer, "outlet"); outlet && view.piece(reducer).service == Service::cold)
            at = std::min(at, *outlet * pascal);
    return at;
}

void at_heater(const View& view, int n, const WaterRun& cold, Checks& checks) {
    auto check = new_check("water.pressure.heater-<n>", method(), {{"n", n}});
    check.sources.insert(check.sources.end(), view.heater.sources.begin(), view.heater.sources.end());
    about(check, view, {view.heater_piece(n)});
    depends_on_fields(check, view.survey, {"supply.pressure"});
    if (!reached(view, Service::cold, n)) {
        checks.push_back(holds(std::move(check), false, {}, fmt::format("heater {} is not reached by cold water.", n)));
        return;
    }
    const auto lost = at_leaf(view, Service::cold, cold, n);
    const auto rise = column(cold, height(view, "site.cold"), height(view, view.heater_port(n, "cold")));
    const auto left = supply(view) - lost - rise;
    step(check, "What the cold pipe, its fittings and the rise leave.", "p = p0 - dp - rho g h",
         {{"p0", "static pressure after any reducing valve", amount(supply(view))},
          {"dp", "lost in pipe and fittings", amount(lost)},
          {"rho g h", "rise", amount(rise)}},
         Term{"p", "pressure at the heater", amount(left)});
    check.says = "The heater needs at least this to fire.";
    checks.push_back(at_least(std::move(check), amount(left), amount(view.heater.water_pressure_least)));
}

void flow_range(const View& view, Checks& checks) {
    const auto each = water_flow_each(view);
    auto check = new_check("water.flow", view.heater.sources);
    step(check, "The peak shared by the heaters that run with the spare down.",
         "Vh = V / (n - s), never above what a heater delivers",
         {{"V", "peak", amount(view.demand.peak)},
          {"n", "heaters", count(view.heaters())},
          {"s", "spare", count(view.capacity.spare)}},
         Term{"Vh", "share", amount(each)});
    check.says = "Faster water would leave too cool and wear the heat exchanger.";
    checks.push_back(at_most(std::move(check), amount(each), amount(view.heater.flow_greatest)));
    auto least = new_check("water.flow-least", view.heater.sources);
    least.says = "Below it a heater does not light; small draws are taken by one heater at a time.";
    checks.push_back(at_least(std::move(least), amount(each), amount(view.heater.flow_least)));
}

void left_over(const View& view, const std::vector<Way>& ways, Checks& checks) {
    const auto worst =
        std::max_element(ways.begin(), ways.end(), [](const Way& a, const Way& b) { return a.lost() < b.lost(); });
    auto check = new_check("water.pressure.left", method());
    const auto wanted = code::mixing_valve_pressure();
    check.sources.push_back(wanted.source);
    about(check, view, {view.plant.find("site.hot"), view.heater_piece(worst->heater)});
    depends_on_fields(check, view.survey, {"supply.pressure"});
    const auto left = supply(view) - worst->lost() - worst->lift;
    step(check, fmt::format("By way of heater {}, the longest.", worst->heater), "p = p0 - dpc - dph - dpw - rho g h",
         {{"p0", "static pressure after any reducing valve", amount(supply(view))},
          {"dpc", "cold pipe and fittings", amount(worst->cold)},
          {"dph", "through the heater", amount(worst->through)},
          {"dpw", "hot pipe and fittings", amount(worst->hot)},
          {"rho g h", "rise", amount(worst->lift)}},
         Term{"p", "pressure left", amount(left)});
    check.says = "The height and pipe of the building still come off this.";
    checks.push_back(at_least(std::move(check), amount(left), amount(wanted.value)));
    auto beyond = new_check("water.pressure.building", {ipc("604.3")});
    beyond.value = amount(left);
    checks.push_back(reason::referred(std::move(beyond),
                                      "The building's own pipe was not surveyed: whoever designs it must find what its "
                                      "height and length take from the pressure left."));
}

std::vector<Way> ways_of(const View& view, const WaterRun& cold, const WaterRun& hot) {
    std::vector<Way> ways;
    const auto through = catalogue::pressure_drop(view.heater, water_flow_each(view));
    if (!through) return ways;
    const auto lift = column(hot, height(view, "site.cold"), height(view, "site.hot"));
    for (int n = 1; n <= view.heaters(); ++n)
        if (reached(view, Service::cold, n) && reached(view, Service::hot, n))
            ways.push_back(
                {n, at_leaf(view, Service::cold, cold, n), *through, at_leaf(view, Service::hot, hot, n), lift});
    return ways;
}

}  // namespace

void check_water_flow(const View& view, Checks& checks) {
    flow_range(view, checks);
    const auto cold = water_run(view, Service::cold), hot = water_run(view, Service::hot);
    for (const auto* run : {&cold, &hot})
        if (!*run)
            checks.push_back(holds(new_check("water.run.<service>", method(),
                                             {named("service", run == &cold ? Service::cold : Service::hot)}),
                                   false, {}, units::describe(run->error())));
    if (cold) velocities(view, Service::cold, *cold, checks);
    if (hot) velocities(view, Service::hot, *hot, checks);
    if (cold)
        for (int n = 1; n <= view.heaters(); ++n) at_heater(view, n, *cold, checks);
    if (!cold || !hot) return;
    const auto ways = ways_of(view, *cold, *hot);
    if (ways.empty()) {
        checks.push_back(
            holds(new_check("water.pressure.left", method()), false, {},
                  "No heater stands between cold and hot, or its share of the peak is past its pressure-drop curve."));
        return;
    }
    left_over(view, ways, checks);
    check_water_balance(view, checks);
}

}  // namespace bw::proof
