// SPDX-License-Identifier: MIT
#include "code/gas_tables.h"

#include <cassert>
#include <cmath>
#include <span>

#include "matter/fuel.h"
#include "text/embedded.h"
#include "text/material.h"
#include "text/toml.h"

namespace bw::code {

[[nodiscard]] std::span<const text::EmbeddedFile> embedded();

namespace {

using text::Node;
using text::TableReader;

Result<GasPipeKind> kind_named(const std::string& word) {
    if (word == "metallic-40") return GasPipeKind::metallic_40;
    if (word == "copper") return GasPipeKind::copper;
    if (word == "polyethylene") return GasPipeKind::polyethylene;
    if (word == "csst") return GasPipeKind::csst;
    return fail("unknown pipe \"" + word + "\"", "metallic-40, copper, polyethylene or csst");
}

Result<GasCell> read_cell(const Node& node, Standing standing) {
    auto parts = node.items();
    if (parts.size() != 3) return node.error("a cell has three parts", "[size, length in ft, capacity]");
    auto size = parts[0].as_nominal();
    if (!size) return tl::unexpected(size.error());
    auto length = parts[1].as_number();
    if (!length) return tl::unexpected(length.error());
    auto printed = parts[2].as_number();
    if (!printed) return tl::unexpected(printed.error());
    if (*length <= 0 || *printed <= 0) return node.error("a cell is not positive", "length and capacity above zero");
    return GasCell{*size, *length * foot, *printed, standing};
}

void read_cells(TableReader& r, const char* key, Standing standing, GasTable& out) {
    auto list = r.child(key);
    if (!list) return;
    for (const auto& item : list->items()) {
        auto cell = read_cell(item, standing);
        if (!cell) return r.fail(cell.error());
        out.cells.push_back(*cell);
    }
}

void read_rows(TableReader& r, GasTable& out) {
    auto rows = r.required_child("rows", "the printed lengths in ft");
    if (!rows) return;
    for (const auto& item : rows->items()) {
        auto feet = item.as_number();
        if (!feet) return r.fail(feet.error());
        if (!out.lengths.empty() && *feet <= out.lengths.back())
            return r.fail(item.error("rows do not rise", "lengths from short to long").value());
        out.lengths.push_back(*feet);
    }
}

Result<GasTable> read_table(const Node& node) {
    GasTable out;
    std::string pipe;
    TableReader r(node);
    r.require("number", out.number);
    r.require_named("gas", out.gas);
    r.require("specific-gravity", out.specific_gravity, {0.35, 2.10});
    r.require("pipe", pipe);
    r.require("inlet", out.inlet, Kind::pressure, {0, 1e6});
    r.require("inlet-is-bound", out.inlet_is_bound);
    r.require("drop", out.drop, Kind::pressure, {0, 1e6});
    r.require("follows-equation", out.follows_equation);
    r.require("below", out.below, {0, 0.5});
    r.require("above", out.above, {0, 0.5});
    r.require("rows-complete", out.rows_complete);
    read_rows(r, out);
    read_cells(r, "published", Standing::published, out);
    read_cells(r, "memory", Standing::memory, out);
    read_cells(r, "computed", Standing::computed, out);
    if (r.ok()) {
        auto kind = kind_named(pipe);
        if (kind)
            out.kind = *kind;
        else
            r.fail_at("pipe", kind.error().what, kind.error().expected);
    }
    out.heat = matter::fuel(out.gas).tabled_by_heat;
    if (auto ok = r.finish(); !ok) return tl::unexpected(ok.error());
    return out;
}

bool same(Pressure a, Pressure b) { return std::abs(a / b - 1) < 1e-6; }

std::optional<GasPipeKind> kind_of(Material material) {
    switch (text::row_of(material).gas_sizing) {
        case text::GasSizing::metallic_40: return GasPipeKind::metallic_40;
        case text::GasSizing::copper: return GasPipeKind::copper;
        case text::GasSizing::csst: return GasPipeKind::csst;
        case text::GasSizing::none: break;
    }
    return std::nullopt;
}

}  // namespace

Result<std::vector<GasTable>> read_gas_tables(std::string text, std::string file_name) {
    auto document = text::Document::parse(std::move(text), std::move(file_name));
    if (!document) return tl::unexpected(document.error());
    std::string name, edition, description;
    std::int64_t format = 0;
    TableReader r(document->root());
    r.require("format", format, {1, 1});
    r.require("document", name);
    r.require("edition", edition);
    r.require("description", description);
    std::vector<GasTable> out;
    if (auto list = r.required_child("table", "one or more [[table]]")) {
        for (const auto& item : list->items()) {
            auto table = read_table(item);
            if (!table) return tl::unexpected(table.error());
            table->document = name;
            table->edition = edition;
            out.push_back(std::move(*table));
        }
    }
    if (auto ok = r.finish(); !ok) return tl::unexpected(ok.error());
    return out;
}

const std::vector<GasTable>& gas_tables() {
    static const std::vector<GasTable> tables = [] {
        std::vector<GasTable> all;
        for (const auto& file : embedded()) {
            auto read = read_gas_tables(std::string(file.text), std::string(file.name));
            assert(read && "the embedded gas tables are tested to be readable");
            if (read) all.insert(all.end(), read->begin(), read->end());
        }
        return all;
    }();
    return tables;
}

const GasTable* gas_table(const GasFeed& feed, Pressure drop, Material material) {
    auto kind = kind_of(material);
    if (!kind) return nullptr;
    for (const auto& table : gas_tables()) {
        if (table.gas != feed.gas || table.kind != *kind || !same(table.drop, drop)) continue;
        bool inlet = table.inlet_is_bound ? feed.inlet < table.inlet * (1 - 1e-9) : same(table.inlet, feed.inlet);
        if (inlet) return &table;
    }
    return nullptr;
}

}  // namespace bw::code
