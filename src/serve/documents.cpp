// SPDX-License-Identifier: MIT
#include "serve/documents.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "draw/sheets.h"
#include "model/model.h"
#include "paper/paper.h"

namespace bw::serve {
namespace {

constexpr std::size_t most_held = 64u << 20;

/// One revision, layout, unit system and paper.
std::string key_of(const Ask& ask, const Shown& shown) {
    const auto& chosen = shown.result.chosen;
    return fmt::format("{}/{}/{}/{}/{}/{}/{}/{}", ask.job, shown.revision, shown.settled,
                       chosen ? chosen->capacity.heater : "", chosen ? chosen->layout.id : "",
                       ask.system == units::System::si ? "si" : "us", ask.paper, ask.name);
}

Result<draw::Paper> paper_of(const Ask& ask) {
    if (ask.paper.empty()) return draw::usual_paper(ask.system);
    if (ask.paper == "a3") return draw::Paper::a3;
    if (ask.paper == "a4") return draw::Paper::a4;
    if (ask.paper == "tabloid") return draw::Paper::tabloid;
    if (ask.paper == "letter") return draw::Paper::letter;
    return fail("there is no such paper", "a3, a4, tabloid or letter");
}

}  // namespace

std::span<const DocumentKind> document_kinds() {
    static constexpr std::array<DocumentKind, 9> list{{
        {"report.pdf", "application/pdf",
         "The proof for the inspector: what was assumed, demand, every check with its working, parts and cautions."},
        {"sheets.pdf", "application/pdf",
         "Dimensioned plan and elevations, gas, water, vent and wiring diagrams, to build from."},
        {"sheets.dxf", "image/vnd.dxf", "Plan and elevations full size, for CAD."},
        {"parts.csv", "text/csv", "Every part with count, length, price and hours, for a spreadsheet or an order."},
        {"plant.ifc", "application/x-step",
         "The plant as a building model (IFC 4), with ports, systems, weights, pressures and flows."},
        {"plant.step", "model/step", "The plant as exact solids, for mechanical CAD."},
        {"plant.glb", "model/gltf-binary", "The plant as a 3-D model, for viewers."},
        {"result.json", "application/json", "The whole result as data, for other programs."},
        {"survey.toml", "application/toml", "The survey itself, with its comments: what this program starts from."},
    }};
    return list;
}

std::shared_ptr<const std::string> Documents::kept(const std::string& key) {
    const std::lock_guard lock(mutex_);
    const auto found = std::find_if(kept_.begin(), kept_.end(), [&](const Kept& k) { return k.key == key; });
    return found == kept_.end() ? nullptr : found->bytes;
}

std::optional<std::size_t> Documents::size(const Ask& ask, const Shown& shown) {
    const auto bytes = kept(key_of(ask, shown));
    return bytes ? std::optional(bytes->size()) : std::nullopt;
}

Result<std::shared_ptr<const std::string>> Documents::make(const Ask& ask, const ShownPtr& shown) {
    const auto key = key_of(ask, *shown);
    if (auto there = kept(key)) return there;
    const std::lock_guard one_at_a_time(making_);
    if (auto there = kept(key)) return there;
    auto made = bytes(ask, shown->result);
    if (!made) return tl::unexpected(made.error());
    auto shared = std::make_shared<const std::string>(std::move(*made));
    const std::lock_guard lock(mutex_);
    held_ += shared->size();
    kept_.push_back({key, shared});
    while (held_ > most_held && kept_.size() > 1) held_ -= kept_.front().bytes->size(), kept_.pop_front();
    return shared;
}

Result<std::string> Documents::bytes(const Ask& ask, const design::Result& result) {
    if (ask.name == "report.pdf") return paper::report(result, catalogue_, ask.system);
    if (ask.name == "result.json") return design::to_json(result, ask.system);
    if (!result.chosen) return fail("no layout fits, so there is no plant to draw", "a survey in which one fits");
    if (ask.name == "sheets.pdf") {
        const auto paper = paper_of(ask);
        if (!paper) return tl::unexpected(paper.error());
        return draw::sheets(result, catalogue_, ask.system, *paper).map([](draw::Sheets&& sheets) {
            return std::move(sheets.pdf);
        });
    }
    if (ask.name == "sheets.dxf") return draw::dxf(result, catalogue_, ask.system);
    if (ask.name == "parts.csv") return paper::parts_csv(result.chosen->estimate, ask.system);
    if (ask.name == "plant.glb") return model::gltf(result);
    if (ask.name == "plant.ifc") return model::ifc(result, catalogue_);
    if (ask.name == "plant.step") return model::step(result);
    return fail("there is no document " + ask.name, "one of those listed");
}

}  // namespace bw::serve
