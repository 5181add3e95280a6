// SPDX-License-Identifier: MIT
#include "matter/pipe_heat.h"
#include "reckon/topic.h"

namespace bw::reckon {

namespace {

using matter::Insulation;
using units::Kind;

constexpr Insulation kinds[] = {Insulation::none, Insulation::mineral_fibre, Insulation::elastomeric};

Insulation kind_of(std::string_view word) {
    return *std::find_if(std::begin(kinds), std::end(kinds), [&](Insulation one) { return word == name(one); });
}

reason::Derivation working(const matter::PipeHeat& found, const matter::Pipework& pipe, units::Length length) {
    reason::Derivation steps;
    if (pipe.insulation != Insulation::none)
        steps.push_back({"Insulation at its mean temperature, W/(m K)",
                         "k by a straight line between two temperatures",
                         {},
                         reason::Term{"k", "conductivity", units::number(found.conductivity)}});
    const units::Length outer = pipe.outside + 2.0 * pipe.thickness;
    steps.push_back(
        {"At the outside, W/(m2 K): still air past a horizontal cylinder, and radiation to walls as warm as the air",
         "Nu = (0.60 + 0.387 Ra^(1/6) / (1 + (0.559/Pr)^(9/16))^(8/27))^2; hr = e s (Ts^2 + Ta^2)(Ts + Ta)",
         {{"e", "emissivity", units::number(pipe.emissivity)}, {"hr", "by radiation", units::number(found.radiation)}},
         reason::Term{"hc", "by convection", units::number(found.convection)}});
    steps.push_back({"The outside settles where what comes through goes on",
                     "(Tf - Ts) / (ln(r1/r0)/(2 pi kw) + ln(r2/r1)/(2 pi k)) = (hc + hr) pi D (Ts - Ta)",
                     {{"D", "outside diameter with insulation", units::amount(outer, Kind::small_length)}},
                     reason::Term{"Ts", "outside temperature", units::amount(found.surface)}});
    steps.push_back({"Over the length",
                     "Q = (hc + hr) pi D (Ts - Ta) L",
                     {{"L", "length", units::amount(length, Kind::long_length)}},
                     reason::Term{"Q", "heat lost", units::amount(found.loss)}});
    return steps;
}

Result<Findings> run(const Inputs& in, const catalogue::Catalogue& catalogue) {
    const auto material = in.named<text::Material>("material");
    const auto row = find_pipe(catalogue, in.size("size"), material);
    if (!row) return tl::unexpected(row.error());
    matter::Pipework pipe{material, (*row)->outside, (*row)->inside, kind_of(in.word("insulation")), {}, 0};
    if (in.has("thickness")) pipe.thickness = in.get<units::Length>("thickness");
    pipe.emissivity = matter::emissivity(material, pipe.insulation);
    const auto length = in.get<units::Length>("length");
    const auto found =
        matter::pipe_heat(pipe, in.get<units::Temperature>("fluid"), in.get<units::Temperature>("air"), length);
    if (!found) return tl::unexpected(found.error());
    Findings out;
    out.result = {{"loss", units::amount(found->loss), "over the length, horizontal, in still air"},
                  {"surface", units::amount(found->surface), "outside, pipe or jacket"}};
    out.derivation = working(*found, pipe, length);
    out.sources = matter::pipe_heat_sources();
    if (pipe.insulation == Insulation::mineral_fibre)
        out.sources.push_back({"ASTM C547", "", "conductivity of mineral fibre", reason::Standing::memory});
    if (pipe.insulation == Insulation::elastomeric)
        out.sources.push_back({"ASTM C534", "", "conductivity of elastomeric foam", reason::Standing::memory});
    add(out.sources, (*row)->sources);
    return out;
}

}  // namespace

Entry heat_loss() {
    return {{"heat-loss",
             "Heat a horizontal pipe, bare or insulated, gives to still air",
             {{.name = "material",
               .says = "of the pipe",
               .form = Form::word,
               .choices = {"steel-40", "steel-80", "stainless-10s", "copper-k", "copper-l", "copper-m", "cpvc"}},
              {.name = "size", .says = "nominal", .form = Form::size},
              {.name = "insulation",
               .says = "around it",
               .form = Form::word,
               .choices = {"none", "mineral-fibre", "elastomeric"}},
              {.name = "thickness", .says = "of the insulation", .kind = Kind::small_length, .required = false},
              {.name = "fluid", .says = "inside", .kind = Kind::temperature},
              {.name = "air", .says = "around", .kind = Kind::temperature},
              {.name = "length", .says = "of pipe", .kind = Kind::long_length}}},
            run};
}

}  // namespace bw::reckon
