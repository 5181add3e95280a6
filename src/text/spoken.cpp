// SPDX-License-Identifier: MIT
#include "text/spoken.h"

namespace bw::text {

std::string_view spoken(Material material) {
    switch (material) {
        case Material::steel_40: return "schedule 40 steel";
        case Material::steel_80: return "schedule 80 steel";
        case Material::stainless_10s: return "schedule 10S stainless steel";
        case Material::copper_k: return "type K copper";
        case Material::copper_l: return "type L copper";
        case Material::copper_m: return "type M copper";
        case Material::cpvc: return "CPVC";
        case Material::csst: return "CSST";
        case Material::vent_polypropylene: return "polypropylene vent";
        case Material::vent_cpvc: return "CPVC vent";
        case Material::vent_pvc: return "PVC vent";
        case Material::pvc_drain: return "PVC drain";
        case Material::cable: return "cable";
        case Material::strut: return "strut";
    }
    return {};
}

}  // namespace bw::text
