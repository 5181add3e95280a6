// SPDX-License-Identifier: MIT
#include "cli/package.h"

#include "draw/sheets.h"
#include "paper/paper.h"

namespace bw::cli {

bw::Result<Files> package(const design::Result& result, const catalogue::Catalogue& catalogue, units::System system) {
    Files files;
    auto report = paper::report(result, catalogue, system);
    if (!report) return tl::unexpected(report.error());
    files.emplace_back("report.pdf", std::move(*report));
    if (result.chosen) {
        auto sheets = draw::sheets(result, catalogue, system);
        if (!sheets) return tl::unexpected(sheets.error());
        files.emplace_back("sheets.pdf", std::move(sheets->pdf));
        for (auto& svg : sheets->svg) files.push_back(std::move(svg));
        files.emplace_back("parts.csv", paper::parts_csv(result.chosen->estimate, system));
    }
    files.emplace_back("result.json", design::to_json(result, system));
    return files;
}

}  // namespace bw::cli
