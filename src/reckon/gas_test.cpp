// SPDX-License-Identifier: MIT
#include "code/gas_rules.h"
#include "reckon/topic.h"
#include "units/constants.h"

namespace bw::reckon {

namespace {

using units::Kind;
using units::pi;

struct Piping {
    units::Volume volume{};
    std::vector<code::PurgeRun> runs;
};

/// The pipe's inside volume, given or from one size and its length.
Result<Piping> piping(const Inputs& in, const catalogue::Catalogue& catalogue, Findings& out) {
    const bool by_size = in.has("size") || in.has("length");
    if (in.has("volume") == by_size)
        return fail("gas-test: the piping is not described once", "either volume, or size and length");
    if (!by_size) return Piping{in.get<units::Volume>("volume"), {}};
    if (!in.has("size") || !in.has("length"))
        return fail("gas-test: size and length go together", "both, or volume instead");
    const auto pipe = find_pipe(catalogue, in.size("size"), in.named<text::Material>("material"));
    if (!pipe) return tl::unexpected(pipe.error());
    const auto length = in.get<units::Length>("length");
    const units::Volume volume = pi / 4 * (*pipe)->inside * (*pipe)->inside * length;
    out.derivation.push_back({"Inside volume of the pipe",
                              "V = pi/4 D^2 L",
                              {{"D", "inside diameter", units::amount((*pipe)->inside, Kind::small_length)},
                               {"L", "length", units::amount(length, Kind::long_length)}},
                              reason::Term{"V", "volume", units::amount(volume, Kind::room_volume)}});
    add(out.sources, (*pipe)->sources);
    return Piping{volume, {{in.size("size"), length}}};
}

Result<Findings> run(const Inputs& in, const catalogue::Catalogue& catalogue) {
    Findings out;
    const auto described = piping(in, catalogue, out);
    if (!described) return tl::unexpected(described.error());
    const auto test = code::gas_test(in.get<units::Pressure>("working-pressure"), described->volume, described->runs);
    if (!test) return tl::unexpected(test.error());
    const auto& found = test->value;
    out.result = {
        {"test-pressure", units::amount(found.pressure), "gauge; isolate every appliance and regulator first"},
        {"duration", units::amount(found.duration), "without a drop"}};
    if (!described->runs.empty())
        out.result.push_back(
            {"purge-outdoors", found.purge_outdoors,
             found.purge_outdoors ? "inert gas first, discharged outdoors" : "by this size and length"});
    out.result.push_back({"gauge-range", units::amount(found.gauge_range), "greatest reading of the gauge used"});
    out.derivation.insert(out.derivation.end(), test->derivation.begin(), test->derivation.end());
    if (described->runs.empty())
        out.derivation.push_back(
            {"Where the gas is purged to goes by size and length: give those instead of a volume"});
    add(out.sources, test->sources);
    return out;
}

}  // namespace

Entry gas_test() {
    return {{"gas-test",
             "Pressure test of new gas piping, and where it is purged to; a licensed person does both",
             {{.name = "working-pressure", .says = "greatest, gauge", .kind = Kind::pressure},
              {.name = "volume", .says = "inside the pipe", .kind = Kind::room_volume, .required = false},
              {.name = "size", .says = "nominal, instead of a volume", .form = Form::size, .required = false},
              {.name = "length", .says = "of that size", .kind = Kind::long_length, .required = false},
              {.name = "material",
               .says = "of that pipe",
               .form = Form::word,
               .required = false,
               .fallback = "steel-40",
               .choices = {"steel-40", "steel-80", "stainless-10s", "copper-k", "copper-l"}}}},
            run};
}

}  // namespace bw::reckon
