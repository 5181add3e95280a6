// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include "demand/demand.h"
#include "reckon/topic.h"

namespace bw::reckon {

namespace {

using units::Kind;

Result<const catalogue::Heater*> find_heater(const catalogue::Catalogue& catalogue, const std::string& model) {
    if (const auto* heater = catalogue.heater(model)) return heater;
    std::vector<std::string_view> keys;
    for (const auto& heater : catalogue.heaters) keys.push_back(heater.key);
    const std::string near = text::nearest(model, keys);
    return fail(fmt::format("model: '{}' is not in the catalogue", model.substr(0, 60)),
                (near.empty() ? "" : "'" + near + "' perhaps; ") + text::one_of(keys));
}

Result<Findings> run(const Inputs& in, const catalogue::Catalogue& catalogue) {
    const auto heater = find_heater(catalogue, in.word("model"));
    if (!heater) return tl::unexpected(heater.error());
    const auto found =
        demand::heater_output(**heater, in.get<units::Temperature>("inlet"), in.get<units::Temperature>("outlet"),
                              in.get<units::Length>("altitude"), in.named<text::Gas>("gas"));
    if (!found) return tl::unexpected(found.error());
    return Findings{{{"flow", units::amount(found->flow),
                      found->limited_by_flow ? "the heater's greatest flow; it could heat more" : "limited by heat"},
                     {"input", units::amount(found->input), "at this altitude"},
                     {"output", units::amount(found->output), "into the water at full fire"},
                     {"efficiency", units::percent(found->efficiency), "thermal, with this inlet water"},
                     {"altitude-factor", units::number(found->altitude_factor), "of the input at sea level"}},
                    found->derivation,
                    found->sources};
}

}  // namespace

Entry heater_capacity() {
    return {{"heater-capacity",
             "What one heater of the catalogue gives at a rise and an altitude",
             {{.name = "model", .says = "catalogue key", .form = Form::text},
              {.name = "inlet", .says = "water in", .kind = Kind::temperature},
              {.name = "outlet", .says = "water out", .kind = Kind::temperature},
              {.name = "altitude", .says = "of the job", .kind = Kind::altitude, .positive = false},
              {.name = "gas",
               .says = "fuel",
               .form = Form::word,
               .required = false,
               .fallback = "natural",
               .choices = words<text::Gas>()}}},
            run};
}

}  // namespace bw::reckon
