// SPDX-License-Identifier: MIT
// Racks: frames of two posts on bolted feet, rails along them that carry the heaters, struts across that carry headers.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "piping/support/structure.h"

namespace bw::piping {
namespace {

constexpr double strut = 1.625 * inch_m;      ///< width of strut channel
constexpr double post_half = 1.625 * inch_m;  ///< of a post, double strut
constexpr double rail_bolt = 1 * inch_m;      ///< from a rail's end to its bolt
constexpr double over_mount = 3 * inch_m;     ///< of post above the rail heaters hang on
constexpr double low_rail = 2 * inch_m;       ///< lower rail above the heaters' bottom, for their feet to lean on
constexpr double foot_half = 3 * inch_m;
constexpr double most_moved = 15 * inch_m;             ///< a frame from its station, where pipe stands in its way
constexpr double cross_aside = post_half + strut / 2;  ///< from a post's middle to the strut bolted to its side

class Rack {
public:
    Rack(Structure& s, const plant::Bank& bank)
        : s_(s), bank_(bank), two_sided_(bank.back_plane > 0), name_(fmt::format("bank-{}.rack", bank.number)) {
        const auto* mount = s.b.heater.port("mount");
        plane_ = bank.back_plane + (mount ? mount->at.y : 0);
        mount_w_ = bank.bottom + (mount ? mount->at.z : 0);
        front_v_ = plane_ - strut - post_half;
        rear_v_ = two_sided_ ? -front_v_ : -bank.depth_back + foot_half;
    }

    void stand() {
        const Item* post = s_.row(Part::frame_post, mount_w_ + over_mount);
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
        for (std::size_t k = 0; k < frames_.size() && s_.b.ok(); ++k)
            for (const Held& h : held_at(s_.b, all, frames_[k].u + cross_aside)) {
                const double u = frames_[k].u + cross_aside;
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

    [[nodiscard]] Vec at(double u, double v, double w) const { return bank_.place({u, v, w}); }
    [[nodiscard]] Vec way(double u, double v) const { return bank_.place.turn({u, v, 0}); }

    [[nodiscard]] shape::Box post_box(double u, double v) const {
        return shape::box_of(at(u - post_half, v - post_half, foot_height_),
                             at(u + post_half, v + post_half, foot_height_ + post_height_));
    }

    [[nodiscard]] double cross_from() const { return std::min(front_v_, rear_v_) - post_half; }
    [[nodiscard]] double cross_to(const Held& h) const {
        return std::max(std::max(front_v_, rear_v_) + post_half, two_sided_ ? 0 : snap_up(h.v + 3 * inch_m));
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
                if (at > post_half && at < bank_.length - post_half && !posts_blocked(at)) return at;
        return std::nullopt;
    }

    [[nodiscard]] bool frame_blocked(double u, const std::vector<Held>& all) const {
        if (posts_blocked(u)) return true;
        const double aside = u + cross_aside;
        const auto held = held_at(s_.b, all, aside);
        return std::any_of(held.begin(), held.end(),
                           [&](const Held& h) { return arm_blocked(s_.b, bank_, h, aside, cross_box(aside, h)); });
    }

    int add_post(double u, double v, const Item* post, const Item* foot) {
        auto plate = s_.piece(foot, Part::foot, name_, bank_.number);
        auto upright = s_.piece(post, Part::frame_post, name_, bank_.number);
        if (!plate || !upright) return -1;
        const double bolt = 2 * inch_m;
        plate->ports = {bolt_hole("post", at(u, v, foot_height_), shape::up),
                        bolt_hole("floor-a", at(u - bolt, v - bolt, 0), shape::down),
                        bolt_hole("floor-b", at(u + bolt, v + bolt, 0), shape::down)};
        plate->solids = {
            shape::box_of(at(u - foot_half, v - foot_half, 0), at(u + foot_half, v + foot_half, foot_height_))};
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
        Frame frame{u, add_post(u, front_v_, post, foot), add_post(u, rear_v_, post, foot)};
        if (frame.front >= 0 && frame.rear >= 0) frames_.push_back(frame);
    }

    /// A strut across both posts' sides, under a header.
    void add_cross(const Frame& frame, const Held& h) {
        const double u = frame.u + cross_aside, from = cross_from(), to = cross_to(h);
        auto cross = s_.piece(s_.row(Part::strut, to - from), Part::strut, name_, bank_.number);
        if (!cross) return;
        const shape::Box box = cross_box(u, h);
        const double w = (box.min.z + box.max.z) / 2, face = frame.u + post_half;
        cross->cut = to - from;
        cross->solids = {shape::box_of(bank_.place(box.min), bank_.place(box.max))};
        cross->ports = {bolt_hole("front", at(face, front_v_, w), way(-1, 0)),
                        bolt_hole("rear", at(face, rear_v_, w), way(-1, 0))};
        const int index = s_.b.add(std::move(*cross));
        tap_post(frame.front, at(face, front_v_, w), way(1, 0), {index, 0});
        tap_post(frame.rear, at(face, rear_v_, w), way(1, 0), {index, 1});
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
    std::string name_;
    double plane_ = 0, mount_w_ = 0, front_v_ = 0, rear_v_ = 0, post_height_ = 0, foot_height_ = 0;
    std::vector<Frame> frames_;
    std::vector<Rail> near_, far_;
};

}  // namespace

void stand_rack(Structure& s, const plant::Bank& bank) { Rack(s, bank).stand(); }

}  // namespace bw::piping
