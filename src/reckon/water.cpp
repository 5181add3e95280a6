// SPDX-License-Identifier: MIT
#include "matter/water.h"

#include "reckon/topic.h"

namespace bw::reckon {

namespace {

Result<Findings> run(const Inputs& in, const catalogue::Catalogue&) {
    const auto state = matter::water(in.get<units::Temperature>("temperature"));
    if (!state) return tl::unexpected(state.error());
    Findings out;
    out.result = {{"density", units::amount(state->density), "at one atmosphere"},
                  {"viscosity", units::amount(state->viscosity), "dynamic"},
                  {"heat-capacity", units::amount(state->heat_capacity), "at constant pressure"},
                  {"vapour-pressure", units::amount(state->vapour_pressure), "absolute"}};
    out.derivation = {{"Liquid water at one atmosphere by the industrial formulation: volume and heat capacity are "
                       "derivatives of its Gibbs energy",
                       "v = (dg/dp)_T, cp = -T (d2g/dT2)_p",
                       {{"T", "temperature", in.amount("temperature")}},
                       reason::Term{"rho", "density", units::amount(state->density)}},
                      {"Viscosity from density and temperature",
                       "mu = mu0(T) mu1(T, rho)",
                       {},
                       reason::Term{"mu", "viscosity", units::amount(state->viscosity)}}};
    out.sources = matter::water_sources();
    return out;
}

}  // namespace

Entry water() {
    return {{"water",
             "Liquid water from 0 to 100 degC",
             {{.name = "temperature", .says = "of the water", .kind = units::Kind::temperature}}},
            run};
}

}  // namespace bw::reckon
