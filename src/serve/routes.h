// SPDX-License-Identifier: MIT
#pragma once
// What is at which address: docs/api.md, and the page.

#include "serve/connections.h"
#include "serve/job_api.h"
#include "serve/page.h"

namespace bw::serve {

class Routes : public Site {
public:
    Routes(JobApi& api, const Page& page) : api_(api), page_(page) {}
    [[nodiscard]] std::optional<Answer> refused(const Request& request, int port) const override;
    [[nodiscard]] bool lengthy(const Request& request) const override;
    [[nodiscard]] Outcome answer(const Request& request) override;

private:
    using Parts = std::vector<std::string>;
    Answer asked(const Request& request, const Parts& parts);
    Answer api(const Request& request, const Parts& parts);
    /// What is asked of one job: /api/jobs/ID/WHAT…
    Answer of_job(const Request& request, const Parts& parts);
    Outcome events(const Request& request, const std::string& job);

    JobApi& api_;
    const Page& page_;
};

}  // namespace bw::serve
