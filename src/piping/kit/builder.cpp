// SPDX-License-Identifier: MIT
#include "piping/kit/builder.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "code/clearances.h"
#include "plant/words.h"
#include "text/give_way.h"
#include "text/material.h"

namespace bw::piping {

JointKind joint_of(Material material, Nominal size) {
    switch (text::row_of(material).joining) {
        case text::Joining::threaded_then_welded: return size.eighths <= 16 ? JointKind::threaded : JointKind::welded;
        case text::Joining::pressed: return JointKind::pressed;
        case text::Joining::soldered: return JointKind::soldered;
        case text::Joining::solvent: return JointKind::solvent;
        case text::Joining::flare: return JointKind::flare;
        case text::Joining::gasketed: return JointKind::gasketed;
        case text::Joining::wired: return JointKind::wired;
        case text::Joining::bolted: return JointKind::bolted;
    }
    return JointKind::threaded;
}

namespace {

struct Row {
    int eighths;
    double inches;
};

template <std::size_t n>
double look_up(const std::array<Row, n>& rows, Nominal size) {
    for (const Row& row : rows)
        if (row.eighths >= size.eighths) return row.inches;
    return rows.back().inches * size.eighths / rows.back().eighths;
}

/// Close nipples, inches.
constexpr std::array close_nipples{Row{4, 1.125}, Row{6, 1.375}, Row{8, 1.5},    Row{10, 1.625}, Row{12, 1.75},
                                   Row{16, 2.0},  Row{20, 2.5},  Row{24, 2.625}, Row{32, 2.875}};
/// Socket depths of solder cups, inches.
constexpr std::array solder_cups{Row{4, 0.5},    Row{6, 0.75}, Row{8, 0.9375},  Row{10, 1.0},   Row{12, 1.125},
                                 Row{16, 1.375}, Row{20, 1.5}, Row{24, 1.6875}, Row{32, 2.1875}};

}  // namespace

double shortest(Material material, Nominal size) {
    const text::Shortest shortest = text::row_of(material).shortest;
    switch (shortest.by) {
        case text::Shortest::By::close_nipple: return (look_up(close_nipples, size) + shortest.inches) * inch_m;
        case text::Shortest::By::two_sockets: return (2 * look_up(solder_cups, size) + shortest.inches) * inch_m;
        case text::Shortest::By::length: break;
    }
    return shortest.inches * inch_m;
}

Builder::Builder(std::shared_ptr<const LayingInputs> on, std::optional<WaterDensities> swells)
    : ground_(std::move(on)),
      ground(*ground_),
      catalogue(*ground.catalogue),
      heater(*ground.heater),
      layout(ground.layout),
      swell(swells),
      space(space_of(ground.room, layout)) {
    built.plant.pieces.reserve(2048);
    built.plant.joints.reserve(3072);
}

namespace {

/// A message that begins with a line's id, said in words.
std::string spoken(std::string what) {
    const auto colon = what.find(": ");
    const auto id = what.substr(0, std::min(colon, what.find(' ')));
    constexpr std::array begins{"bank-", "main.", "heater-", "vent-", "intake-", "circuit-"};
    const bool named = colon != std::string::npos && id.size() == colon &&
                       std::ranges::any_of(begins, [&](const char* begin) { return id.starts_with(begin); });
    return named ? plant::in_words(id) + what.substr(colon) : what;
}

}  // namespace

void Builder::give_up(std::string what, std::string expected) {
    what = spoken(std::move(what));
    if (!error_) error_ = Error{std::move(what), std::move(expected), {}};
}

const Item* Builder::seek(Part part, const Line& line, std::optional<Nominal> branch) const {
    const auto key = static_cast<std::uint64_t>(part) << 48U | static_cast<std::uint64_t>(line.material) << 40U |
                     static_cast<std::uint64_t>(line.service) << 32U |
                     static_cast<std::uint64_t>(line.size.eighths) << 16U |
                     static_cast<std::uint64_t>(branch ? branch->eighths + 1 : 0);
    if (const auto found = sought_.find(key); found != sought_.end()) return found->second;
    auto rows = of_part_.find(part);
    if (rows == of_part_.end()) rows = of_part_.emplace(part, catalogue.of(part)).first;
    const Item* best = nullptr;
    int best_score = 0;
    for (const Item* row : rows->second) {
        if (row->material && *row->material != line.material) continue;
        if (row->size && *row->size != line.size) continue;
        if (branch && row->branch.value_or(row->size.value_or(line.size)) != *branch) continue;
        if (!row->services.empty() && std::ranges::find(row->services, line.service) == row->services.end()) continue;
        const int score = 1 + (row->material ? 4 : 0) + (row->size ? 2 : 0) + (row->services.empty() ? 0 : 1);
        if (score > best_score) best = row, best_score = score;
    }
    return sought_.emplace(key, best).first->second;
}

const Item* Builder::item(Part part, const Line& line, std::optional<Nominal> branch) {
    const Item* row = seek(part, line, branch);
    if (!row)
        give_up(fmt::format("{}: the catalogue has no {} of {} in{} for {} {}", line.name, text::name(part),
                            units::print(line.size), branch ? fmt::format(" by {} in", units::print(*branch)) : "",
                            text::name(line.material), text::name(line.service)),
                "a row for it, or another material in the survey's preferences");
    return row;
}

PortRef Builder::port(std::string_view piece, std::string_view port) const {
    const int index = built.plant.find(piece);
    if (index < 0) return nowhere;
    const int at = built.plant.port(index, port);
    return at < 0 ? nowhere : PortRef{index, at};
}

namespace {

/// A bar aslant, a cable under a sloping ceiling, takes its place length by length: its bounds would take half the
/// room.
std::vector<shape::Box> boxes_of(const shape::Solid& solid) {
    constexpr double length = 6 * inch_m;
    const auto* bar = std::get_if<shape::Cylinder>(&solid);
    const Vec way = bar ? bar->b - bar->a : Vec{};
    const bool aslant = (std::abs(way.x) > 1e-9) + (std::abs(way.y) > 1e-9) + (std::abs(way.z) > 1e-9) > 1;
    if (!aslant) return {shape::bounds(solid)};
    std::vector<shape::Box> boxes;
    const int parts = std::max(1, static_cast<int>(std::ceil(shape::length(way) / length)));
    for (int i = 0; i < parts; ++i)
        boxes.push_back(shape::bounds(
            shape::Cylinder{bar->a + (1.0 * i / parts) * way, bar->a + (1.0 * (i + 1) / parts) * way, bar->radius}));
    return boxes;
}

}  // namespace

int Builder::add(Piece piece) {
    const bool stays = !text::moved_aside(piece.part);
    const int index = built.plant.add(std::move(piece));
    if (!stays) return index;
    for (const auto& solid : built.plant.pieces[static_cast<std::size_t>(index)].solids)
        for (const auto& box : boxes_of(solid)) space.take(box, index);
    return index;
}

void Builder::take_over(Builder&& tried) {
    built = std::move(tried.built);
    vessel = tried.vessel;
    no_vessel_suits = tried.no_vessel_suits;
    sizes = std::move(tried.sizes);
    feeds = std::move(tried.feeds);
    reserved = std::move(tried.reserved);
    space = std::move(tried.space);
    counters_ = std::move(tried.counters_);
    error_ = std::move(tried.error_);
}

void Builder::join(PortRef a, PortRef b, JointKind kind) { built.plant.join(a, b, kind); }

std::string Builder::id(const Line& line, Part part, std::string_view name) {
    if (!name.empty()) return fmt::format("{}.{}", line.name, name);
    std::string stem = fmt::format("{}.{}", line.name, text::name(part));
    const int number = ++counters_[stem];
    return fmt::format("{}-{}", stem, number);
}

PortRef Builder::tap(int piece, Port port) {
    auto& ports = built.plant.pieces[static_cast<std::size_t>(piece)].ports;
    ports.push_back(std::move(port));
    return {piece, static_cast<int>(ports.size()) - 1};
}

PortRef Builder::site(std::string id, Service service, Vec at, Vec facing, Nominal size) {
    if (!ok()) return nowhere;
    Piece piece;
    piece.id = std::move(id);
    piece.part = Part::connection;
    piece.service = service;
    piece.size = size;
    piece.ports = {{"a", at, facing, size, service}};
    return {add(std::move(piece)), 0};
}

double Builder::bore(const Line& line) const {
    const auto* row = catalogue.pipe(line.material, line.size);
    return row ? row->inside.value() : line.size.eighths * inch_m / 8;
}

bool Builder::on_pipe(PortRef from) const {
    if (from == nowhere) return false;
    const Part part = built.plant.pieces[static_cast<std::size_t>(from.piece)].part;
    return part == Part::pipe || part == Part::vent_pipe;
}

bool Builder::takes_fitting(PortRef from) const {
    return on_pipe(from) ||
           (from != nowhere && built.plant.pieces[static_cast<std::size_t>(from.piece)].part == Part::connection);
}

Part Builder::pipe_part(const Line& line) const {
    switch (text::family(line.material)) {
        case text::Family::vent: return Part::vent_pipe;
        case text::Family::cable: return Part::cable;
        case text::Family::strut: return Part::strut;
        default: return Part::pipe;
    }
}

Piece Builder::blank(const Line& line, Part part, const Item* item, std::string_view name) {
    Piece piece;
    piece.id = id(line, part, name);
    piece.part = part;
    piece.service = line.service;
    piece.size = line.size;
    piece.bore = bore(line);
    piece.heater = line.heater;
    piece.bank = line.bank;
    if (item) {
        piece.item = item->key;
        piece.mass_dry = item->mass.value();
        piece.loss_run = item->loss_run;
        piece.loss_stem = item->loss_stem;
    }
    return piece;
}

const Item* Builder::adapter_for(const Line& line, const Item* item) const {
    if (!item || item->material) return nullptr;
    const JointKind joint = joint_of(line.material, line.size);
    if (joint == JointKind::threaded || joint == JointKind::welded) return nullptr;
    return seek(Part::adapter, line);
}

double Builder::taken(const Line& line, const Item* item, bool last) const {
    if (!item) return 0;
    const Item* adapter = adapter_for(line, item);
    return 2 * item->run.value() + shortest(line.material, line.size) +
           (adapter ? (last ? 2 : 4) * adapter->run.value() : 0);
}

Span span_between(const Port& from, const Port& to) {
    const Vec way = to.at - from.at;
    const double ahead = shape::dot(way, from.facing);
    return {ahead, shape::length(way - ahead * from.facing)};
}

bool spans(const Item& flexible, Span span) {
    const double length = flexible.number("length").value_or(0);
    const double across = std::hypot(span.ahead, span.aside);
    constexpr double slack_least = 1.0 / 64, bow_most = 0.3;  // shares of the length
    return span.aside <= flexible.number("offset-greatest").value_or(0) + 1e-9 &&
           across <= length * (1 - slack_least) + 1e-6 && across >= length * (1 - bow_most) - 1e-6 && span.ahead > 0;
}

Vec heater_point(const plant::Bank& bank, const plant::Stand& stand, const catalogue::Heater& heater, Vec at) {
    const Vec local = stand.side == 0
                          ? Vec{stand.u + at.x, bank.back_plane + at.y, bank.bottom + at.z}
                          : Vec{stand.u + heater.width.value() - at.x, -(bank.back_plane + at.y), bank.bottom + at.z};
    return bank.place(local);
}

Vec heater_direction(const plant::Bank& bank, const plant::Stand& stand, Vec facing) {
    return bank.place.turn(stand.side == 0 ? facing : Vec{-facing.x, -facing.y, facing.z});
}

}  // namespace bw::piping
