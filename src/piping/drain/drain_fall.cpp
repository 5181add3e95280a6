// SPDX-License-Identifier: MIT
// Whether the condensate laid can be hung with its fall past what stands there.
#include "network/run/fall.h"
#include "piping/drain/drain.h"

namespace bw::piping {
namespace {

using network::Falling;
using network::Hung;

std::size_t at(int i) { return static_cast<std::size_t>(i); }

class Falls {
public:
    Falls(const Builder& b, const Falling& line) : b_(b), line_(line) {
        std::vector<char> own(plant().pieces.size(), 0);
        for (const auto& link : line.links) own[at(link.piece)] = 1;
        constexpr double reach = 12 * inch_m;
        for (std::size_t i = 0; i < line.links.size(); ++i) {
            near_.emplace_back();
            const auto& piece = plant().pieces[at(line.links[i].piece)];
            if (line.links[i].fixed || piece.solids.empty()) continue;
            auto around = shape::bounds(piece.solids);
            around.min.z -= reach, around.max.z += reach;
            for (int k = 0; k < static_cast<int>(plant().pieces.size()); ++k)
                if (!own[at(k)] && !joined(line.links[i].piece, k))
                    for (const auto& solid : plant().pieces[at(k)].solids)
                        if (shape::overlap(shape::bounds(solid), around)) near_.back().push_back(solid);
            for (const auto& obstacle : b.ground.room.obstacles)
                if (shape::overlap(obstacle.box, around)) near_.back().push_back(obstacle.box);
        }
    }

    [[nodiscard]] bool clear(const Hung& hung) const {
        if (!hung.stuck.empty() || network::too_short(plant(), hung)) return false;
        // what was in the way of the last try is likely so again
        if (!clear(hung, hindered_)) return false;
        for (std::size_t i = 0; i < line_.links.size(); ++i)
            if (!clear(hung, i)) {
                hindered_ = i;
                return false;
            }
        return true;
    }

private:
    [[nodiscard]] const plant::Plant& plant() const { return b_.built.plant; }

    [[nodiscard]] bool joined(int a, int other) const {
        const auto ports = static_cast<int>(plant().pieces[at(a)].ports.size());
        for (int p = 0; p < ports; ++p)
            if (plant().mate({a, p}).piece == other) return true;
        return false;
    }

    [[nodiscard]] double shift_near(const Hung& hung, std::size_t link, Vec point) const {
        const auto& ports = plant().pieces[at(line_.links[link].piece)].ports;
        const auto best =
            std::ranges::min_element(ports, {}, [&](const Port& port) { return shape::distance(port.at, point); });
        return hung.shift[line_.at(link, static_cast<std::size_t>(best - ports.begin()))];
    }

    [[nodiscard]] shape::Solid moved(const Hung& hung, std::size_t link, const shape::Solid& solid) const {
        if (const auto* bar = std::get_if<shape::Cylinder>(&solid))
            return shape::Cylinder{bar->a + Vec{0, 0, shift_near(hung, link, bar->a)},
                                   bar->b + Vec{0, 0, shift_near(hung, link, bar->b)}, bar->radius};
        const auto& box = std::get<shape::Box>(solid);
        const Vec by{0, 0, shift_near(hung, link, 0.5 * (box.min + box.max))};
        return shape::Box{box.min + by, box.max + by};
    }

    [[nodiscard]] bool clear(const Hung& hung, std::size_t link) const {
        const auto& piece = plant().pieces[at(line_.links[link].piece)];
        if (line_.links[link].fixed || piece.part == Part::connection) return true;
        for (const auto& solid : piece.solids) {
            const auto here = moved(hung, link, solid);
            const auto box = shape::bounds(here);
            if (box.min.z < 0 && piece.part != Part::air_gap) return false;
            for (const auto& other : near_[link])
                if (shape::overlap(shape::bounds(other), box, grid / 4) && shape::gap(other, here) <= 0) return false;
        }
        return true;
    }

    const Builder& b_;
    const Falling& line_;
    std::vector<std::vector<shape::Solid>> near_;  ///< by link: what stands above and below it
    mutable std::size_t hindered_ = 0;
};

}  // namespace

bool falls_to_drain(const Builder& b) {
    const auto& plant = b.built.plant;
    const auto falls_to = [&](int low) {
        const auto falling = network::falling(plant, Service::condensate, low);
        const Falls line(b, falling);
        return network::hang(plant, falling, {network::usual_fall, network::least_fall}, {},
                             [&](const Hung& hung) { return line.clear(hung); })
            .has_value();
    };
    const int drain = plant.find("site.drain"), pump = plant.find("main.condensate.pump");
    return drain >= 0 && falls_to(drain) && (pump < 0 || falls_to(pump));
}

}  // namespace bw::piping
