// SPDX-License-Identifier: MIT
// Two models in one plant.
#include "demand/methods.h"
#include "matter/water.h"

namespace bw::demand {

namespace {

struct Model {
    const catalogue::Heater* heater;
    Capacity alone;
    double price;
};

VolumeFlow greatest(const Model& model) { return model.alone.each.flow_greatest; }

/// Least number of `b` that carries what `of_a` of `a` leave, with the largest of either down where a spare is kept.
int rest(const Demand& demand, Power peak_heat, const Model& a, int of_a, const Model& b, int down) {
    const Power lost = static_cast<double>(down) * std::max(a.alone.each.output, b.alone.each.output);
    const VolumeFlow passed = static_cast<double>(down) * std::max(greatest(a), greatest(b));
    const double heat =
        (peak_heat + demand.recirculation_loss + lost - static_cast<double>(of_a) * a.alone.each.output) /
        b.alone.each.output;
    const double flow =
        (demand.peak + demand.recirculation_flow + passed - static_cast<double>(of_a) * greatest(a)) / greatest(b);
    return std::max(0, static_cast<int>(std::ceil(std::max(heat, flow) - 1e-9)));
}

void consider(std::optional<Mixed>& best, const Demand& demand, Power peak_heat, const Model& a, const Model& b,
              int down) {
    for (int of_a = 1; of_a < a.alone.installed; ++of_a) {
        const int of_b = rest(demand, peak_heat, a, of_a, b, down);
        if (of_b < 1 || of_a + of_b > std::min(a.heater->greatest_group, b.heater->greatest_group)) continue;
        const double price = of_a * a.price + of_b * b.price;
        if (best && best->price <= price) continue;
        best = Mixed{a.heater->key,
                     b.heater->key,
                     of_a,
                     of_b,
                     static_cast<double>(of_a) * a.alone.each.flow + static_cast<double>(of_b) * b.alone.each.flow,
                     price};
    }
}

}  // namespace

std::optional<Mixed> mixed_plant(const survey::Survey& survey, const Demand& demand,
                                 const catalogue::Catalogue& catalogue) {
    auto peak_heat = matter::heat_to_warm(demand.peak, demand.cold, demand.hot);
    if (!peak_heat || survey.preferences.heater) return std::nullopt;
    std::vector<Model> models;
    for (const auto& heater : catalogue.heaters)
        if (auto alone = sized(survey, demand, heater))
            models.push_back({&heater, std::move(*alone), price_of(survey, heater)});
    const auto cheapest = std::min_element(models.begin(), models.end(), [](const Model& a, const Model& b) {
        return a.alone.installed * a.price < b.alone.installed * b.price;
    });
    std::optional<Mixed> best;
    for (const auto& a : models)
        for (const auto& b : models)
            if (a.heater != b.heater) consider(best, demand, *peak_heat, a, b, cheapest->alone.spare);
    if (best && best->price >= cheapest->alone.installed * cheapest->price) return std::nullopt;
    return best;
}

}  // namespace bw::demand
