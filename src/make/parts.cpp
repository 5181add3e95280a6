// SPDX-License-Identifier: MIT
#include "make/parts.h"

#include <fmt/format.h>
#include <algorithm>
#include <map>
#include <set>

#include "reason/reason.h"

namespace bw::make {
namespace {

using text::Part;
using text::Service;

/// The densest water is, so that a filled weight is never understated.
constexpr double water_density = 1000.0;  // kg/m3

/// One catalogue row as the parts list sees it, whatever kind of row it is.
struct Row {
    std::string title, material, size, source;
    double price = 0;    ///< USD a piece or a metre
    double seconds = 0;  ///< labour a piece or a metre
    bool by_length = false;
};

std::string printed(units::Nominal size) { return units::print(size) + " in"; }

std::string printed(const reason::Sources& sources) {
    std::string text;
    for (const auto& source : sources) text += (text.empty() ? "" : "; ") + reason::print(source);
    return text;
}

Row row_of(const catalogue::Heater& heater) {
    return {.title = heater.title,
            .source = printed(heater.sources),
            .price = heater.price,
            .seconds = units::si_value(heater.labour)};
}

Row row_of(const catalogue::Pipe& pipe) {
    return {.title = fmt::format("{} by the length", text::name(pipe.material)),
            .material = std::string(text::name(pipe.material)),
            .size = pipe.size.eighths > 0 ? printed(pipe.size) : std::string{},
            .source = printed(pipe.sources),
            .price = pipe.price_per_metre,
            .seconds = units::si_value(pipe.labour_per_metre),
            .by_length = true};
}

Row row_of(const catalogue::Item& item) {
    Row row{.title = item.title,
            .source = printed(item.sources),
            .price = item.price,
            .seconds = units::si_value(item.labour)};
    if (item.material) row.material = text::name(*item.material);
    if (item.size && item.size->eighths > 0) row.size = printed(*item.size);
    if (item.branch && item.branch->eighths > 0) row.size += " x " + printed(*item.branch);
    return row;
}

std::optional<Row> row_of(const catalogue::Catalogue& catalogue, const std::string& key) {
    if (const auto* heater = catalogue.heater(key)) return row_of(*heater);
    if (const auto* pipe = catalogue.pipe(key)) return row_of(*pipe);
    if (const auto* item = catalogue.item(key)) return row_of(*item);
    return std::nullopt;
}

struct Gathered {
    Row row;
    Line line;
    std::set<Service> services;
};

void price(Gathered& gathered, const std::map<std::string, double>& overrides) {
    auto& line = gathered.line;
    const auto& row = gathered.row;
    const double units_bought = row.by_length ? line.length : line.count;
    const auto own = overrides.find(line.item);
    line.price_each = own == overrides.end() ? row.price : own->second;
    line.price = units_bought * line.price_each;
    line.minutes = units_bought * row.seconds / 60;
    line.title = row.title;
    line.material = row.material;
    line.size = row.size;
    line.source = own == overrides.end() ? row.source : "price given in the survey; " + row.source;
    for (const auto service : gathered.services) {
        line.service += (line.service.empty() ? "" : ", ") + std::string(text::name(service));
    }
}

Result<std::map<std::string, Gathered>> gather(const catalogue::Catalogue& catalogue, const plant::Plant& plant) {
    std::map<std::string, Gathered> found;
    for (std::size_t i = 0; i < plant.pieces.size(); ++i) {
        const auto& piece = plant.pieces[i];
        if (piece.part == Part::connection) continue;
        auto [at, added] = found.try_emplace(piece.item);
        if (added) {
            auto row = row_of(catalogue, piece.item);
            if (!row) {
                return fail(
                    fmt::format("piece {} is of item '{}', which is not in the catalogue", piece.id, piece.item),
                    "add a row of that key to the catalogue");
            }
            at->second.row = std::move(*row);
            at->second.line.item = piece.item;
        }
        auto& line = at->second.line;
        at->second.services.insert(piece.service);
        ++line.count;
        if (at->second.row.by_length) line.length += piece.cut;
        line.mass += piece.mass_dry;
        line.pieces.push_back(static_cast<int>(i));
    }
    return found;
}

}  // namespace

Result<Estimate> estimate(const survey::Survey& survey, const catalogue::Catalogue& catalogue,
                          const plant::Plant& plant) {
    auto found = gather(catalogue, plant);
    if (!found) return tl::unexpected(found.error());

    // item keys rise within a service because the map is in key order and the sort is stable
    std::vector<Gathered*> order;
    for (auto& [key, gathered] : *found) order.push_back(&gathered);
    std::stable_sort(order.begin(), order.end(),
                     [](const Gathered* a, const Gathered* b) { return *a->services.begin() < *b->services.begin(); });

    Estimate estimate;
    double minutes = 0, water = 0;
    for (auto* gathered : order) {
        price(*gathered, survey.preferences.prices);
        estimate.parts += gathered->line.price;
        minutes += gathered->line.minutes;
        estimate.mass_dry += gathered->line.mass;
        estimate.lines.push_back(std::move(gathered->line));
    }
    for (const auto& piece : plant.pieces) water += piece.water;
    estimate.mass_full = estimate.mass_dry + water * water_density;
    estimate.hours = minutes / 60;
    estimate.labour = estimate.hours * *survey.preferences.labour_rate;
    estimate.markup = estimate.parts * *survey.preferences.markup;
    estimate.total = estimate.parts + estimate.labour + estimate.markup;
    return estimate;
}

}  // namespace bw::make
