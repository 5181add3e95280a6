// SPDX-License-Identifier: MIT
#include "demand/methods.h"

namespace bw::demand {

namespace {

struct Considered {
    std::vector<Capacity> fit;
    std::vector<Option> refused;
};

Considered consider(const survey::Survey& survey, const Demand& demand, const catalogue::Catalogue& catalogue) {
    Considered out;
    for (const auto& heater : catalogue.heaters) {
        Option option;
        option.heater = heater.key;
        if (survey.preferences.heater && *survey.preferences.heater != heater.key) {
            option.refused = "the survey asks for " + *survey.preferences.heater;
            out.refused.push_back(std::move(option));
            continue;
        }
        auto capacity = capacity_of(survey, demand, catalogue, heater);
        if (capacity) {
            out.fit.push_back(std::move(*capacity));
        } else {
            option.refused = capacity.error().what;
            out.refused.push_back(std::move(option));
        }
    }
    std::stable_sort(out.fit.begin(), out.fit.end(), [](const Capacity& a, const Capacity& b) {
        const auto &x = a.options.front(), &y = b.options.front();
        return x.price != y.price ? x.price < y.price : x.installed < y.installed;
    });
    return out;
}

std::string dollars(double value) { return print(units::money(value), System::us); }

std::string why(const survey::Survey& survey, const std::vector<Capacity>& fit) {
    if (survey.preferences.heater) return " The survey asks for this model.";
    if (fit.size() == 1) return " No other model serves this job.";
    const auto &first = fit[0].options.front(), &second = fit[1].options.front();
    return fmt::format(" Least cost of heaters that fits: {}; next, {} of {}, {}.", dollars(first.price),
                       second.installed, second.heater, dollars(second.price));
}

}  // namespace

Result<Capacity> capacity(const survey::Survey& survey, const Demand& demand, const catalogue::Catalogue& catalogue) {
    if (survey.preferences.heater && !catalogue.heater(*survey.preferences.heater)) {
        std::string choices;
        for (const auto& heater : catalogue.heaters) choices += (choices.empty() ? "" : ", ") + heater.key;
        return fail("heater \"" + *survey.preferences.heater + "\" is not in the catalogue", choices);
    }
    auto considered = consider(survey, demand, catalogue);
    if (considered.fit.empty()) {
        std::string reasons;
        for (const auto& option : considered.refused) {
            if (survey.preferences.heater && option.heater != *survey.preferences.heater) continue;
            reasons += (reasons.empty() ? "" : "; ") + option.refused;
        }
        return fail("no heater in the catalogue serves this job: " + (reasons.empty() ? "it holds none" : reasons),
                    "another heater file, a cooler setpoint or a smaller load");
    }
    Capacity out = considered.fit.front();
    out.says += why(survey, considered.fit);
    out.options.clear();
    for (const auto& fit : considered.fit) out.options.push_back(fit.options.front());
    out.options.insert(out.options.end(), considered.refused.begin(), considered.refused.end());
    return out;
}

}  // namespace bw::demand
