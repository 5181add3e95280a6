// SPDX-License-Identifier: MIT
#include "cli/package.h"

#include <future>

#include "model/model.h"
#include "paper/paper.h"

namespace bw::cli {

namespace {

/// Adds a document, or keeps the first error.
void add(bw::Result<Files>& files, const char* name, bw::Result<std::string> bytes) {
    if (!files) return;
    if (bytes)
        files->emplace_back(name, std::move(*bytes));
    else
        files = tl::unexpected(std::move(bytes.error()));
}

/// What is drawn on paper, one after another: the drawing library is on one thread.
bw::Result<Files> papers(const design::Result& result, const catalogue::Catalogue& catalogue, units::System system,
                         draw::Paper paper) {
    bw::Result<Files> files;
    add(files, "report.pdf", paper::report(result, catalogue, system));
    if (!result.chosen || !files) return files;
    auto sheets = draw::sheets(result, catalogue, system, paper);
    if (!sheets) return tl::unexpected(sheets.error());
    files->emplace_back("sheets.pdf", std::move(sheets->pdf));
    for (auto& svg : sheets->svg) files->push_back(std::move(svg));
    add(files, "sheets.dxf", draw::dxf(result, catalogue, system));
    add(files, "parts.csv", paper::parts_csv(result.chosen->estimate, system));
    return files;
}

}  // namespace

bw::Result<Files> package(const design::Result& result, const catalogue::Catalogue& catalogue, units::System system,
                          draw::Paper paper) {
    std::future<bw::Result<std::string>> step;  // the slowest by far: beside all else
    if (result.chosen) step = std::async(std::launch::async, [&] { return model::step(result); });
    auto files = papers(result, catalogue, system, paper);
    if (result.chosen) {
        add(files, "plant.glb", model::gltf(result));
        add(files, "plant.ifc", model::ifc(result, catalogue));
        add(files, "plant.step", step.get());
    }
    add(files, "result.json", design::to_json(result, system));
    return files;
}

}  // namespace bw::cli
