// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <cmath>
#include <iterator>
#include <string_view>
#include <unordered_set>

#include "plant/plant.h"
#include "units/constants.h"

namespace bw::plant {
namespace {

constexpr double sixteenth = units::grid;
constexpr double same_place = 0.0254 / 64;
constexpr double rounding = 1e-6;

class Laws {
public:
    explicit Laws(const Plant& plant) : plant_(plant) {}

    std::vector<std::string> check() {
        ids();
        joints();
        ports();
        reach();
        return std::move(broken_);
    }

private:
    template <class... Args>
    void say(fmt::format_string<Args...> text, Args&&... args) {
        broken_.push_back(fmt::format(text, std::forward<Args>(args)...));
    }

    void ids() {
        std::unordered_set<std::string_view> seen;
        seen.reserve(plant_.pieces.size());
        for (const Piece& piece : plant_.pieces) {
            if (piece.id.empty()) say("a piece of item '{}' has no id", piece.item);
            if (!seen.insert(piece.id).second) say("{}: the id stands more than once", piece.id);
            if (piece.item.empty() != (piece.part == Part::connection))
                say("{}: {}", piece.id, piece.item.empty() ? "has no catalogue item" : "a connection is never bought");
            cut(piece);
        }
    }

    void cut(const Piece& piece) {
        if (!(piece.cut >= 0) || !std::isfinite(piece.cut)) {
            say("{}: cut length {:.5f} m is negative or not a number", piece.id, piece.cut);
            return;
        }
        const bool pipe = piece.part == Part::pipe || piece.part == Part::vent_pipe;
        if (!pipe || piece.item.find("csst") != std::string::npos) return;
        const double off = piece.cut - std::round(piece.cut / sixteenth) * sixteenth;
        if (std::abs(off) > rounding) say("{}: cut length {:.5f} m is not a multiple of 1/16 in", piece.id, piece.cut);
    }

    [[nodiscard]] bool exists(PortRef r) const {
        return r.piece >= 0 && r.piece < std::ssize(plant_.pieces) && r.port >= 0 &&
               r.port < std::ssize(plant_.pieces[r.piece].ports);
    }

    [[nodiscard]] std::string named(PortRef r) const {
        return fmt::format("{} port '{}'", plant_.pieces[r.piece].id, plant_.at(r).name);
    }

    void joints() {
        joined_.resize(plant_.pieces.size());
        for (std::size_t i = 0; i < joined_.size(); ++i) joined_[i].assign(plant_.pieces[i].ports.size(), 0);
        for (std::size_t i = 0; i < plant_.joints.size(); ++i) {
            const Joint& joint = plant_.joints[i];
            if (!exists(joint.a) || !exists(joint.b)) {
                say("joint {}: names a piece or port that does not exist", i);
                continue;
            }
            ++joined_[joint.a.piece][joint.a.port];
            ++joined_[joint.b.piece][joint.b.port];
            meet(joint);
        }
    }

    void meet(const Joint& joint) {
        const Port &a = plant_.at(joint.a), &b = plant_.at(joint.b);
        const auto pair = [&] { return named(joint.a) + " and " + named(joint.b); };
        if (joint.a.piece == joint.b.piece) say("{}: a piece is joined to itself", pair());
        if (!(shape::distance(a.at, b.at) <= same_place))
            say("{}: {:.5f} m apart", pair(), shape::distance(a.at, b.at));
        if (!(shape::length(a.facing + b.facing) <= rounding)) say("{}: do not face one another", pair());
        if (a.size != b.size)
            say("{}: sizes {} and {} eighths of an inch differ", pair(), a.size.eighths, b.size.eighths);
        if (a.service != b.service) say("{}: services differ", pair());
    }

    void ports() {
        for (std::size_t i = 0; i < plant_.pieces.size(); ++i) {
            const Piece& piece = plant_.pieces[i];
            if (piece.ports.empty()) say("{}: has no ports", piece.id);
            for (std::size_t p = 0; p < piece.ports.size(); ++p) {
                if (joined_[i][p] == 0) say("{} port '{}': joined to nothing", piece.id, piece.ports[p].name);
                if (joined_[i][p] > 1)
                    say("{} port '{}': joined {} times", piece.id, piece.ports[p].name, joined_[i][p]);
                if (std::abs(shape::length(piece.ports[p].facing) - 1) > rounding)
                    say("{} port '{}': its facing is no unit vector", piece.id, piece.ports[p].name);
            }
        }
    }

    /// Whatever is not held or fed from the building by a chain of joints is adrift.
    void reach() {
        std::vector<std::vector<int>> beside(plant_.pieces.size());
        for (const Joint& joint : plant_.joints) {
            if (!exists(joint.a) || !exists(joint.b)) continue;
            beside[joint.a.piece].push_back(joint.b.piece);
            beside[joint.b.piece].push_back(joint.a.piece);
        }
        std::vector<char> reached(plant_.pieces.size(), 0);
        std::vector<int> open;
        for (std::size_t i = 0; i < plant_.pieces.size(); ++i)
            if (plant_.pieces[i].part == Part::connection) {
                reached[i] = 1;
                open.push_back(static_cast<int>(i));
            }
        while (!open.empty()) {
            const int here = open.back();
            open.pop_back();
            for (int next : beside[here]) {
                if (reached[next]) continue;
                reached[next] = 1;
                open.push_back(next);
            }
        }
        for (std::size_t i = 0; i < reached.size(); ++i)
            if (!reached[i]) say("{}: no chain of joints leads to it from the building", plant_.pieces[i].id);
    }

    const Plant& plant_;
    std::vector<std::vector<int>> joined_;
    std::vector<std::string> broken_;
};

}  // namespace

std::vector<std::string> unlawful(const Plant& plant) { return Laws(plant).check(); }

}  // namespace bw::plant
