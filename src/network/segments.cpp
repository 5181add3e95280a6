// SPDX-License-Identifier: MIT
#include "network/segments.h"

#include <fmt/format.h>

#include <algorithm>

#include "network/run/length.h"

namespace bw::network {
namespace {

using plant::Piece;
using text::Part;

bool holds_pressure(const Piece& piece) {
    return piece.part == Part::pressure_reducer || piece.part == Part::regulator;
}

bool is_tee(const Piece& piece) { return piece.part == Part::tee || piece.part == Part::vent_tee; }

class Reader {
public:
    Reader(const plant::Plant& plant, const catalogue::Catalogue& catalogue, const Tree& tree)
        : plant_(plant), catalogue_(catalogue), tree_(tree) {}

    /// Segments in the tree's order, each after the one before it. Fails on a piece without a bore.
    Result<std::vector<Segment>> segments() {
        std::vector<int> branches(tree_.traversals.size(), 0);
        for (const auto& passage : tree_.traversals)
            if (passage.heaters > 0 && passage.before >= 0) ++branches[static_cast<std::size_t>(passage.before)];
        segment_of_.assign(tree_.traversals.size(), -1);
        for (std::size_t i = 0; i < tree_.traversals.size(); ++i) {
            const auto& passage = tree_.traversals[i];
            if (passage.heaters < 1) continue;
            const auto before = static_cast<std::size_t>(std::max(passage.before, 0));
            const auto& piece = plant_.pieces[static_cast<std::size_t>(passage.piece)];
            if (passage.before < 0 || piece.part == Part::heater) {
                end_of_tree(i, piece);
                continue;
            }
            auto here = one(passage, piece, segments_[static_cast<std::size_t>(segment_of_[before])].bore);
            if (!(here.bore > 0))
                return fail(fmt::format("{}: no bore is known for it", piece.id), "an inside diameter");
            if (holds_pressure(piece) && !here.holds)
                return fail(fmt::format("{} names no outlet pressure", piece.id), "`outlet` in its catalogue row");
            here.before = segment_of_[before];
            auto& upstream = segments_[static_cast<std::size_t>(segment_of_[before])];
            if (branches[before] == 1 && joins(upstream, here)) {
                join(upstream, here);
                segment_of_[i] = segment_of_[before];
            } else {
                segment_of_[i] = static_cast<int>(segments_.size());
                segments_.push_back(std::move(here));
            }
        }
        return std::move(segments_);
    }

private:
    /// The connection begins the first segment; a heater ends its segment where it stands.
    void end_of_tree(std::size_t i, const Piece& piece) {
        const auto& passage = tree_.traversals[i];
        if (passage.before < 0) {
            Segment root;
            root.pieces = {passage.piece};
            root.bore = piece.bore;
            root.end = {passage.piece, passage.out};
            segment_of_[i] = static_cast<int>(segments_.size());
            segments_.push_back(std::move(root));
            return;
        }
        Segment end;
        end.before = segment_of_[static_cast<std::size_t>(passage.before)];
        end.heater = piece.heater;
        end.end = {passage.piece, passage.in};
        segments_.push_back(std::move(end));
    }

    Segment one(const Traversal& passage, const Piece& piece, double upstream_bore) const {
        Segment segment;
        segment.pieces = {passage.piece};
        segment.end = {passage.piece, passage.out};
        const auto loss = loss_through(plant_, passage, upstream_bore);
        segment.bore = loss.bore;
        segment.length = loss.length;
        segment.local = loss.velocity_heads;
        if (const auto* row = piece.item.empty() ? nullptr : catalogue_.pipe(piece.item))
            segment.roughness = row->roughness.value();
        segment.one_way = piece.part == Part::check_valve || piece.part == Part::backflow_preventer;
        if (holds_pressure(piece))
            if (const auto* item = catalogue_.item(piece.item)) segment.holds = item->number("outlet");
        return segment;
    }

    static bool joins(const Segment& segment, const Segment& next) {
        if (segment.before < 0 || segment.whole() || next.whole()) return false;
        if (segment.lossless() || next.lossless()) return true;
        return segment.bore == next.bore &&
               (segment.roughness == 0 || next.roughness == 0 || segment.roughness == next.roughness);
    }

    static void join(Segment& segment, const Segment& next) {
        if (segment.lossless()) segment.bore = next.bore;
        segment.length += next.length;
        segment.local += next.local;
        segment.roughness = std::max(segment.roughness, next.roughness);
        segment.end = next.end;
        segment.pieces.insert(segment.pieces.end(), next.pieces.begin(), next.pieces.end());
    }

    const plant::Plant& plant_;
    const catalogue::Catalogue& catalogue_;
    const Tree& tree_;
    std::vector<Segment> segments_;
    std::vector<int> segment_of_;  ///< by passage
};

}  // namespace

Result<std::vector<Segment>> segments_of(const plant::Plant& plant, const catalogue::Catalogue& catalogue,
                                         text::Service service, std::string_view root) {
    const auto tree = trace_service(plant, service, plant.find(root));
    if (!tree) return tl::unexpected(tree.error());
    return Reader(plant, catalogue, *tree).segments();
}

PassageLoss loss_through(const plant::Plant& plant, const Traversal& passage, double upstream_bore) {
    const auto& piece = plant.pieces[static_cast<std::size_t>(passage.piece)];
    PassageLoss loss{piece.bore > 0 ? piece.bore : upstream_bore,
                     length_through(piece, passage.in, passage.out, LengthRule::solved),
                     velocity_heads(piece, passage)};
    if (!is_tee(piece) || passage.out < 0 || straight_on(piece, passage)) return loss;
    const auto mate = plant.mate({passage.piece, passage.out});
    const double next = mate.piece < 0 ? 0 : plant.pieces[static_cast<std::size_t>(mate.piece)].bore;
    if (next > 0) loss.bore = std::min(loss.bore, next);
    return loss;
}

std::string name_of(const plant::Plant& plant, const Segment& segment) {
    const auto& first = plant.pieces[static_cast<std::size_t>(segment.pieces.front())].id;
    if (segment.pieces.size() == 1) return first;
    return fmt::format("{} to {}", first, plant.pieces[static_cast<std::size_t>(segment.pieces.back())].id);
}

std::string name_of(const plant::Plant& plant, plant::PortRef port) {
    const auto& piece = plant.pieces[static_cast<std::size_t>(port.piece)];
    return fmt::format("{}.{}", piece.id, piece.ports[static_cast<std::size_t>(port.port)].name);
}

}  // namespace bw::network
