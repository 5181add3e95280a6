// SPDX-License-Identifier: MIT
#include "code/electric.h"

#include <cmath>

#include "code/sources.h"

namespace bw::code {

Clause<Ratio> continuous_load_share() {
    return {0.80, "a continuous load takes at most 80 % of a branch circuit's rating", nec("210.19(A)(1), 210.20(A)")};
}

Result<Ruled<int>> heaters_per_circuit(Current each, Current rating) {
    if (!(each.value() > 0) || !(rating.value() > 0))
        return fail("a heater's current or the circuit's rating is not above zero", "both above zero");
    auto share = continuous_load_share();
    double most = std::floor(share.value * double(rating / each) * (1 + 1e-12));
    if (most < 1)
        return fail("one heater draws " + print(amount(each), System::us) + ", more than 80 % of a circuit of " +
                        print(amount(rating), System::us),
                    "a larger circuit");
    Ruled<int> out;
    out.value = static_cast<int>(most);
    out.derivation.push_back(
        {"Heaters on one branch circuit, as continuous load",
         "n = floor(0.8 Ir / I)",
         {{"Ir", "rating of the circuit", amount(rating)}, {"I", "current of one heater", amount(each)}},
         reason::Term{"n", "heaters on a circuit", units::count(most)}});
    out.sources = {share.source};
    return out;
}

Clause<bool> disconnect_in_sight() {
    return {true, "a means of disconnection stands in sight of each heater, or can be locked open", nec("422.31")};
}

Clause<Length> in_sight_distance() {
    return {50.0 * foot, "in sight means visible and at most 50 ft away", nec("Article 100")};
}

Clause<Ratio> circuit_share_limit() {
    return {0.5, "one tripped breaker leaves at least half the heaters running", practice()};
}

}  // namespace bw::code
