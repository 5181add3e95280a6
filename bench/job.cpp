// SPDX-License-Identifier: MIT
#include "job.h"

namespace bw::bench {

Result<Job> sixteen() {
    auto survey = survey::read(BANKWRIGHT_SOURCE "/bench/data/sixteen-heaters.toml");
    if (!survey) return tl::unexpected(survey.error());
    auto catalogue = catalogue::load();
    if (!catalogue) return tl::unexpected(catalogue.error());
    return Job{std::move(*survey), std::move(*catalogue)};
}

}  // namespace bw::bench
