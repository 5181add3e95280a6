// SPDX-License-Identifier: MIT
#include "proof/proof.h"

#include "proof/checks.h"
#include "proof/policy.h"

namespace bw::proof {
namespace {

using Subject = void (*)(const View&, Checks&);

/// Report order.
constexpr std::array subjects{
    Subject{check_capacity},    Subject{check_water_quality}, Subject{check_water_supply}, Subject{check_water_pieces},
    Subject{check_water_flow},  Subject{check_water_taps},    Subject{check_relief},       Subject{check_recirculation},
    Subject{check_gas_supply},  Subject{check_regulators},    Subject{check_gas_size},     Subject{check_gas_pressure},
    Subject{check_gas_network}, Subject{check_gas_trim},      Subject{check_vent},         Subject{check_terminals},
    Subject{check_air},         Subject{check_condensate},    Subject{check_electric},     Subject{check_structure},
    Subject{check_hangers},     Subject{check_hanging},       Subject{check_movement},     Subject{check_fall},
    Subject{check_room},        Subject{check_room_rules},    Subject{check_safety},       Subject{check_lawful},
    Subject{check_clash},
};

}  // namespace

std::vector<reason::Check> prove(const Case& c) {
    const View view(c);
    Checks checks;
    for (const auto subject : subjects) subject(view, checks);
    checks.insert(checks.end(), c.built.findings.begin(), c.built.findings.end());
    for (auto& check : checks) settle(check, c.survey);
    return checks;
}

}  // namespace bw::proof
