// SPDX-License-Identifier: MIT
// Which pipe may carry fuel gas, and what its fittings count for.
#include "code/gas_tables.h"
#include "code/sources.h"
#include "text/material.h"

namespace bw::code {

Result<Clause<bool>> gas_material(Material material, bool low_sulphide) {
    switch (text::row_of(material).gas_use) {
        case text::GasUse::steel:
            return Clause<bool>{true, "steel pipe of schedule 40 or heavier may carry fuel gas",
                                ifgc("403.4.2", Standing::memory)};
        case text::GasUse::stainless:
            return Clause<bool>{true, "stainless steel pipe of schedule 10 or heavier may carry fuel gas",
                                ifgc("403.4.2", Standing::memory)};
        case text::GasUse::low_sulphide:
            if (!low_sulphide)
                return fail(
                    std::string(text::name(material)) +
                        " may not carry gas with more than 0.3 grain of hydrogen sulphide in 100 ft3 (IFGC 403.5.2)",
                    "gas confirmed low in sulphide by the supplier, or steel pipe");
            return Clause<bool>{
                true,
                "copper tube of type K or L may carry gas with no more than 0.3 grain of hydrogen sulphide "
                "in 100 ft3",
                ifgc("403.5.2", Standing::memory)};
        case text::GasUse::listed_tubing:
            return Clause<bool>{true, "listed corrugated stainless tubing may carry fuel gas, sized by its table",
                                ifgc("403.5.4", Standing::memory)};
        case text::GasUse::refused: break;
    }
    return fail(std::string(text::name(material)) + " may not carry fuel gas (IFGC 403)",
                "steel-40, steel-80, stainless-10s, copper-k, copper-l or csst");
}

double gas_equivalent_diameters(text::Part part, bool tee_run) {
    using text::Part;
    switch (part) {
        case Part::elbow: return 30;
        case Part::elbow_45: return 16;
        case Part::tee: return tee_run ? 20 : 60;
        case Part::ball_valve:
        case Part::gas_valve: return 8;
        default: return 0;
    }
}

Clause<Length> gas_equivalent_length(text::Part part, Length inside, bool tee_run) {
    const double diameters = gas_equivalent_diameters(part, tee_run);
    return {diameters * inside,
            fmt::format("counts as {:g} inside diameters of straight pipe", diameters),
            {"general handbooks, L/D of fittings", "",
             "elbow 30, 45-degree elbow 16, tee run 20, tee branch 60, valve 8", Standing::memory}};
}

}  // namespace bw::code
