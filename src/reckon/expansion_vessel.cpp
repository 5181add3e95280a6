// SPDX-License-Identifier: MIT
#include "matter/air.h"
#include "matter/expansion.h"
#include "reckon/topic.h"

namespace bw::reckon {

namespace {

using units::Kind;

Result<Findings> run(const Inputs& in, const catalogue::Catalogue&) {
    const auto air = matter::atmosphere(in.get<units::Length>("altitude"));
    if (!air) return tl::unexpected(air.error());
    const auto found = matter::expansion_vessel(
        in.get<units::Volume>("volume"), in.get<units::Temperature>("cold"), in.get<units::Temperature>("hot"),
        in.get<units::Pressure>("fill-pressure"), in.get<units::Pressure>("max-pressure"), *air);
    if (!found) return tl::unexpected(found.error());
    Findings out;
    out.result = {
        {"vessel-volume", units::amount(found->vessel), "least, with a membrane, charged to the fill pressure"},
        {"expansion", units::amount(found->expansion), "that it must take in: its least acceptance"},
        {"acceptance", units::percent(found->acceptance), "of its volume between the two pressures"}};
    out.derivation = found->derivation;
    out.sources = found->sources;
    return out;
}

}  // namespace

Entry expansion_vessel() {
    return {{"expansion-vessel",
             "Vessel for the water that a closed system swells by when heated",
             {{.name = "volume", .says = "of water that is heated, pipe and tanks", .kind = Kind::volume},
              {.name = "cold", .says = "water at its coldest", .kind = Kind::temperature},
              {.name = "hot", .says = "water at its hottest", .kind = Kind::temperature},
              {.name = "fill-pressure", .says = "at the vessel, cold; its charge is set to it", .kind = Kind::pressure},
              {.name = "max-pressure",
               .says = "at the vessel, hot; below the relief valve's setting",
               .kind = Kind::pressure},
              {.name = "altitude",
               .says = "of the vessel",
               .kind = Kind::altitude,
               .required = false,
               .fallback = "0 ft",
               .positive = false}}},
            run};
}

}  // namespace bw::reckon
