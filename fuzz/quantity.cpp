// SPDX-License-Identifier: MIT
// Quantities and pipe sizes: what is understood is finite, and reads back from what is printed.
#include <cmath>

#include "must.h"
#include "units/nominal.h"
#include "units/parse.h"

using namespace bw;
using fuzz::must;

namespace {

void quantity(std::string_view text, units::Kind kind) {
    const auto amount = units::parse(text, kind);
    if (!amount) return fuzz::must_explain(amount.error());
    must(std::isfinite(amount->si));
    for (const auto system : {units::System::us, units::System::si}) {
        const std::string printed = units::print(*amount, system);
        must(!printed.empty() && printed.find('\n') == std::string::npos);
        if (std::fabs(amount->si) > 1e9) continue;
        const auto back = units::parse(printed, kind);
        must(back.has_value());
    }
}

void nominal(std::string_view text) {
    const auto size = units::parse_nominal(text);
    if (!size) return fuzz::must_explain(size.error());
    must(units::parse_nominal(units::print(*size)) == *size);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const unsigned char* data, std::size_t size) {
    if (size == 0 || size > 4096) return 0;
    const int kinds = static_cast<int>(units::Kind::altitude) + 1;
    quantity(fuzz::text_of(data + 1, size - 1), static_cast<units::Kind>(data[0] % kinds));
    nominal(fuzz::text_of(data + 1, size - 1));
    return 0;
}
