// SPDX-License-Identifier: MIT
#include "code/seismic.h"
#include "reckon/topic.h"

namespace bw::reckon {
namespace {

using units::Kind;

Result<Findings> run(const Inputs& in, const catalogue::Catalogue&) {
    code::Fastened component{
        in.get<units::Force>("weight"), in.number("sds"), in.number("ap"), in.number("rp"), in.number("ip"),
        in.number("height-ratio")};
    auto found = code::seismic_force(component);
    if (!found) return tl::unexpected(found.error());
    const auto& value = found->value;
    Findings out;
    out.result = {{"force", units::amount(value.force), "horizontal, along each axis in turn"},
                  {"lower", units::amount(value.lower), "it is never less"},
                  {"upper", units::amount(value.upper), "it need not be more"},
                  {"vertical", units::amount(value.vertical), "up or down at the same time"}};
    out.derivation = std::move(found->derivation);
    out.sources = std::move(found->sources);
    return out;
}

Result<Findings> run_overturning(const Inputs& in, const catalogue::Catalogue&) {
    code::FreeStanding standing{in.get<units::Force>("weight"), in.get<units::Force>("force"),
                                in.get<units::Length>("height"), in.get<units::Length>("base"),
                                static_cast<int>(in.number("anchors"))};
    auto found = code::overturning(standing);
    if (!found) return tl::unexpected(found.error());
    Findings out;
    out.result = {{"uplift", units::amount(found->value.uplift), "pull on each anchor of the row that would lift"},
                  {"stable", found->value.stable, "stands without anchors"}};
    out.derivation = std::move(found->derivation);
    out.sources = std::move(found->sources);
    return out;
}

}  // namespace

Entry anchor_seismic() {
    return {{"anchor-seismic",
             "Earthquake force on a component, ASCE 7-16; site values are the structural engineer's",
             {{.name = "weight", .says = "operating, full of water", .kind = Kind::force},
              {.name = "sds", .says = "design acceleration at short periods, g", .kind = Kind::number},
              {.name = "ap", .says = "amplification, 1 to 2.5", .kind = Kind::number},
              {.name = "rp", .says = "response, 1 to 12", .kind = Kind::number},
              {.name = "ip", .says = "importance, 1 to 1.5", .kind = Kind::number},
              {.name = "height-ratio",
               .says = "height of fastening over the roof's, 0 to 1",
               .kind = Kind::number,
               .positive = false}}},
            run};
}

Entry overturning() {
    return {{"overturning",
             "Pull on the anchors of a free-standing thing pushed sideways; the anchors are an engineer's",
             {{.name = "weight", .says = "that holds it down", .kind = Kind::force},
              {.name = "force", .says = "sideways, at the centre of gravity", .kind = Kind::force, .positive = false},
              {.name = "height", .says = "of the centre of gravity above the feet", .kind = Kind::length},
              {.name = "base", .says = "between the two rows of feet", .kind = Kind::length},
              {.name = "anchors", .says = "in the row that would lift", .kind = Kind::count}}},
            run_overturning};
}

}  // namespace bw::reckon
