// SPDX-License-Identifier: MIT
#include "piping/drain/drain.h"
#include "reason/document.h"
#include "reason/register/register.h"
#include "units/constants.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace bw::piping {
namespace {

using units::gallon_per_hour;
using units::kbtu_per_hour;
using units::Kind;

constexpr Nominal branch_size{4}, least_header{6};

void record(Builder& b, const DrainSizes& sizes) {
    const auto* pipe = b.catalogue.pipe(Material::pvc_drain, sizes.header);
    Sizing sizing;
    sizing.what = "condensate header";
    sizing.service = Service::condensate;
    sizing.material = Material::pvc_drain;
    sizing.size = sizes.header;
    sizing.derivation = {
        {.says = "Condensate of all heaters at cold return: a gallon an hour per 100 kBtu/h.",
         .formula = "Q = input / 100 kBtu/h x 1 gal/h",
         .given = {{"input", "of all heaters", units::amount(sizes.input)}},
         .result = reason::Term{"Q", "condensate", units::amount(sizes.flow, Kind::hourly_flow)}},
        {.says = "Carried half full at a fall of 1/4 in a foot, by Manning's equation with n = 0.009.",
         .formula = "Qc = A / n (D/4)^(2/3) S^(1/2)",
         .given = {{"D", "inside", units::amount(pipe->inside, Kind::small_length)},
                   {"S", "fall", units::number(1.0 / 48)}},
         .result = reason::Term{"Qc", "capacity", units::amount(drain_capacity(pipe->inside), Kind::hourly_flow)}},
        {.says = "Drawn level: the fall of 1/4 in a foot is given on site within the height kept below the heaters."}};
    sizing.sources = {
        {.clause = "a gallon an hour per 100 kBtu/h; 1/4 in a foot", .standing = reason::Standing::common_practice},
        reason::imc("307.2.2: 3/4 in least")};
    b.built.sizes.push_back(sizing);
    sizing.what = "condensate neutraliser";
    sizing.size = *sizes.neutraliser->size;
    sizing.derivation = {
        {.says = "The smallest neutraliser of the catalogue rated for the input of all heaters.",
         .formula = "rated >= input",
         .given = {{"input", "of all heaters", units::amount(sizes.input)}},
         .result = reason::Term{
             "rated", "of the one chosen", {sizes.neutraliser->number("rated-input").value_or(0), Kind::heat_rate}}}};
    sizing.sources = sizes.neutraliser->sources;
    b.built.sizes.push_back(std::move(sizing));
}

/// A header's open end to its place at the neutraliser.
void lead(Builder& b, const DrainRow& row, const DrainSizes& sizes, PortRef from, PortRef to) {
    if (!b.ok()) return;
    const Line line{.service = Service::condensate,
                    .material = Material::pvc_drain,
                    .size = sizes.header,
                    .name = row.name + ".main",
                    .bank = row.bank->number};
    const Item* elbow = b.item(Part::elbow, line);
    if (!elbow) return;
    const Port start = b.at(from), end = b.at(to);
    RouteRequest ask{.from = start.at, .from_facing = start.facing, .to = end.at, .to_facing = end.facing};
    ask.radius = elbow->outside.value() / 2;
    ask.clearance = grid;
    ask.turn = elbow->run.value();
    ask.least = ask.first = ask.last = shortest(line.material, line.size);
    ask.levels = {start.at.z};
    ask.highest = start.at.z;  // condensate never rises on its way
    ask.from_owner = from.piece;
    ask.to_owner = to.piece;
    // nor dips below where it must arrive
    ask.keep_off = {{shape::Box{{-1e3, -1e3, -1e3}, {1e3, 1e3, end.at.z - ask.radius - 2 * grid}},
                     "all that lies lower than the neutraliser"}};
    auto corners = find_route_off_grid(b.space, ask);
    if (!corners) {
        corners = find_route_off_grid(over_working_space(b), ask);
        if (corners) crosses(b, line);
    }
    if (!corners) return b.give_up(line.name + ": " + corners.error().what, corners.error().expected);
    b.run_to(line, from, std::span(*corners).first(corners->size() - 1), to);
}

/// Where rows run to a low point.
struct Rows {
    std::vector<DrainRow> rows;
    std::vector<DrainPlan> plans;
};

Result<Rows> plan_rows(const Builder& b, const DrainSizes& sizes, Vec drain, const DrainEnd& end) {
    const Vec low = end.low_point(drain);
    Rows all{drain_rows(b, low), {}};
    for (const auto& row : all.rows) {
        const auto plan = plan_row(b, row, sizes, low.z + height_over(b, sizes, end), low);
        if (!plan) return tl::unexpected(plan.error());
        all.plans.push_back(*plan);
    }
    return all;
}

/// All of it, in one way.
void lay(Builder& b, const Rows& all, const DrainSizes& sizes, Vec drain, const DrainEnd& end) {
    const auto& rows = all.rows;
    std::vector<PortRef> headers;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        headers.push_back(lay_row(b, rows[i], sizes, all.plans[i]));
        if (!b.ok()) return;
    }
    const double lowest = std::ranges::min_element(all.plans, {}, &DrainPlan::height)->height;
    const auto takes =
        lay_neutraliser(b, sizes, drain, lowest, static_cast<int>(rows.size()), b.at(headers.front()).at, end);
    for (std::size_t i = 0; i < rows.size() && b.ok(); ++i) lead(b, rows[i], sizes, headers[i], takes[i]);
}

/// Ways tried one after another: the first that can be hung with its fall stands; else the first that could be laid.
class Trials {
public:
    Trials(Builder& b, const DrainSizes& sizes, Vec drain) : b_(b), sizes_(sizes), drain_(drain) {}

    /// Whether it stands.
    bool lay_in(const Rows& rows, const DrainEnd& end) {
        Builder tried(b_);
        lay(tried, rows, sizes_, drain_, end);
        if (!tried.ok()) {
            note(*tried.error());
            return false;
        }
        if (falls_to_drain(tried)) {
            b_.take_over(std::move(tried));
            return true;
        }
        if (!fallback_) fallback_.emplace(std::move(tried));
        return false;
    }
    void note(const Error& why) {
        if (!why_) why_ = why;
    }
    void settle() {
        if (fallback_) return b_.take_over(std::move(*fallback_));
        b_.give_up(why_->what, why_->expected);
    }

private:
    Builder& b_;
    const DrainSizes& sizes_;
    Vec drain_;
    std::optional<Builder> fallback_;
    std::optional<Error> why_;
};

/// Level with headers near the floor, else first as near to the floor as may be: it is heavy, and is refilled there.
std::array<double, 4> lowerings(const Rows& rows, double low) {
    constexpr double near_floor = 18 * inch_m;
    const double height = std::ranges::min_element(rows.plans, {}, &DrainPlan::height)->height;
    if (height - low > near_floor) return {1.0, 0.7, 0.35, 0.0};
    return {0.0, 0.35, 0.7, 1.0};
}

bool by_gravity(const Builder& b, const DrainSizes& sizes, Vec drain, Trials& trials) {
    const auto rows = plan_rows(b, sizes, drain, {});
    if (!rows) {
        trials.note(rows.error());
        return false;
    }
    for (const bool over : {false, true})
        for (const double lowered : lowerings(*rows, drain.z))
            if (trials.lay_in(*rows, {lowered, over})) return true;
    return false;
}

/// Where the drain is too high, too far or shut off for gravity.
bool by_pump(const Builder& b, const DrainSizes& sizes, Vec drain, Trials& trials) {
    for (const auto& stand : pump_stands(b, sizes, drain)) {
        const DrainEnd end{.pump = stand};
        const auto rows = plan_rows(b, sizes, drain, end);
        if (!rows) continue;
        for (const double lowered : {1.0, 0.0})
            if (trials.lay_in(*rows, {lowered, false, stand})) return true;
    }
    return false;
}

Vec receptor(const survey::Connection& drain) {
    // a drain in a wall is met by a standpipe a hand's breadth in front of it
    return drain.facing.z > 0.5 ? drain.at : drain.at + 6 * inch_m * drain.facing;
}

}  // namespace

ClearanceMap over_working_space(const Builder& b) {
    ClearanceMap open(b.space.plan(), b.space.ceiling());
    for (const auto& taken : b.space.boxes()) {
        if (taken.owner >= 0)
            open.take(taken.box, taken.owner);
        else if (b.space.what(taken.owner) != "the working space in front of the heaters")
            open.take(taken.box, taken.owner, b.space.what(taken.owner));
    }
    return open;
}

void crosses(Builder& b, const Line& line) {
    auto check =
        reason::new_check("condensate.working-space.<line>", {reason::ifgc("306")}, {{"line", line.name, line.name}});
    check.pieces = {line.name};
    b.finding(reason::referred(std::move(check),
                               line.name +
                                   " finds no falling way to the drain but through the working space in front of the "
                                   "heaters. CAUTION: a low pipe trips people. The mechanical inspector decides "
                                   "whether it is covered, laid in the floor, or the drain moved."));
}

units::VolumeFlow condensate_flow(units::Power input) { return input / (100.0 * kbtu_per_hour) * gallon_per_hour; }

units::VolumeFlow drain_capacity(units::Length inside) {
    constexpr double pi = units::pi, roughness = 0.009;
    const double d = inside.value(), area = pi / 8 * d * d;
    return units::VolumeFlow::from_value(area / roughness * std::pow(d / 4, 2.0 / 3) * std::sqrt(1.0 / 48));
}

Result<DrainSizes> size_drains(const Builder& b) {
    DrainSizes sizes{.branch = branch_size};
    sizes.input = static_cast<double>(standings(b.layout).size()) * b.heater.input_greatest;
    sizes.flow = condensate_flow(sizes.input);
    for (const auto* pipe : b.catalogue.sizes(Material::pvc_drain)) {
        if (pipe->size < least_header || drain_capacity(pipe->inside) < sizes.flow) continue;
        sizes.header = pipe->size;
        break;
    }
    for (const Item* row : b.catalogue.of(Part::neutraliser)) {
        if (!row->size || row->number("rated-input").value_or(0) < sizes.input.value()) continue;
        sizes.neutraliser = row;
        break;
    }
    const double input = sizes.input / kbtu_per_hour;
    if (sizes.header.eighths == 0)
        return fail(fmt::format("condensate: no drain pipe of the catalogue carries that of {:.0f} kBtu/h", input),
                    "larger pvc-drain rows");
    if (!sizes.neutraliser)
        return fail(fmt::format("condensate: no neutraliser of the catalogue is rated for {:.0f} kBtu/h", input),
                    "a larger neutraliser row");
    return sizes;
}

std::vector<DrainRow> drain_rows(const Builder& b, Vec drain) {
    std::vector<DrainRow> rows;
    for (const auto& bank : b.layout.banks) {
        for (int side = 0; side < 2; ++side) {
            DrainRow row{.bank = &bank, .side = side};
            for (const auto& stand : bank.stands)
                if (stand.side == side) row.heaters.push_back({&bank, &stand});
            if (row.heaters.empty()) continue;
            row.name = fmt::format("bank-{}.condensate{}", bank.number, side == 0 ? "" : "-2");
            const Vec u = bank.place.turn({1, 0, 0});
            const Vec middle = bank.place({bank.length / 2, 0, 0});
            row.along = shape::dot(drain - middle, u) < 0 ? -u : u;
            row.out = bank.place.turn({0, side == 0 ? 1.0 : -1.0, 0});
            rows.push_back(std::move(row));
        }
    }
    const auto& pieces = b.built.plant.pieces;
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        if (pieces[i].part != Part::cap) continue;
        const int port = b.built.plant.port(static_cast<int>(i), "drain");
        if (port < 0 || rows.empty()) continue;
        const PortRef tapping{static_cast<int>(i), port};
        // to the row whose front is nearest below it
        const auto nearest = std::ranges::min_element(rows, {}, [&](const DrainRow& row) {
            const Vec at = b.at(tapping).at - row.bank->place.origin;
            const double out = shape::dot(at, row.out) - row.bank->back_plane;
            return (row.bank->number == pieces[i].bank ? 0 : 1000) + (out < 0 ? 100 : 0) + std::abs(out);
        });
        nearest->vents.push_back(tapping);
    }
    return rows;
}

void add_drains(Builder& b) {
    if (!b.ok()) return;
    const auto& connection = b.ground.room.drain;
    if (!connection.given) return b.give_up("condensate: the survey names no drain", "connections.drain");
    const auto sizes = size_drains(b);
    if (!sizes) return b.give_up(sizes.error().what, sizes.error().expected);
    const Vec drain = snap(receptor(connection));
    record(b, *sizes);
    Trials trials(b, *sizes, drain);
    if (!by_gravity(b, *sizes, drain, trials) && !by_pump(b, *sizes, drain, trials)) trials.settle();
}

}  // namespace bw::piping
