// SPDX-License-Identifier: MIT
#include "proof/space/clearances.h"

#include <map>

#include "code/water.h"
#include "plant/stations.h"
#include "proof/checks.h"
#include "text/give_way.h"
#include "units/constants.h"

namespace bw::proof {
namespace {

using units::amount;
using units::Length;
using units::metre;

using plant::stations::inch;

using units::tolerance;
constexpr double sweat = 0.5 * inch;     ///< insulation of cold pipe: common practice, no source
constexpr double shaved = 0.25 * inch;   ///< a cover is cut back by so much unasked: common practice, no source
constexpr double off_cables = 1 * inch;  ///< common practice, no source
constexpr double off_wood = 0.5 * inch;  ///< common practice, no source
constexpr std::size_t shown = 20;

bool hot(const Piece& piece) { return piece.service == Service::hot || piece.service == Service::recirculation; }

bool wears_insulation(const Piece& piece) {
    const bool water = hot(piece) || piece.service == Service::cold;
    return water && (piece.part == Part::pipe || piece.part == Part::elbow || piece.part == Part::elbow_45 ||
                     piece.part == Part::tee || piece.part == Part::coupling || piece.part == Part::reducer);
}

/// Insulation by piece, metres; 0 for what wears none.
class Insulation {
public:
    explicit Insulation(const View& view) : view_(view) {
        thickness_.reserve(view.plant.pieces.size());
        for (const auto& piece : view.plant.pieces) {
            thickness_.push_back(wears_insulation(piece) ? of(piece) : 0);
            most_ = std::max(most_, thickness_.back());
        }
    }
    [[nodiscard]] double operator[](int piece) const {
        return piece < 0 ? 0 : thickness_[static_cast<std::size_t>(piece)];
    }
    [[nodiscard]] double most() const { return most_; }
    [[nodiscard]] const std::optional<Source>& source() const { return source_; }

private:
    double of(const Piece& piece) {
        if (!hot(piece)) return sweat;
        const auto [at, fresh] = by_size_.try_emplace(piece.size.eighths, 0);
        if (fresh)
            if (const auto rule = code::insulation_thickness(*view_.survey.temperatures.distribution, piece.size)) {
                at->second = rule->value.value();
                source_ = rule->source;
            }
        return at->second;
    }

    const View& view_;
    std::map<int, double> by_size_;
    std::optional<Source> source_;
    std::vector<double> thickness_;
    double most_ = 0;
};

struct Near {
    int piece = -1, other = -1;
    double clear = 0, wanted = 0;  ///< metres between bodies
    [[nodiscard]] double short_by() const { return wanted - clear; }
};

/// Pairs by shortage, each once; the nearest of all that were looked at, where none is short.
class Found {
public:
    void look_at(const Near& near) {
        if (!nearest_ || near.short_by() > nearest_->short_by()) nearest_ = near;
        if (near.short_by() > tolerance) short_.push_back(near);
    }
    /// Whether it is short, or the nearest so far.
    [[nodiscard]] bool would_note(const Near& near) const {
        return near.short_by() > tolerance || !nearest_ || near.short_by() > nearest_->short_by();
    }
    [[nodiscard]] const std::optional<Near>& nearest() const { return nearest_; }
    [[nodiscard]] std::vector<Near> shortest() const {
        auto all = short_;
        std::sort(all.begin(), all.end(), [](const Near& a, const Near& b) {
            return std::tuple(-a.short_by(), a.piece, a.other) < std::tuple(-b.short_by(), b.piece, b.other);
        });
        std::vector<Near> once;
        for (const auto& near : all)
            if (std::none_of(once.begin(), once.end(), [&](const Near& o) {
                    return std::minmax(o.piece, o.other) == std::minmax(near.piece, near.other);
                }))
                once.push_back(near);
        return once;
    }

private:
    std::optional<Near> nearest_;
    std::vector<Near> short_;
};

std::string name_of(const View& view, int piece) {
    if (piece >= 0) return view.name(piece);
    return view.survey.room.obstacles[static_cast<std::size_t>(-1 - piece)].name;
}

std::string distance(double metres) { return us(amount(metres * metre)); }

void tell(Check& check, const View& view, const std::vector<Near>& pairs) {
    for (std::size_t i = 0; i < std::min(pairs.size(), shown); ++i) {
        step(check, fmt::format("{} and {}: {} clear, {} wanted.", name_of(view, pairs[i].piece),
                                name_of(view, pairs[i].other), distance(pairs[i].clear), distance(pairs[i].wanted)));
        about(check, view, {pairs[i].piece});
        if (pairs[i].other >= 0) about(check, view, {pairs[i].other});
    }
}

Check with_nearest(Check check, const View& view, const Near& near) {
    step(check, fmt::format("Least room to spare: {} and {}.", name_of(view, near.piece), name_of(view, near.other)));
    return at_least(std::move(check), amount(near.clear * metre), amount(near.wanted * metre));
}

/// Refers what stands too near, in the words of `refers`, or says that nothing does and how much room there is.
template <class Refers>
Check judged(Check check, const View& view, const Found& found, std::string nothing, const Refers& refers) {
    const auto pairs = found.shortest();
    if (pairs.empty()) {
        check.says = std::move(nothing);
        if (found.nearest()) return with_nearest(std::move(check), view, *found.nearest());
        check.status = Status::pass;
        return check;
    }
    tell(check, view, pairs);
    const Near& worst = pairs.front();
    check = compared(std::move(check), amount(worst.clear * metre), Sense::at_least, amount(worst.wanted * metre));
    return reason::referred(std::move(check), refers(pairs.size(), worst));
}

/// Supports grip the pipe, cables and seals give way.
bool hinders_insulation(const View& view, int other) {
    if (other < 0) return true;
    const auto& body = view.piece(other);
    return !text::gives_way(body.part) && body.service != Service::structure && body.part != Part::hanger;
}

}  // namespace

void check_insulation_room(const View& view, Checks& checks) {
    const Insulation insulation(view);
    Found found;
    for (const auto& body : view.bodies().all()) {
        const double own = insulation[body.piece];
        if (own <= 0) continue;
        view.bodies().near(shape::grown(body.box, own + insulation.most()), [&](const Body& other) {
            const double theirs = insulation[other.piece];
            if (other.piece == body.piece || (theirs > 0 && other.piece < body.piece)) return;
            const bool alike = theirs > 0 && hot(view.piece(body.piece)) == hot(view.piece(other.piece));
            if (alike) return;  // one cover may wrap both
            if (!hinders_insulation(view, other.piece)) return;
            Near near{body.piece, other.piece, shape::gap(body.box, other.box), own + theirs - shaved};
            if (!found.would_note(near)) return;  // the solids stand no nearer than their bounds
            near.clear = shape::gap(body.solid, other.solid);
            if (found.would_note(near) && (other.piece < 0 || !kin(view.plant, near.piece, near.other, 3)))
                found.look_at(near);
        });
    }
    auto check = new_check("plant.clearance.insulation", {});
    if (insulation.source()) check.sources.push_back(*insulation.source());
    check.sources.push_back(practice());
    step(check,
         "Hot and return pipe wear the energy code's least, cold pipe 1/2 in against sweat (common practice). "
         "A cover may be shaved by 1/4 in. Supports, and what is joined near by, are left out: it is cut round them.");
    checks.push_back(judged(
        std::move(check), view, found, "No body stands within the insulation of another line.",
        [&](std::size_t places, const Near& worst) {
            return fmt::format(
                "At {} {} the insulation has not its full thickness, least between {} and {}: it is cut back "
                "there, or the line set off on site, as the energy inspector accepts.",
                places, places == 1 ? "place" : "places", name_of(view, worst.piece), name_of(view, worst.other));
        }));
}

void check_cables_off_heat(const View& view, Checks& checks) {
    const Insulation insulation(view);
    const auto is_cable = [](const Piece& p) { return p.part == Part::cable || p.part == Part::link_cable; };
    Found found;
    bool any = false;
    for (const auto& body : view.bodies().all()) {
        if (body.piece < 0 || !is_cable(view.piece(body.piece))) continue;
        any = true;
        view.bodies().near(shape::grown(body.box, off_cables + insulation.most() + inch), [&](const Body& other) {
            if (other.piece < 0) return;
            const auto& warm = view.piece(other.piece);
            if (!hot(warm) && warm.service != Service::exhaust) return;
            found.look_at(
                {body.piece, other.piece, shape::gap(body.solid, other.solid), insulation[other.piece] + off_cables});
        });
    }
    if (!any) return;
    auto check = new_check("plant.clearance.cables", {nec("310.15(A)(3)"), practice()});
    step(check,
         "Conductors lie where they stay within their own temperature (NEC 310.15). The distance, 1 in from hot "
         "pipe's insulation or from a vent, is common practice.");
    checks.push_back(
        judged(std::move(check), view, found, "No cable lies nearer.", [&](std::size_t cables, const Near& worst) {
            return fmt::format(
                "{} {} nearer to heat than usual, {} at {} first: the electrician leads {} round it, or "
                "takes cable of a higher temperature.",
                cables, cables == 1 ? "cable lies" : "cables lie", name_of(view, worst.piece),
                name_of(view, worst.other), cables == 1 ? "it" : "them");
        }));
}

void check_combustible(const View& view, Checks& checks) {
    const auto& room = view.survey.room;
    bool any = false;
    Found found;
    std::vector<std::pair<shape::Point, shape::Point>> walls;
    for (std::size_t w = 0; w < room.walls.size() && w < room.plan.size(); ++w)
        if (*room.walls[w].combustible) walls.emplace_back(room.plan[w], room.plan[(w + 1) % room.plan.size()]);
    for (const auto& [a, b] : walls) {
        if (a.x != b.x && a.y != b.y) continue;  // carries nothing, and no pipe runs along it
        const shape::Box wall{{std::min(a.x, b.x), std::min(a.y, b.y), 0},
                              {std::max(a.x, b.x), std::max(a.y, b.y), room.ceiling->value()}};
        view.bodies().near(shape::grown(wall, 12 * inch), [&](const Body& body) {
            if (body.piece < 0) return;
            const auto& piece = view.piece(body.piece);
            if ((!hot(piece) && piece.service != Service::exhaust) || text::gives_way(piece.part)) return;
            const double clear = shape::gap(shape::Solid{wall}, body.solid);
            if (clear <= tolerance) return;  // what goes through the wall does so in a sleeve
            any = true;
            found.look_at({body.piece, body.piece, clear, off_wood});
        });
    }
    if (!any) return;
    auto check = new_check("plant.clearance.combustible", {practice(), ifgc("502.5")});
    step(check,
         "Pipe that carries water below 250 degF needs no distance by the mechanical code (from memory); 1/2 in "
         "lets it move without rubbing. A vent's own listing gives its distance.");
    const auto& near = *found.nearest();
    about(check, view, {near.piece});
    if (near.short_by() <= tolerance) {
        check.says = fmt::format("The nearest is {}.", name_of(view, near.piece));
        checks.push_back(at_least(std::move(check), amount(near.clear * metre), amount(near.wanted * metre)));
        return;
    }
    check = compared(std::move(check), amount(near.clear * metre), Sense::at_least, amount(near.wanted * metre));
    checks.push_back(
        reason::referred(std::move(check), fmt::format("{} runs {} off a combustible wall: the vent's listing or the "
                                                       "inspector decides whether that is enough.",
                                                       name_of(view, near.piece), distance(near.clear))));
}

}  // namespace bw::proof
