// SPDX-License-Identifier: MIT
// Racks: frames of posts on bolted feet, rails along them that carry the heaters, struts across that carry headers. A
// frame of one post is tied to the wall or ceiling at its top.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "piping/support/structure.h"

namespace bw::piping {
namespace {

constexpr double strut = 1.625 * inch_m;        ///< width of strut channel
constexpr double double_half = 1.625 * inch_m;  ///< of a post of double strut
constexpr double single_half = strut / 2;       ///< of a post of single strut
constexpr double rail_bolt = 1 * inch_m;        ///< from a rail's end to its bolt
constexpr double over_mount = 3 * inch_m;       ///< of post above the rail heaters hang on
constexpr double low_rail = 2 * inch_m;         ///< lower rail above the heaters' bottom, for their feet to lean on
constexpr double foot_half = 3 * inch_m;
constexpr double tie_below = 2 * inch_m;    ///< from a post's top to the middle of its tie to the wall
constexpr double most_moved = 15 * inch_m;  ///< a frame from its station, where pipe stands in its way

class Rack {
public:
    Rack(Structure& s, const plant::Bank& bank)
        : s_(s),
          bank_(bank),
          two_sided_(bank.back_plane > 0),
          tied_(bank.rack.tied),
          name_(fmt::format("bank-{}.rack", bank.number)) {
        const auto* mount = s.b.heater.port("mount");
        plane_ = bank.back_plane + (mount ? mount->at.y : 0);
        mount_w_ = bank.bottom + (mount ? mount->at.z : 0);
        post_half_ = single() ? single_half : double_half;
        cross_aside_ = post_half_ + strut / 2;
        front_v_ = plane_ - strut - post_half_;
        rear_v_ = single() ? front_v_ : two_sided_ ? -front_v_ : -bank.depth_back + foot_half;
    }

    void stand() {
        const Item* post = post_row(mount_w_ + over_mount);
        const Item* foot = s_.row(Part::foot, 0);
        if (!post || !foot) {
            s_.b.give_up("the catalogue has no frame post or foot for a rack", "rows of parts frame-post and foot");
            return;
        }
        post_height_ = post->number("length").value_or(84 * inch_m);
        foot_height_ = foot->number("height").value_or(0.375 * inch_m);
        if (foot_height_ + post_height_ < mount_w_) {
            s_.b.give_up(fmt::format("{}: the catalogue's longest post is {:.1f} in, the heaters hang at {:.1f} in",
                                     name_, post_height_ / inch_m, mount_w_ / inch_m),
                         "a longer post, or heaters hung lower");
            return;
        }
        post_height_ =
            std::min(post_height_, snap_up(mount_w_ + over_mount - foot_height_));  // what is above is sawn off
        const auto all = level_pieces(s_.b, bank_);
        const auto blocked = [&](double u) { return frame_blocked(u, all); };
        for (const double u : stations_along(bank_.length, most_between(s_.b, bank_), blocked)) {
            const auto stands = where_posts_stand(u);
            if (!stands)
                return s_.b.give_up(
                    fmt::format("{}: pipe leaves no room for a post within {:.0f} in of {:.0f} in along it", name_,
                                most_moved / inch_m, u / inch_m),
                    "the connections elsewhere, or another place for the rack");
            add_frame(*stands, post, foot);
        }
        for (const Frame& frame : frames_)
            if (s_.b.ok() && single()) tie(frame);
        for (std::size_t k = 0; k < frames_.size() && s_.b.ok(); ++k)
            for (const Held& h : held_at(s_.b, all, frames_[k].u + cross_aside_)) {
                const double u = frames_[k].u + cross_aside_;
                if (!arm_meets(s_.b, bank_, h, u, cross_box(u, h))) add_cross(frames_[k], h);
            }
        add_rails(+1);
        if (two_sided_) add_rails(-1);
        brackets();
    }

private:
    struct Frame {
        double u = 0;
        int front = -1, rear = -1;
    };
    struct Rail {
        double from = 0, to = 0;
        int piece = -1;
    };

    [[nodiscard]] bool single() const { return tied_ != plant::stations::Tied::feet; }

    /// The shortest post that is long enough, of double strut or of single.
    [[nodiscard]] const Item* post_row(double length) const {
        const Item* best = nullptr;
        const auto has = [](const Item& row) { return row.number("length").value_or(0); };
        for (const Item* row : s_.b.catalogue.of(Part::frame_post)) {
            if ((row->outside.value() < 2 * inch_m) != single()) continue;
            const bool longer = best && has(*row) > has(*best), enough = best && has(*best) >= length - 1e-6;
            if (!best || (enough ? has(*row) >= length - 1e-6 && !longer : longer)) best = row;
        }
        return best;
    }

    [[nodiscard]] Vec at(double u, double v, double w) const { return bank_.place({u, v, w}); }
    [[nodiscard]] Vec way(double u, double v) const { return bank_.place.turn({u, v, 0}); }

    [[nodiscard]] shape::Box post_box(double u, double v) const {
        return shape::box_of(at(u - post_half_, v - post_half_, foot_height_),
                             at(u + post_half_, v + post_half_, foot_height_ + post_height_));
    }

    [[nodiscard]] double cross_from() const { return std::min(front_v_, rear_v_) - post_half_; }
    [[nodiscard]] double cross_to(const Held& h) const {
        return std::max(std::max(front_v_, rear_v_) + post_half_, two_sided_ ? 0 : snap_up(h.v + 3 * inch_m));
    }
    /// Bank frame.
    [[nodiscard]] shape::Box cross_box(double u, const Held& h) const {
        const double top = h.under - clamp_height;
        return {{u - strut / 2, cross_from(), top - strut}, {u + strut / 2, cross_to(h), top}};
    }

    [[nodiscard]] bool posts_blocked(double u) const {
        return s_.b.space.taken(post_box(u, front_v_)) || s_.b.space.taken(post_box(u, rear_v_));
    }

    /// The place nearest to a station where both posts are clear of everything.
    [[nodiscard]] std::optional<double> where_posts_stand(double u) const {
        for (double by = 0; by <= most_moved; by += inch_m / 2)
            for (const double at : {u + by, u - by})
                if (at > post_half_ && at < bank_.length - post_half_ && !posts_blocked(at)) return at;
        return std::nullopt;
    }

    [[nodiscard]] bool frame_blocked(double u, const std::vector<Held>& all) const {
        if (posts_blocked(u)) return true;
        if (single() && tie_blocked(u)) return true;
        const double aside = u + cross_aside_;
        const auto held = held_at(s_.b, all, aside);
        return std::any_of(held.begin(), held.end(),
                           [&](const Held& h) { return arm_blocked(s_.b, bank_, h, aside, cross_box(aside, h)); });
    }

    int add_post(double u, double v, const Item* post, const Item* foot) {
        auto plate = s_.piece(foot, Part::foot, name_, bank_.number);
        auto upright = s_.piece(post, Part::frame_post, name_, bank_.number);
        if (!plate || !upright) return -1;
        const double bolt = 2 * inch_m;
        const double foot_v = single() ? -bank_.depth_back + foot_half : v;  // it ends where the frame does
        plate->ports = {bolt_hole("post", at(u, v, foot_height_), shape::up),
                        bolt_hole("floor-a", at(u - bolt, foot_v - bolt, 0), shape::down),
                        bolt_hole("floor-b", at(u + bolt, foot_v + bolt, 0), shape::down)};
        plate->solids = {shape::box_of(at(u - foot_half, foot_v - foot_half, 0),
                                       at(u + foot_half, foot_v + foot_half, foot_height_))};
        const int below = s_.b.add(std::move(*plate));
        for (int port : {1, 2}) s_.anchor({below, port}, name_, bank_.number, Into::floor);
        upright->cut = post_height_;
        upright->ports = {bolt_hole("foot", at(u, v, foot_height_), shape::down)};
        upright->solids = {post_box(u, v)};
        const int index = s_.b.add(std::move(*upright));
        s_.bolt({index, 0}, {below, 0});
        return index;
    }

    void add_frame(double u, const Item* post, const Item* foot) {
        Frame frame{u, add_post(u, front_v_, post, foot), -1};
        frame.rear = single() ? frame.front : add_post(u, rear_v_, post, foot);
        if (frame.front >= 0 && frame.rear >= 0) frames_.push_back(frame);
    }

    /// Where the tie of a frame at u stands, bank frame.
    [[nodiscard]] shape::Box tie_box(double u) const {
        const double top = foot_height_ + post_height_, half = strut / 2;
        if (tied_ == plant::stations::Tied::wall) {
            const double aside = u + cross_aside_, w = top - tie_below;
            return {{aside - half, -bank_.depth_back - bank_.behind, w - half},
                    {aside + half, front_v_ + half, w + half}};
        }
        const double ceiling = s_.b.ground.room.overhead().lowest(
            shape::box_of(at(u - half, front_v_ - half, 0), at(u + half, front_v_ + half, top)));
        return {{u - half, front_v_ - half, top}, {u + half, front_v_ + half, std::max(top, ceiling)}};
    }
    [[nodiscard]] bool tie_blocked(double u) const {
        const shape::Box box = tie_box(u);
        return s_.b.space.taken(shape::box_of(bank_.place(box.min), bank_.place(box.max))).has_value();
    }

    /// A strut from a post's side to the wall behind it, or on from its top to the ceiling; none where something is in
    /// its way.
    void tie(const Frame& frame) {
        const bool to_wall = tied_ == plant::stations::Tied::wall;
        const double top = foot_height_ + post_height_;
        const double u = frame.u + (to_wall ? cross_aside_ : 0), wall = -bank_.depth_back - bank_.behind;
        const shape::Box box = tie_box(frame.u);
        const double ceiling = box.max.z;
        const double length = to_wall ? box.max.y - box.min.y : ceiling - top;
        if (length < inch_m || s_.b.space.taken(shape::box_of(bank_.place(box.min), bank_.place(box.max)), frame.front))
            return;
        auto strut_cut = s_.piece(s_.row(Part::strut, length), Part::strut, tie_name(), bank_.number);
        if (!strut_cut) return;
        strut_cut->cut = length;
        strut_cut->solids = {shape::box_of(bank_.place(box.min), bank_.place(box.max))};
        const double w = top - tie_below, face = frame.u + post_half_;
        if (to_wall)
            strut_cut->ports = {bolt_hole("post", at(face, front_v_, w), way(-1, 0)),
                                bolt_hole("building", at(u, wall, w), way(0, -1))};
        else
            strut_cut->ports = {bolt_hole("post", at(u, front_v_, top), shape::down),
                                bolt_hole("building", at(u, front_v_, ceiling), shape::up)};
        const int index = s_.b.add(std::move(*strut_cut));
        tap_post(frame.front, to_wall ? at(face, front_v_, w) : at(u, front_v_, top), to_wall ? way(1, 0) : shape::up,
                 {index, 0});
        s_.anchor({index, 1}, tie_name(), bank_.number, Into::wall);
    }

    [[nodiscard]] std::string tie_name() const { return fmt::format("bank-{}.tie", bank_.number); }

    /// A strut across the posts' sides, under a header.
    void add_cross(const Frame& frame, const Held& h) {
        const double u = frame.u + cross_aside_, from = cross_from(), to = cross_to(h);
        auto cross = s_.piece(s_.row(Part::strut, to - from), Part::strut, name_, bank_.number);
        if (!cross) return;
        const shape::Box box = cross_box(u, h);
        const double w = (box.min.z + box.max.z) / 2, face = frame.u + post_half_;
        cross->cut = to - from;
        cross->solids = {shape::box_of(bank_.place(box.min), bank_.place(box.max))};
        cross->ports = {bolt_hole("front", at(face, front_v_, w), way(-1, 0))};
        if (!single()) cross->ports.push_back(bolt_hole("rear", at(face, rear_v_, w), way(-1, 0)));
        const int index = s_.b.add(std::move(*cross));
        tap_post(frame.front, at(face, front_v_, w), way(1, 0), {index, 0});
        if (!single()) tap_post(frame.rear, at(face, rear_v_, w), way(1, 0), {index, 1});
        clamp(s_, bank_, h, u, index);
    }

    void tap_post(int post, Vec hole, Vec facing, PortRef to) {
        const auto n = s_.b.built.plant.pieces[post].ports.size();
        s_.bolt(s_.b.tap(post, bolt_hole(fmt::format("bolt-{}", n), hole, facing)), to);
    }

    /// An upper rail that heaters hang on and a lower one they lean on, between every two frames of a side.
    void add_rails(double side) {
        for (std::size_t k = 0; k + 1 < frames_.size(); ++k)
            for (double w : {mount_w_, bank_.bottom + low_rail}) {
                const int rail = add_rail(frames_[k], frames_[k + 1], side, w);
                if (rail >= 0 && w == mount_w_)
                    (side > 0 ? near_ : far_).push_back({frames_[k].u, frames_[k + 1].u, rail});
            }
    }

    int add_rail(const Frame& low, const Frame& high, double side, double w) {
        auto rail = s_.piece(s_.row(Part::frame_rail, high.u - low.u), Part::frame_rail, name_, bank_.number);
        if (!rail) return -1;
        const double back = side * (plane_ - strut);
        rail->cut = high.u - low.u;
        rail->solids = {shape::box_of(at(low.u, back, w - strut / 2), at(high.u, side * plane_, w + strut / 2))};
        rail->ports = {bolt_hole("a", at(low.u + rail_bolt, back, w), way(0, -side)),
                       bolt_hole("b", at(high.u - rail_bolt, back, w), way(0, -side))};
        const int index = s_.b.add(std::move(*rail));
        tap_post(side > 0 ? low.front : low.rear, at(low.u + rail_bolt, back, w), way(0, side), {index, 0});
        tap_post(side > 0 ? high.front : high.rear, at(high.u - rail_bolt, back, w), way(0, side), {index, 1});
        return index;
    }

    void brackets() {
        for (const auto& stand : bank_.stands) {
            const std::string heater = fmt::format("heater-{}", stand.number);
            const PortRef mount = s_.b.port(heater, "mount");
            if (mount == nowhere || !s_.b.ok()) return;
            const Port hook = s_.b.at(mount);
            const double u = shape::dot(hook.at - bank_.place.origin, way(1, 0));
            const auto& rails = stand.side == 0 ? near_ : far_;
            const auto rail =
                std::find_if(rails.begin(), rails.end(), [u](const Rail& r) { return u >= r.from && u <= r.to; });
            if (rail == rails.end()) {
                s_.b.give_up(fmt::format("{}: no rail of the rack passes behind it", heater),
                             "frames nearer to the rack's ends");
                return;
            }
            auto bracket = s_.piece(s_.row(Part::bracket, 0), Part::bracket, heater, bank_.number, stand.number);
            if (!bracket) return;
            bracket->ports = {bolt_hole("heater", hook.at, -hook.facing), bolt_hole("rail", hook.at, hook.facing)};
            const int index = s_.b.add(std::move(*bracket));
            s_.bolt(mount, {index, 0});
            s_.bolt(s_.b.tap(rail->piece, bolt_hole(heater, hook.at, -hook.facing)), {index, 1});
        }
    }

    Structure& s_;
    const plant::Bank& bank_;
    bool two_sided_;
    plant::stations::Tied tied_;
    double post_half_ = 0, cross_aside_ = 0;  ///< half a post, and from its middle to the strut bolted to its side
    std::string name_;
    double plane_ = 0, mount_w_ = 0, front_v_ = 0, rear_v_ = 0, post_height_ = 0, foot_height_ = 0;
    std::vector<Frame> frames_;
    std::vector<Rail> near_, far_;
};

}  // namespace

void stand_rack(Structure& s, const plant::Bank& bank) { Rack(s, bank).stand(); }

}  // namespace bw::piping
