// SPDX-License-Identifier: MIT
#include "matter/combustion.h"

#include "matter/air.h"
#include "reckon/topic.h"

namespace bw::reckon {

namespace {

using units::Kind;

constexpr auto rated = 100.0 * units::kbtu_per_hour;

Result<void> add_condensate(Findings& out, const matter::Combustion& burnt, const Inputs& in, units::Pressure air) {
    const auto gas = in.named<text::Gas>("gas");
    if (!in.has("return-water")) {
        out.result.push_back({"condensate", units::number(burnt.water_per_fuel),
                              "mass per mass of fuel if all the water made were to condense: the most there can be"});
        return {};
    }
    const auto leaving = in.get<units::Temperature>("return-water");
    const auto found = matter::condensate(gas, rated, matter::fuel(gas).higher, in.number("excess-air"), leaving, air);
    if (!found) return tl::unexpected(found.error());
    out.result.push_back({"condensate", units::number(found->share * burnt.water_per_fuel),
                          found->share > 0 ? "mass per mass of fuel, flue gas cooled to the return water"
                                           : "the return water is not below the dew point: nothing condenses"});
    out.result.push_back({"condensate-per-100-kbtu", units::amount(found->flow, Kind::hourly_flow),
                          "for 100 kBtu/h of input at the gas's usual heating value"});
    out.derivation.insert(out.derivation.end(), found->derivation.begin(), found->derivation.end());
    add(out.sources, found->sources);
    return {};
}

Result<Findings> run(const Inputs& in, const catalogue::Catalogue&) {
    const auto gas = in.named<text::Gas>("gas");
    const auto air = matter::atmosphere(in.get<units::Length>("altitude"));
    if (!air) return tl::unexpected(air.error());
    const auto burnt = matter::combustion(gas, in.number("excess-air"), *air);
    if (!burnt) return tl::unexpected(burnt.error());
    Findings out;
    out.result = {{"air", units::number(burnt->air), "volumes of dry air per volume of fuel"},
                  {"flue-gas", units::number(burnt->flue_gas), "volumes of wet flue gas per volume of fuel"},
                  {"co2", units::percent(burnt->co2_dry), "of the dry flue gas"},
                  {"dew-point", units::amount(burnt->dew_point), "of the flue gas"},
                  {"water", units::number(burnt->water_per_fuel), "mass of water made per mass of fuel"}};
    out.derivation = burnt->derivation;
    out.sources = burnt->sources;
    add(out.sources, matter::fuel(gas).sources);
    if (auto ok = add_condensate(out, *burnt, in, *air); !ok) return tl::unexpected(ok.error());
    return out;
}

}  // namespace

Entry combustion() {
    return {{"combustion",
             "What burning a gas takes in and gives off, by stoichiometry; natural gas as methane",
             {{.name = "gas", .says = "fuel", .form = Form::word, .choices = words<text::Gas>()},
              {.name = "excess-air", .says = "over the air needed", .kind = Kind::percent, .positive = false},
              {.name = "return-water",
               .says = "coldest water the flue gas meets",
               .kind = Kind::temperature,
               .required = false},
              {.name = "altitude",
               .says = "of the room",
               .kind = Kind::altitude,
               .required = false,
               .fallback = "0 ft",
               .positive = false}}},
            run};
}

}  // namespace bw::reckon
