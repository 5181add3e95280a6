// SPDX-License-Identifier: MIT
#include "code/hourly_demand.h"

#include <array>
#include <cmath>

namespace bw::code {

namespace {

/// A cell of the printed table, gal/h. Zero: the table prints nothing.
struct Cell {
    double least = 0, greatest = 0;
    bool read = false;          ///< read in the public text; else from memory
    double other_printing = 0;  ///< zero: printed copies agree
};
constexpr Cell none{};
constexpr Cell mem(double v) { return {v, v}; }
constexpr Cell mem(double low, double high) { return {low, high}; }
constexpr Cell seen(double v) { return {v, v, true}; }
constexpr Cell seen(double low, double high) { return {low, high, true}; }

constexpr std::size_t buildings = 9;
struct Row {
    Fixture fixture;
    std::array<Cell, buildings> cells;  ///< apartment club gymnasium hospital hotel industrial office residence school
};

constexpr std::array<Row, 10> table{{
    {Fixture::basin_private, {mem(2), mem(2), mem(2), mem(2), seen(2), seen(2), mem(2), mem(2), mem(2)}},
    {Fixture::basin_public, {mem(4), seen(6), mem(8), mem(6), mem(8), mem(12), mem(6), none, seen(15)}},
    {Fixture::bathtub, {mem(20), mem(20), seen(30), mem(20), seen(20), none, none, mem(20), none}},
    {Fixture::dishwasher,
     {seen(15), mem(50, 150), none, seen(50, 150), Cell{50, 200, false, 210}, mem(20, 100), none, mem(15),
      mem(20, 100)}},
    {Fixture::foot_basin, {mem(3), mem(3), mem(12), seen(3), mem(3), mem(12), none, seen(3), seen(3)}},
    {Fixture::kitchen_sink,
     {seen(10), mem(20), none, mem(20), mem(30), mem(20), seen(20), Cell{10, 10, true, 20}, mem(20)}},
    {Fixture::laundry_tub, {seen(20), seen(28), none, seen(28), mem(28), none, none, mem(20), none}},
    {Fixture::pantry_sink, {mem(5), mem(10), none, seen(10), seen(10), none, mem(10), mem(5), mem(10)}},
    {Fixture::shower, {seen(30), mem(150), seen(225), seen(75), seen(75), mem(225), mem(30), mem(30), seen(225)}},
    {Fixture::service_sink, {mem(20), seen(20), none, seen(20), mem(30), mem(20), seen(20), mem(15), mem(20)}},
}};

struct Factor {
    double value;
    bool read;
};
constexpr std::array<Factor, buildings> demand_factors{{{0.30, true},
                                                        {0.30, true},
                                                        {0.40, false},
                                                        {0.25, true},
                                                        {0.25, false},
                                                        {0.40, false},
                                                        {0.30, true},
                                                        {0.30, false},
                                                        {0.40, false}}};
constexpr std::array<Factor, buildings> storage_factors{{{1.25, false},
                                                         {0.90, true},
                                                         {1.00, false},
                                                         {0.60, false},
                                                         {0.80, false},
                                                         {1.00, false},
                                                         {2.00, false},
                                                         {0.70, true},
                                                         {1.00, false}}};

std::size_t column(Building building) { return static_cast<std::size_t>(building); }

Source handbook(const char* what, bool read) {
    return {"ASHRAE Handbook, HVAC Applications, Service Water Heating", "", what,
            read ? Standing::published : Standing::memory};
}
constexpr const char* table_name = "table Hot-Water Demand per Fixture for Various Types of Buildings";

const Row* find(Fixture fixture) {
    for (const auto& row : table)
        if (row.fixture == fixture) return &row;
    return nullptr;
}

std::string printed(Fixture fixture, int count, const HourlyRate& rate) {
    auto text = fmt::format("{} {} at {} each", count, text::name(fixture),
                            print(amount(rate.used(), Kind::hourly_flow), System::us));
    if (rate.least != rate.greatest)
        text += fmt::format(" (the table prints {:g} to {:g} gal/h; the greatest is taken)",
                            std::round(rate.least / gallon_per_hour), std::round(rate.greatest / gallon_per_hour));
    if (rate.other_printing)
        text +=
            fmt::format(" (another printed copy has {:g} gal/h)", std::round(*rate.other_printing / gallon_per_hour));
    return text;
}

}  // namespace

const std::vector<Fixture>& hourly_fixtures() {
    static const std::vector<Fixture> all = [] {
        std::vector<Fixture> out;
        for (const auto& row : table) out.push_back(row.fixture);
        return out;
    }();
    return all;
}

Result<HourlyRate> hourly_rate(Building building, Fixture fixture) {
    const Row* row = find(fixture);
    if (!row)
        return fail("the hourly table has no row for " + std::string(text::name(fixture)),
                    "one of its ten fixtures, basin-private to service-sink");
    const Cell& cell = row->cells.at(column(building));
    if (cell.greatest == 0) {
        std::string where;
        for (std::size_t i = 0; i < buildings; ++i)
            if (row->cells[i].greatest > 0)
                where += (where.empty() ? "" : ", ") + std::string(text::name(static_cast<Building>(i)));
        return fail(fmt::format("the hourly table leaves {} blank for {}", text::name(fixture), text::name(building)),
                    "a building it has a value for: " + where);
    }
    HourlyRate out;
    out.least = cell.least * gallon_per_hour;
    out.greatest = cell.greatest * gallon_per_hour;
    if (cell.other_printing > 0) out.other_printing = cell.other_printing * gallon_per_hour;
    out.source = handbook(table_name, cell.read);
    return out;
}

std::optional<Fixture> hourly_row(Fixture fixture) {
    switch (fixture) {
        case Fixture::bar_sink: return Fixture::pantry_sink;
        case Fixture::bath_shower: return Fixture::shower;
        case Fixture::shower_public: return Fixture::shower;
        case Fixture::kitchen_sink_commercial: return Fixture::kitchen_sink;
        case Fixture::bidet:
        case Fixture::clothes_washer:
        case Fixture::clothes_washer_public:
        case Fixture::urinal:
        case Fixture::water_closet: return std::nullopt;
        default: return fixture;
    }
}

HourlyFactors hourly_factors(Building building) {
    const auto& demand = demand_factors.at(column(building));
    const auto& storage = storage_factors.at(column(building));
    return {demand.value, storage.value, handbook("demand factor of the table", demand.read),
            handbook("storage capacity factor of the table", storage.read)};
}

Result<Ruled<HourlyDemand>> hourly_demand(Building building, const std::map<Fixture, int>& counts) {
    Ruled<HourlyDemand> out;
    double possible = 0;
    int fixtures = 0;
    bool all_read = true;
    reason::Step sum;
    sum.formula = "possible = sum of count x rate";
    for (const auto& [fixture, count] : counts) {
        if (count < 0) return fail(fmt::format("{} {}", count, text::name(fixture)), "a count of zero or more");
        if (count == 0) continue;
        auto rate = hourly_rate(building, fixture);
        if (!rate) return tl::unexpected(rate.error());
        fixtures += count;
        possible += count * double(rate->used() / gallon_per_hour);
        all_read = all_read && rate->source.standing == Standing::published;
        sum.says += (sum.says.empty() ? "" : "; ") + printed(fixture, count, *rate);
    }
    if (fixtures == 0) return fail("no fixture that the hourly table has a row for", "at least one");
    auto factors = hourly_factors(building);
    out.value.possible = possible * gallon_per_hour;
    out.value.probable = factors.demand * out.value.possible;
    out.value.storage = factors.storage * out.value.probable * hour;
    sum.result = reason::Term{"possible", "possible maximum demand, 140 degF water",
                              amount(out.value.possible, Kind::hourly_flow)};
    out.derivation.push_back(std::move(sum));
    out.derivation.push_back(
        {fmt::format("Demand factor for {}", text::name(building)),
         "probable = possible x fd",
         {{"fd", "demand factor", units::number(factors.demand)}},
         reason::Term{"probable", "probable maximum demand", amount(out.value.probable, Kind::hourly_flow)}});
    out.derivation.push_back({"Usable storage",
                              "storage = probable x fs x 1 h",
                              {{"fs", "storage factor", units::number(factors.storage)}},
                              reason::Term{"storage", "usable tank", amount(out.value.storage)}});
    out.sources = {handbook(table_name, all_read), factors.demand_source, factors.storage_source};
    return out;
}

}  // namespace bw::code
