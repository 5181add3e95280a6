// SPDX-License-Identifier: MIT
#include "proof/proof.h"

#include <tbb/parallel_for.h>
#include <tbb/task_arena.h>

#include <algorithm>
#include <iterator>

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
    Subject{check_clash},       Subject{check_drain_pump},    Subject{check_overflow},
};

}  // namespace

std::vector<reason::Check> prove(const Case& c, int threads) {
    const View view(c);
    std::array<Checks, subjects.size()> found;
    const auto one = [&](std::size_t i) { subjects[i](view, found[i]); };
    if (threads > 1) {
        tbb::task_arena arena(threads);
        arena.execute([&] { tbb::parallel_for(std::size_t{0}, subjects.size(), one, tbb::simple_partitioner()); });
    } else {
        for (std::size_t i = 0; i < subjects.size(); ++i) one(i);
    }
    Checks checks;
    for (auto& of_subject : found) std::ranges::move(of_subject, std::back_inserter(checks));
    checks.insert(checks.end(), c.built.findings.begin(), c.built.findings.end());
    for (auto& check : checks) apply_adoption_policy(check, c.survey);
    reason::in_report_order(checks);
    return checks;
}

}  // namespace bw::proof
