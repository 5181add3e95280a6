// SPDX-License-Identifier: MIT
#include "code/fixture_units.h"

#include "reckon/topic.h"

namespace bw::reckon {

namespace {

code::UnitCurve curve_of(const std::string& system, const std::string& curve) {
    using code::UnitCurve;
    if (curve == "ipc") return system == "flush-tank" ? UnitCurve::ipc_flush_tank : UnitCurve::ipc_flushometer;
    return system == "flush-tank" ? UnitCurve::nspc_flush_tank : UnitCurve::nspc_flushometer;
}

Result<Findings> run(const Inputs& in, const catalogue::Catalogue&) {
    const auto curve = curve_of(in.word("system"), in.word("curve"));
    const auto flow = code::flow_for_units(in.number("wsfu"), curve);
    if (!flow) return tl::unexpected(flow.error());
    return Findings{{{"flow", units::amount(flow->value), code::title(curve)}}, flow->derivation, flow->sources};
}

}  // namespace

Entry fixture_units() {
    return {{"fixture-units",
             "Flow that a sum of water supply fixture units stands for",
             {{.name = "wsfu", .says = "sum of fixture units", .kind = units::Kind::number},
              {.name = "system",
               .says = "what most water closets have",
               .form = Form::word,
               .choices = {"flush-tank", "flush-valve"}},
              {.name = "curve",
               .says = "which code's curve; they disagree at small loads",
               .form = Form::word,
               .required = false,
               .fallback = "ipc",
               .choices = {"ipc", "nspc"}}}},
            run};
}

}  // namespace bw::reckon
