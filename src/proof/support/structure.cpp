// SPDX-License-Identifier: MIT
// Weights, and what carries them: brackets, feet, walls, anchors.
#include "proof/checks.h"
#include "proof/support/weight.h"
#include "reason/document.h"

namespace bw::proof {
namespace {

using units::amount;
using units::count;
using units::kilogram;
using units::newton;

void heater_support(const View& view, int n, Checks& checks) {
    auto check = new_check("structure.bracket.heater-<n>", {}, {{"n", n}});
    const auto brackets = view.of(Part::bracket, n);
    about(check, view, {view.heater_piece(n)});
    about(check, view, brackets);
    const double weight = gravity * filled(view.piece(view.heater_piece(n)));
    double carries = 0;
    for (const int i : brackets) {
        carries += view.number(i, "load").value_or(0);
        if (view.item(i)) check.sources = view.item(i)->sources;
    }
    if (brackets.empty()) {
        check.sources = {by_pieces()};
        checks.push_back(holds(std::move(check), false, {}, fmt::format("heater {} hangs on no bracket.", n)));
        return;
    }
    step(check, "Filled with water.", "F = (m + rho V) g",
         {{"m", "dry", amount(view.piece(view.heater_piece(n)).mass_dry * kilogram)}},
         Term{"F", "weight", amount(weight * newton)});
    check.says = "The bracket's own allowed load.";
    checks.push_back(at_most(std::move(check), amount(weight * newton), amount(carries * newton)));
}

std::vector<int> feet_of(const View& view, int bank) {
    std::vector<int> feet;
    for (const int i : view.of(Part::foot))
        if (view.piece(i).bank == bank) feet.push_back(i);
    return feet;
}

double bank_mass(const View& view, int bank) {
    double mass = 0;
    for (const auto& piece : view.plant.pieces)
        if (piece.bank == bank) mass += filled(piece);
    return mass;
}

void feet(const View& view, const plant::Bank& bank, Checks& checks) {
    const auto feet = feet_of(view, bank.number);
    const double mass = bank_mass(view, bank.number);
    auto check = new_check("structure.feet.bank-<b>", {practice()}, {{"b", bank.number}});
    about(check, view, feet);
    if (feet.empty()) {
        checks.push_back(
            holds(std::move(check), false, {}, fmt::format("Bank {} stands free and has no feet.", bank.number)));
        return;
    }
    double load = 1e300;
    for (const int i : feet) load = std::min(load, view.number(i, "load").value_or(0));
    if (view.item(feet.front())) check.sources = view.item(feet.front())->sources;
    const double each = gravity * mass / static_cast<double>(feet.size());
    step(check, "Everything of the bank, filled, shared alike; heavier feet are possible where heaters stand unevenly.",
         "F = m g / n",
         {{"m", "bank, filled", amount(mass * kilogram)}, {"n", "feet", count(static_cast<double>(feet.size()))}},
         Term{"F", "load on a foot", amount(each * newton)});
    check.says = "The foot's own allowed load.";
    checks.push_back(at_most(std::move(check), amount(each * newton), amount(load * newton)));
    int bolted = 0;
    for (const int foot : feet) {
        bool anchored = false;
        for (int p = 0; p < static_cast<int>(view.piece(foot).ports.size()); ++p)
            if (const auto mate = view.plant.mate({foot, p});
                mate.piece >= 0 && view.piece(mate.piece).part == Part::anchor)
                anchored = true;
        bolted += anchored;
    }
    auto anchors = new_check("structure.bolted.bank-<b>", {practice()}, {{"b", bank.number}});
    about(anchors, view, feet);
    checks.push_back(holds(std::move(anchors), bolted == static_cast<int>(feet.size()),
                           "An anchor holds each foot: a rack tips before it is bolted.",
                           fmt::format("{} of {} feet have an anchor.", bolted, feet.size())));
}

/// The heaters hang before the posts of a frame with one row of them: its top must be held.
void tied(const View& view, const plant::Bank& bank, Checks& checks) {
    if (bank.rack.tied == plant::stations::Tied::feet) return;
    const bool wall = bank.rack.tied == plant::stations::Tied::wall;
    const auto name = fmt::format("bank-{}.tie", bank.number);
    int posts = 0, ties = 0;
    std::vector<int> struts;
    double mass = 0, moment = 0, height = 0;
    const double post = -bank.depth_back;
    for (int i = 0; i < static_cast<int>(view.plant.pieces.size()); ++i) {
        const auto& piece = view.piece(i);
        if (piece.bank != bank.number) continue;
        posts += piece.part == Part::frame_post;
        ties += piece.part == Part::anchor && piece.id.starts_with(name);
        if (piece.part == Part::strut && piece.id.starts_with(name)) struts.push_back(i);
        if (piece.solids.empty()) continue;
        const auto box = shape::bounds(piece.solids);
        const auto middle = 0.5 * (box.min + box.max) - bank.place.origin;
        mass += filled(piece);
        moment += filled(piece) * (shape::dot(middle, bank.place.turn({0, 1, 0})) - post);
        if (piece.part == Part::frame_post) height = box.max.z;
    }
    auto check = new_check("structure.tie.bank-<b>", {practice()}, {{"b", bank.number}});
    about(check, view, struts);
    if (posts == 0 || ties < posts) {
        checks.push_back(holds(std::move(check), false, {},
                               fmt::format("{} of {} posts are tied: the heaters hang before them.", ties, posts)));
        return;
    }
    const double pull = gravity * moment / height / ties;
    check.value = amount(pull * newton);
    step(check, "Everything of the bank, filled, hangs before the frame's back.", "F = g sum (m v) / (h n)",
         {{"m", "bank, filled", amount(mass * kilogram)},
          {"v", "of its centre, before the frame's back", amount(moment / mass * units::metre)},
          {"h", "height of the ties", amount(height * units::metre)},
          {"n", "ties", count(static_cast<double>(ties))}},
         Term{"F", "pull on a tie", amount(pull * newton)});
    checks.push_back(reason::referred(
        std::move(check),
        fmt::format("CAUTION: every post is tied. Each tie is pulled by {} when all hangs still, by more when a heater "
                    "is lifted off or the ground shakes: a structural engineer confirms tie, anchor and {}.",
                    us(amount(pull * newton)), wall ? "wall" : "ceiling")));
}

void on_wall(const View& view, const plant::Bank& bank, Checks& checks) {
    if (bank.wall < 0 || bank.wall >= static_cast<int>(view.survey.room.walls.size())) return;
    const auto& wall = view.survey.room.walls[static_cast<std::size_t>(bank.wall)];
    auto check = new_check("structure.wall.bank-<b>", {ibc("1604")}, {{"b", bank.number}, {"w", wall.number}});
    depends_on_fields(check, view.survey, {fmt::format("room.wall.{}.build", wall.number)});
    const double mass = bank_mass(view, bank.number);
    check.value = amount(mass * kilogram);
    step(check, "Everything of the bank, filled.", {}, {{"L", "length of wall", amount(bank.length * units::metre)}},
         Term{"m", "mass", amount(mass * kilogram)});
    checks.push_back(reason::referred(
        std::move(check),
        fmt::format("Wall {} ({}) must carry {}: a structural engineer decides, and what backing a light wall needs.",
                    wall.number, survey::name(*wall.build), us(amount(mass * kilogram)))));
}

void whole(const View& view, Checks& checks) {
    double dry = 0, wet = 0;
    for (const auto& piece : view.plant.pieces) {
        dry += piece.mass_dry;
        wet += filled(piece);
    }
    auto check = new_check("structure.floor", {ibc("1604, 1607")});
    check.value = amount(wet * kilogram);
    step(check, "All pieces, filled with water.", "m = sum (mi + rho Vi)",
         {{"mi", "all pieces dry", amount(dry * kilogram)}}, Term{"m", "mass", amount(wet * kilogram)});
    const double a_heater = view.heaters() > 0 ? wet / view.heaters() : 0;
    step(check, "For each heater.", {}, {}, Term{"m", "mass", amount(a_heater * kilogram)});
    checks.push_back(reason::referred(
        std::move(check),
        fmt::format("{} stands or hangs in the room, filled: a structural engineer decides for floor and walls.",
                    us(amount(wet * kilogram)))));
}

void engineer(const View& view, Checks& checks) {
    auto anchors = new_check("structure.anchors", {reason::cite(reason::Document::aci_318, "17", Standing::memory)});
    about(anchors, view, view.of(Part::anchor));
    checks.push_back(reason::referred(std::move(anchors),
                                      "CAUTION: anchors in unknown concrete or masonry. An engineer chooses them from "
                                      "the anchor maker's table for what is there."));
}

}  // namespace

void check_structure(const View& view, Checks& checks) {
    for (int n = 1; n <= view.heaters(); ++n)
        if (view.heater_piece(n) >= 0) heater_support(view, n, checks);
    for (const auto& bank : view.layout.banks) {
        if (bank.wall < 0)
            feet(view, bank, checks), tied(view, bank, checks);
        else
            on_wall(view, bank, checks);
    }
    whole(view, checks);
    engineer(view, checks);
    check_seismic(view, checks);
}

}  // namespace bw::proof
