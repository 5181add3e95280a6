// SPDX-License-Identifier: MIT
#include "code/fixture_units.h"

#include <algorithm>
#include <array>
#include <span>

#include "code/sources.h"

namespace bw::code {

namespace {

struct Point {
    double units, gpm;
};

// IPC 2018 Table E103.3(3), predominantly flush tanks.
constexpr std::array ipc_tank{
    Point{1, 3.0},      Point{2, 5.0},      Point{3, 6.5},      Point{4, 8.0},      Point{5, 9.4},
    Point{6, 10.7},     Point{7, 11.8},     Point{8, 12.8},     Point{9, 13.7},     Point{10, 14.6},
    Point{11, 15.4},    Point{12, 16.0},    Point{13, 16.5},    Point{14, 17.0},    Point{15, 17.5},
    Point{16, 18.0},    Point{17, 18.4},    Point{18, 18.8},    Point{19, 19.2},    Point{20, 19.6},
    Point{25, 21.5},    Point{30, 23.3},    Point{35, 24.9},    Point{40, 26.3},    Point{45, 27.7},
    Point{50, 29.1},    Point{60, 32.0},    Point{70, 35.0},    Point{80, 38.0},    Point{90, 41.0},
    Point{100, 43.5},   Point{120, 48.0},   Point{140, 52.5},   Point{160, 57.0},   Point{180, 61.0},
    Point{200, 65.0},   Point{225, 70.0},   Point{250, 75.0},   Point{275, 80.0},   Point{300, 85.0},
    Point{400, 105.0},  Point{500, 124.0},  Point{750, 170.0},  Point{1000, 208.0}, Point{1250, 239.0},
    Point{1500, 269.0}, Point{1750, 297.0}, Point{2000, 325.0}, Point{2500, 380.0}, Point{3000, 433.0},
    Point{4000, 525.0}, Point{5000, 593.0}};

// The same table, predominantly flushometer valves; it starts at 5 units.
constexpr std::array ipc_valve{
    Point{5, 15.0},     Point{6, 17.4},     Point{7, 19.8},     Point{8, 22.2},     Point{9, 24.6},
    Point{10, 27.0},    Point{11, 27.8},    Point{12, 28.6},    Point{13, 29.4},    Point{14, 30.2},
    Point{15, 31.0},    Point{16, 31.8},    Point{17, 32.6},    Point{18, 33.4},    Point{19, 34.2},
    Point{20, 35.0},    Point{25, 38.0},    Point{30, 42.0},    Point{35, 44.0},    Point{40, 46.0},
    Point{45, 48.0},    Point{50, 50.0},    Point{60, 54.0},    Point{70, 58.0},    Point{80, 61.2},
    Point{90, 64.3},    Point{100, 67.5},   Point{120, 73.0},   Point{140, 77.0},   Point{160, 81.0},
    Point{180, 85.5},   Point{200, 90.0},   Point{225, 95.5},   Point{250, 101.0},  Point{275, 104.5},
    Point{300, 108.0},  Point{400, 127.0},  Point{500, 143.0},  Point{750, 177.0},  Point{1000, 208.0},
    Point{1250, 239.0}, Point{1500, 269.0}, Point{1750, 297.0}, Point{2000, 325.0}, Point{2500, 380.0},
    Point{3000, 433.0}, Point{4000, 525.0}, Point{5000, 593.0}};

// National Standard Plumbing Code Table B.5.4: from memory where not read, and ended where memory is unsure.
constexpr std::array nspc_tank{Point{3, 3},     Point{4, 4},     Point{5, 4.5},  Point{6, 5},     Point{7, 6},
                               Point{8, 7},     Point{9, 7.5},   Point{10, 8},   Point{11, 8.5},  Point{12, 9},
                               Point{13, 10},   Point{14, 10.5}, Point{15, 11},  Point{16, 12},   Point{17, 12.5},
                               Point{18, 13},   Point{19, 13.5}, Point{20, 14},  Point{25, 17},   Point{30, 20},
                               Point{40, 25},   Point{50, 29},   Point{60, 33},  Point{80, 39},   Point{100, 44},
                               Point{120, 49},  Point{140, 53},  Point{160, 57}, Point{180, 61},  Point{200, 65},
                               Point{225, 70},  Point{250, 75},  Point{300, 85}, Point{400, 105}, Point{500, 125},
                               Point{750, 170}, Point{1000, 210}};

constexpr std::array nspc_valve{
    Point{5, 22},   Point{6, 23},    Point{7, 24},    Point{8, 25},    Point{9, 26},    Point{10, 27},  Point{11, 28},
    Point{12, 29},  Point{13, 29.5}, Point{14, 30},   Point{15, 31},   Point{16, 32},   Point{17, 33},  Point{18, 33.5},
    Point{19, 34},  Point{20, 35},   Point{25, 38},   Point{30, 41},   Point{40, 47},   Point{50, 51},  Point{60, 55},
    Point{80, 62},  Point{100, 68},  Point{120, 74},  Point{140, 78},  Point{160, 83},  Point{180, 87}, Point{200, 91},
    Point{225, 95}, Point{250, 100}, Point{300, 110}, Point{400, 125}, Point{500, 140}, Point{750, 175}};

std::span<const Point> points(UnitCurve curve) {
    switch (curve) {
        case UnitCurve::ipc_flush_tank: return ipc_tank;
        case UnitCurve::ipc_flushometer: return ipc_valve;
        case UnitCurve::nspc_flush_tank: return nspc_tank;
        case UnitCurve::nspc_flushometer: return nspc_valve;
    }
    return {};
}

Source source_of(UnitCurve curve) {
    bool ipc_curve = curve == UnitCurve::ipc_flush_tank || curve == UnitCurve::ipc_flushometer;
    if (ipc_curve) return ipc("Appendix E, Table E103.3(3)", Standing::memory);
    return {"National Standard Plumbing Code", "", "Appendix B, Table B.5.4", Standing::memory};
}

}  // namespace

std::string title(UnitCurve curve) {
    switch (curve) {
        case UnitCurve::ipc_flush_tank: return "IPC 2018 Table E103.3(3), flush tanks";
        case UnitCurve::ipc_flushometer: return "IPC 2018 Table E103.3(3), flushometer valves";
        case UnitCurve::nspc_flush_tank: return "NSPC Table B.5.4, flush tanks";
        case UnitCurve::nspc_flushometer: return "NSPC Table B.5.4, flush valves";
    }
    return {};
}

UnitRange range(UnitCurve curve) {
    auto all = points(curve);
    return {all.front().units, all.back().units};
}

Result<Ruled<VolumeFlow>> flow_for_units(double units, UnitCurve curve) {
    auto all = points(curve);
    auto bounds = range(curve);
    if (!(units >= bounds.least && units <= bounds.greatest))
        return fail(fmt::format("{:.6g} fixture units is outside {}", units, title(curve)),
                    fmt::format("{:g} to {:g} fixture units", bounds.least, bounds.greatest));
    auto above = std::lower_bound(all.begin(), all.end(), units,
                                  [](const Point& point, double wanted) { return point.units < wanted; });
    double gpm = above->gpm;
    Ruled<VolumeFlow> out;
    reason::Step step{title(curve)};
    step.given = {{"W", "water supply fixture units", units::number(units)}};
    if (above->units != units) {
        const Point& low = *(above - 1);
        gpm = low.gpm + (above->gpm - low.gpm) * (units - low.units) / (above->units - low.units);
        step.says += fmt::format(", a straight line between {:g} units ({:g} gpm) and {:g} units ({:g} gpm)", low.units,
                                 low.gpm, above->units, above->gpm);
        step.formula = "Q = Q1 + (Q2 - Q1) (W - W1) / (W2 - W1)";
    }
    out.value = gpm * gallon_per_minute;
    step.result = reason::Term{"Q", "flow", amount(out.value)};
    out.derivation.push_back(std::move(step));
    out.sources = {source_of(curve)};
    return out;
}

std::optional<HotUnits> hot_units(text::Fixture fixture) {
    using text::Fixture;
    auto row = [](double units, const char* name, Standing standing) {
        return HotUnits{units, name, ipc("Appendix E, Table E103.3(2), hot column", standing)};
    };
    constexpr Standing memory = Standing::memory;
    switch (fixture) {
        case Fixture::bar_sink: return row(1.0, "kitchen sink, private (nearest row)", memory);
        case Fixture::basin_private: return row(0.5, "lavatory, private", memory);
        case Fixture::basin_public: return row(1.5, "lavatory, public", memory);
        case Fixture::bath_shower: return row(1.0, "bathtub, private (bath and shower on one valve)", memory);
        case Fixture::bathtub: return row(1.0, "bathtub, private", memory);
        case Fixture::bidet: return row(1.5, "bidet, private", memory);
        case Fixture::clothes_washer: return row(1.0, "washing machine (8 lb), private", memory);
        case Fixture::clothes_washer_public: return row(3.0, "washing machine (15 lb), public", memory);
        case Fixture::dishwasher: return row(1.4, "dishwashing machine, private", Standing::published);
        case Fixture::foot_basin: return row(1.5, "lavatory, public (nearest row)", memory);
        case Fixture::kitchen_sink: return row(1.0, "kitchen sink, private", memory);
        case Fixture::kitchen_sink_commercial: return row(3.0, "kitchen sink, hotel or restaurant", memory);
        case Fixture::laundry_tub: return row(1.0, "laundry trays (1 to 3), private", memory);
        case Fixture::pantry_sink: return row(3.0, "kitchen sink, hotel or restaurant (nearest row)", memory);
        case Fixture::service_sink: return row(2.25, "service sink, offices", Standing::published);
        case Fixture::shower: return row(1.0, "shower head, private", memory);
        case Fixture::shower_public: return row(3.0, "shower head, public", memory);
        case Fixture::urinal:
        case Fixture::water_closet: return std::nullopt;
    }
    return std::nullopt;
}

}  // namespace bw::code
