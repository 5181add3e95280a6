// SPDX-License-Identifier: MIT
#include "code/altitude.h"

#include <cmath>

#include "code/sources.h"

namespace bw::code {

namespace {

constexpr double code_share = 0.04, code_from_feet = 2000;

Result<double> feet_of(Length altitude) {
    double feet = altitude / foot;
    if (!std::isfinite(feet) || feet < -2000)
        return fail("altitude " + print(amount(altitude, Kind::altitude), System::us) + " is not a place on land",
                    "-2,000 ft or higher");
    return feet;
}

Result<void> judge(double factor, Length altitude) {
    if (factor > 0) return {};
    return fail("at " + print(amount(altitude, Kind::altitude), System::us) + " the rule leaves no input",
                "a maker's own figure for the altitude");
}

}  // namespace

Result<Ruled<Ratio>> altitude_factor(Length altitude) {
    auto feet = feet_of(altitude);
    if (!feet) return tl::unexpected(feet.error());
    Ruled<Ratio> out;
    out.sources = {nfpa54("11.1.2", Standing::memory)};
    reason::Term height{"z", "altitude", amount(altitude, Kind::altitude)};
    if (*feet <= code_from_feet) {
        out.value = 1;
        out.derivation.push_back({"No loss of input up to 2,000 ft",
                                  "",
                                  {height},
                                  reason::Term{"fa", "share of sea-level input", units::percent(1)}});
        return out;
    }
    out.value = 1 - code_share * *feet / 1000;
    if (auto ok = judge(out.value, altitude); !ok) return tl::unexpected(ok.error());
    out.derivation.push_back({"Above 2,000 ft the input falls 4 % for every 1,000 ft of the whole altitude",
                              "fa = 1 - 0.04 z / 1000 ft",
                              {height},
                              reason::Term{"fa", "share of sea-level input", units::percent(out.value)}});
    return out;
}

Result<Ruled<Ratio>> altitude_factor(Length altitude, double share_per_1000ft, Length above) {
    auto feet = feet_of(altitude);
    if (!feet) return tl::unexpected(feet.error());
    if (!(share_per_1000ft >= 0 && share_per_1000ft < 1))
        return fail(fmt::format("a loss of {:.4g} for every 1,000 ft", share_per_1000ft), "0 to below 1");
    Ruled<Ratio> out;
    double over = std::max(0.0, *feet - double(above / foot));
    out.value = 1 - share_per_1000ft * over / 1000;
    if (auto ok = judge(out.value, altitude); !ok) return tl::unexpected(ok.error());
    out.derivation.push_back({"The maker's rule: a share of input lost for every 1,000 ft above where it starts",
                              "fa = 1 - r max(0, z - z0) / 1000 ft",
                              {{"z", "altitude", amount(altitude, Kind::altitude)},
                               {"z0", "rule starts at", amount(above, Kind::altitude)},
                               {"r", "loss for every 1,000 ft", units::percent(share_per_1000ft)}},
                              reason::Term{"fa", "share of sea-level input", units::percent(out.value)}});
    out.sources = {{"heater maker's data", "", "altitude rule", Standing::maker}};
    return out;
}

}  // namespace bw::code
