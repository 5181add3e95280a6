// SPDX-License-Identifier: MIT
#include <array>

#include "reason/document.h"
#include "survey/parts.h"
#include "survey/section.h"

namespace bw::survey {
namespace {

Result<Top> top_tables(const text::Document& document) {
    text::TableReader reader(document.root());
    Top top{.file = document.root()};
    top.job = reader.required_child("job", "a table [job] with the title");
    top.building = reader.required_child("building", "a table [building] with fixtures or block loads");
    top.supply = reader.child("supply");
    top.gas = reader.required_child("gas", "a table [gas] with the kind of gas");
    top.site = reader.child("site");
    top.water = reader.child("water");
    top.recirculation = reader.child("recirculation");
    top.room = reader.required_child("room", "a table [room] with plan, ceiling and a door");
    top.connections = reader.child("connections");
    top.codes = reader.child("codes");
    top.safety = reader.child("safety");
    top.preferences = reader.child("preferences");
    if (auto done = reader.finish(); !done) return tl::unexpected(done.error());
    return top;
}

/// Defaults in the order a survey is written in, whatever order they were taken in.
void sort_by_section(std::vector<Assumption>& assumed) {
    constexpr std::array<std::string_view, 11> order{"building", "supply",        "gas",        "site",
                                                     "water",    "recirculation", "room",       "connections",
                                                     "codes",    "safety",        "preferences"};
    const auto rank = [&](const Assumption& a) {
        const auto section = std::string_view(a.field).substr(0, a.field.find('.'));
        return std::find(order.begin(), order.end(), section) - order.begin();
    };
    std::stable_sort(assumed.begin(), assumed.end(),
                     [&](const Assumption& a, const Assumption& b) { return rank(a) < rank(b); });
}

}  // namespace

Result<Survey> parse(std::string text, std::string file_name) {
    const auto document = text::Document::parse(std::move(text), file_name);
    if (!document) return tl::unexpected(document.error());
    const auto top = top_tables(*document);
    if (!top) return tl::unexpected(top.error());
    Survey survey;
    survey.file = std::move(file_name);
    constexpr std::array readers{read_job,    read_building,    read_supply,        read_gas,
                                 read_site,   read_water,       read_recirculation, read_codes,
                                 read_safety, read_preferences, read_room};
    for (const auto reader : readers)
        if (auto done = reader(*top, survey); !done) return tl::unexpected(done.error());
    sort_by_section(survey.assumed);
    return survey;
}

Result<Survey> read(const std::string& path) {
    return text::read_file(path).and_then([&](std::string text) { return parse(std::move(text), path); });
}

bool Survey::depends_on_fields(std::string_view field) const {
    return std::any_of(assumed.begin(), assumed.end(), [field](const Assumption& a) {
        return a.field.starts_with(field) && (a.field.size() == field.size() || a.field[field.size()] == '.');
    });
}

const Code* Survey::adopted(std::string_view document) const {
    const auto* wanted = reason::document_named(document);
    const auto at = std::find_if(codes.begin(), codes.end(), [&](const Code& c) {
        return wanted ? reason::document_named(c.document) == wanted : c.document == document;
    });
    return at == codes.end() ? nullptr : &*at;
}

}  // namespace bw::survey
