// SPDX-License-Identifier: MIT
#include "code/occupancy.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

namespace bw::code {

namespace {

using namespace std::string_view_literals;

constexpr std::array names{
    "dormitory-men"sv,   "dormitory-women"sv, "motel-20"sv,        "motel-60"sv,         "motel-100"sv,
    "nursing-home"sv,    "office"sv,          "restaurant-full"sv, "restaurant-quick"sv, "apartment-20"sv,
    "apartment-50"sv,    "apartment-75"sv,    "apartment-100"sv,   "apartment-200"sv,    "school-elementary"sv,
    "school-secondary"sv};

struct Row {
    double max_hour, max_day, average_day;  ///< gal for each
    std::string_view counted;
    double least = 1, greatest = 0;  ///< counts the row holds for; greatest 0: any
};
// ASHRAE Handbook; from memory but for the average day of motel-20 and apartment-20.
constexpr std::array<Row, names.size()> rows{{{3.8, 22.0, 13.1, "students"},
                                              {5.0, 26.5, 12.3, "students"},
                                              {6.0, 35.0, 20.0, "rooms", 1, 20},
                                              {5.0, 25.0, 14.0, "rooms", 60, 60},
                                              {4.0, 15.0, 10.0, "rooms", 100, 1e6},
                                              {4.5, 30.0, 18.4, "beds"},
                                              {0.4, 2.0, 1.0, "people"},
                                              {1.5, 11.0, 2.4, "meals (an hour at most; a day)"},
                                              {0.7, 6.0, 0.7, "meals (an hour at most; a day)"},
                                              {12.0, 80.0, 42.0, "apartments", 1, 20},
                                              {10.0, 73.0, 40.0, "apartments", 50, 50},
                                              {8.5, 66.0, 38.0, "apartments", 75, 75},
                                              {7.0, 60.0, 37.0, "apartments", 100, 100},
                                              {5.0, 50.0, 35.0, "apartments", 200, 1e6},
                                              {0.6, 1.5, 0.6, "students"},
                                              {1.0, 3.6, 1.8, "students"}}};

Source handbook(Occupancy occupancy) {
    const bool average_read = occupancy == Occupancy::motel_20 || occupancy == Occupancy::apartment_20;
    return {"ASHRAE Handbook, HVAC Applications, Service Water Heating", "",
            average_read ? "table Hot-Water Demands and Use for Various Types of Buildings (average day read, hour and "
                           "largest day from memory)"
                         : "table Hot-Water Demands and Use for Various Types of Buildings",
            Standing::memory};
}

reason::Step step(const char* says, const char* symbol, const char* formula, double each, double count, Volume total) {
    return {says,
            formula,
            {{"u", "for each", units::amount(each * gallon)}, {"n", "number", units::count(count)}},
            reason::Term{symbol, says, units::amount(total)}};
}

/// Rows of one family, by rising size.
std::vector<Occupancy> family(Occupancy occupancy) {
    using enum Occupancy;
    switch (occupancy) {
        case motel_20:
        case motel_60:
        case motel_100: return {motel_20, motel_60, motel_100};
        case apartment_20:
        case apartment_50:
        case apartment_75:
        case apartment_100:
        case apartment_200: return {apartment_20, apartment_50, apartment_75, apartment_100, apartment_200};
        default: return {occupancy};
    }
}

const Row& row_of(Occupancy occupancy) { return rows.at(static_cast<std::size_t>(occupancy)); }

/// The size a row of a family is printed for.
double size_of(Occupancy occupancy) {
    const auto& row = row_of(occupancy);
    return row.greatest == 1e6 ? row.least : row.greatest;
}

}  // namespace

static std::span<const std::string_view> occupancy_names() { return names; }

std::string_view name(Occupancy occupancy) { return names.at(static_cast<std::size_t>(occupancy)); }
std::string_view counted(Occupancy occupancy) { return rows.at(static_cast<std::size_t>(occupancy)).counted; }

Result<Ruled<OccupancyUse>> occupancy_use(Occupancy occupancy, double count) {
    if (!(count >= 1 && count <= 1e6))
        return fail(fmt::format("{:g} {}", count, counted(occupancy)), "a count from 1 to 1,000,000");
    const auto& row = rows.at(static_cast<std::size_t>(occupancy));
    Ruled<OccupancyUse> out;
    out.value = {row.max_hour * count * gallon, row.max_day * count * gallon, row.average_day * count * gallon};
    if (row.greatest > 0 && (count < row.least || count > row.greatest))
        out.derivation.push_back({fmt::format(
            "{} is the row for {:g}{} {}; {:g} are counted. The handbook's use for each falls as their number grows: "
            "the nearest row on the side of fewer is the safe one",
            name(occupancy), row.greatest == 1e6 ? row.least : row.greatest,
            row.greatest == 1e6 ? " or more" : (row.least == 1 ? " or fewer" : ""), row.counted, count)});
    out.derivation.push_back(step("largest hour", "Vh", "Vh = u n", row.max_hour, count, out.value.max_hour));
    out.derivation.push_back(step("largest day", "Vd", "Vd = u n", row.max_day, count, out.value.max_day));
    out.derivation.push_back(step("average day", "Va", "Va = u n", row.average_day, count, out.value.average_day));
    out.sources = {handbook(occupancy)};
    return out;
}

Result<Ruled<OccupancyUse>> occupancy_use_between(Occupancy occupancy, double count) {
    const auto kin = family(occupancy);
    const auto above = std::find_if(kin.begin(), kin.end(), [&](Occupancy o) { return size_of(o) >= count; });
    if (kin.size() == 1) return occupancy_use(occupancy, count);
    if (above == kin.begin()) return occupancy_use(kin.front(), count);
    if (above == kin.end()) return occupancy_use(kin.back(), count);
    if (!(count >= 1 && count <= 1e6)) return occupancy_use(occupancy, count);
    const auto low = *(above - 1), high = *above;
    const double share = (count - size_of(low)) / (size_of(high) - size_of(low));
    const auto& a = row_of(low);
    const auto& b = row_of(high);
    const auto between = [&](double x, double y) { return x + share * (y - x); };
    const double hour = between(a.max_hour, b.max_hour), day = between(a.max_day, b.max_day),
                 average = between(a.average_day, b.average_day);
    Ruled<OccupancyUse> out;
    out.value = {hour * count * gallon, day * count * gallon, average * count * gallon};
    if (size_of(high) != count)
        out.derivation.push_back(
            {fmt::format("Read between the rows for {:g} and {:g} {}", size_of(low), size_of(high), a.counted),
             "u = u1 + (u2 - u1) (n - n1) / (n2 - n1)"});
    out.derivation.push_back(step("largest hour", "Vh", "Vh = u n", hour, count, out.value.max_hour));
    out.derivation.push_back(step("largest day", "Vd", "Vd = u n", day, count, out.value.max_day));
    out.derivation.push_back(step("average day", "Va", "Va = u n", average, count, out.value.average_day));
    out.sources = {handbook(low)};
    return out;
}

}  // namespace bw::code

namespace bw::text {

template <>
Words words_of<code::Occupancy>() {
    return {"building", code::occupancy_names()};
}

}  // namespace bw::text
