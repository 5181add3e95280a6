// SPDX-License-Identifier: MIT
#include "code/gas_pipe.h"

#include <fmt/format.h>

#include "code/gas_tables.h"
#include "reckon/topic.h"
#include "text/material.h"

namespace bw::reckon {

namespace {

using units::Kind;

code::GasFeed feed_of(const Inputs& in) {
    const auto gas = in.named<text::Gas>("gas");
    return {gas, in.has("specific-gravity") ? in.number("specific-gravity") : code::gas_constants(gas).specific_gravity,
            in.get<units::Pressure>("inlet")};
}

void add_capacity(std::vector<Named>& result, const code::PipeCapacity& found) {
    if (found.equation)
        result.push_back({"capacity", units::amount(*found.equation, Kind::gas_flow), "by the code's equation"});
    if (found.table) {
        const auto says = fmt::format("by the printed table, {:g} ft row; the table governs", found.table->row);
        if (found.table->flow)
            result.push_back({"table-capacity", units::amount(*found.table->flow, Kind::gas_flow), says});
        else if (found.table->heat)
            result.push_back({"table-capacity", units::amount(*found.table->heat), says});
    }
    if (!found.table_number.empty()) result.push_back({"table", found.table_number, "of the fuel gas code"});
    result.push_back({"governing", units::amount(found.governing, Kind::gas_flow), found.table_note});
}

/// The inside diameter goes into the equation only; csst has none and stands by its table alone.
Result<units::Length> inside_of(const catalogue::Catalogue& catalogue, units::Nominal size, text::Material material) {
    if (text::row_of(material).gas_sizing == text::GasSizing::csst) return units::Length{};
    return find_pipe(catalogue, size, material).map([](const catalogue::Pipe* pipe) { return pipe->inside; });
}

Result<Findings> capacity_of_size(const Inputs& in, const catalogue::Catalogue& catalogue, text::Material material,
                                  bool low_sulphide) {
    const auto size = in.size("size");
    const auto inside = inside_of(catalogue, size, material);
    if (!inside) return tl::unexpected(inside.error());
    const auto found = code::pipe_capacity(feed_of(in), in.get<units::Pressure>("drop"), material, size, *inside,
                                           in.get<units::Length>("length"), low_sulphide);
    if (!found) return tl::unexpected(found.error());
    Findings out{{}, found->derivation, found->sources};
    add_capacity(out.result, found->value);
    return out;
}

Result<Findings> size_for_load(const Inputs& in, const catalogue::Catalogue& catalogue, text::Material material,
                               bool low_sulphide) {
    std::vector<code::GasSize> sizes;
    for (const auto* pipe : catalogue.sizes(material)) sizes.push_back({pipe->size, pipe->inside});
    const auto found =
        code::gas_size(feed_of(in), in.get<units::Pressure>("drop"), material, in.get<units::VolumeFlow>("load"),
                       in.get<units::Length>("length"), sizes, low_sulphide);
    if (!found) return tl::unexpected(found.error());
    Findings out{{}, found->derivation, found->sources};
    out.result.push_back({"size", units::print(found->value.size.nominal), "smallest that carries the load"});
    add_capacity(out.result, found->value.capacity);
    return out;
}

Result<Findings> run(const Inputs& in, const catalogue::Catalogue& catalogue) {
    const auto material = in.named<text::Material>("material");
    const bool low_sulphide = !in.has("low-sulphide") || in.word("low-sulphide") == "yes";
    if (auto allowed = code::gas_material(material, low_sulphide); !allowed) return tl::unexpected(allowed.error());
    if (in.has("size") == in.has("load"))
        return fail("gas-pipe: what is asked for is not clear",
                    "either a size (its capacity is found) or a load (its size is found)");
    auto found = in.has("size") ? capacity_of_size(in, catalogue, material, low_sulphide)
                                : size_for_load(in, catalogue, material, low_sulphide);
    if (found && text::row_of(material).gas_use == text::GasUse::low_sulphide)
        found->derivation.push_back(
            {"Copper carries fuel gas only where the gas holds no more than 0.3 grain of hydrogen "
             "sulphide in 100 ft3: confirm with the utility"});
    return found;
}

}  // namespace

Entry gas_pipe() {
    return {
        {"gas-pipe",
         "Capacity of a gas pipe, or the size for a load, by the fuel gas code",
         {{.name = "material",
           .says = "of the pipe",
           .form = Form::word,
           .choices = {"steel-40", "steel-80", "stainless-10s", "copper-k", "copper-l", "copper-m", "cpvc", "csst"}},
          {.name = "size", .says = "nominal; of csst its EHD", .form = Form::size, .required = false},
          {.name = "length", .says = "longest run, fittings included", .kind = Kind::long_length},
          {.name = "inlet", .says = "pressure where the pipe begins, gauge", .kind = Kind::gas_pressure},
          {.name = "drop", .says = "allowed over the length", .kind = Kind::gas_pressure},
          {.name = "gas",
           .says = "fuel",
           .form = Form::word,
           .required = false,
           .fallback = "natural",
           .choices = words<text::Gas>()},
          {.name = "specific-gravity", .says = "against air", .kind = Kind::number, .required = false},
          {.name = "load", .says = "instead of a size", .kind = Kind::gas_flow, .required = false},
          {.name = "low-sulphide",
           .says = "not above 0.3 grain per 100 ft3, which copper needs",
           .form = Form::word,
           .required = false,
           .choices = {"yes", "no"}}}},
        run};
}

}  // namespace bw::reckon
