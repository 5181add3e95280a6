// SPDX-License-Identifier: MIT
#include "matter/pipe_flow.h"
#include "reckon/topic.h"

namespace bw::reckon {

namespace {

using units::Kind;

Result<Findings> run(const Inputs& in, const catalogue::Catalogue& catalogue) {
    const auto pipe = find_pipe(catalogue, in.size("size"), in.named<text::Material>("material"));
    if (!pipe) return tl::unexpected(pipe.error());
    const auto state = matter::water(in.get<units::Temperature>("temperature"));
    if (!state) return tl::unexpected(state.error());
    const auto flow = in.get<units::VolumeFlow>("flow");
    const auto length = in.get<units::Length>("length");
    const auto drop = matter::pipe_drop(flow, (*pipe)->inside, (*pipe)->roughness, length, 0, *state);
    if (!drop) return tl::unexpected(drop.error());
    Findings out;
    out.result = {{"velocity", units::amount(drop->velocity), "mean"},
                  {"reynolds", units::number(drop->reynolds), "Reynolds number"},
                  {"friction-factor", units::number(drop->friction.factor), "Darcy"},
                  {"pressure-drop", units::amount(drop->drop), "over the length, without fittings"},
                  {"regime", std::string(matter::name(drop->friction.regime)),
                   drop->friction.regime == matter::Regime::transition ? "no law holds here: interpolated" : ""}};
    out.derivation = matter::derive(*drop, flow, (*pipe)->inside, (*pipe)->roughness, length, 0, *state);
    out.sources = drop->sources;
    add(out.sources, matter::water_sources());
    add(out.sources, (*pipe)->sources);
    return out;
}

}  // namespace

Entry water_pipe() {
    return {{"water-pipe",
             "Velocity and friction of water in a full pipe, by Darcy-Weisbach and Colebrook",
             {{.name = "material",
               .says = "of the pipe",
               .form = Form::word,
               .choices = {"steel-40", "steel-80", "stainless-10s", "copper-k", "copper-l", "copper-m", "cpvc"}},
              {.name = "size", .says = "nominal", .form = Form::size},
              {.name = "flow", .says = "of water", .kind = Kind::water_flow},
              {.name = "temperature", .says = "of the water", .kind = Kind::temperature},
              {.name = "length", .says = "straight", .kind = Kind::long_length}}},
            run};
}

}  // namespace bw::reckon
