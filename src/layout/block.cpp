// SPDX-License-Identifier: MIT
#include "layout/block.h"

#include <algorithm>

namespace bw::layout {
namespace {

namespace stations = plant::stations;
using plant::Arrangement;
using plant::Bank;
using shape::Box;
using stations::inch;

constexpr int least_in_bank = 2;  ///< where heaters are shared out to more banks than need be
constexpr std::size_t most_banks = 4;

int divided_up(int count, int by) { return (count + by - 1) / by; }

/// As even as can be, the larger parts first.
std::vector<int> evenly(int count, int parts) {
    std::vector<int> out;
    for (; parts > 0; --parts) {
        out.push_back(divided_up(count, parts));
        count -= out.back();
    }
    return out;
}

class Maker {
public:
    Maker(const Measures& m, const BlockSpec& spec)
        : m_(m), spec_(spec), two_sided_(spec.arrangement == Arrangement::rack_two_sided) {
        block_.arrangement = spec.arrangement;
        block_.rows = spec.rows;
        block_.above = m.above();
        if (spec.arrangement == Arrangement::wall)
            floor_ = std::max(0.0, spec.hang.bottom - spec.hang.section->lowest() - inch);
        back_plane_ = two_sided_ ? stations::rack_back_plane : 0;
        depth_back_ = racked() ? spec.rack.depth : spec.stand_off;
    }

    Block make() {
        const auto& shares = spec_.shares;
        const int columns = divided_up(static_cast<int>(shares.size()), block_.rows);
        for (int row = 0; row < block_.rows; ++row) {
            const int first = row * columns, end = std::min(first + columns, static_cast<int>(shares.size()));
            lay_row({shares.begin() + first, shares.begin() + end}, row);
        }
        if (spec_.way_round != WayRound::none) add_way(spec_.way_round);
        return std::move(block_);
    }

private:
    [[nodiscard]] bool racked() const { return spec_.arrangement == Arrangement::rack_one_sided; }
    [[nodiscard]] double behind() const { return m_.behind(spec_.rack); }
    [[nodiscard]] bool faces_back(int row) const { return !two_sided_ && (row % 2 == 1) != spec_.rack.paired; }
    [[nodiscard]] double front() const { return back_plane_ + m_.depth; }

    /// v of a row's v = 0; rows that face back have their fronts across the aisle from the row before.
    [[nodiscard]] double row_at(int row) const {
        if (two_sided_) return row * (2 * front() + m_.front);
        if (spec_.rack.paired) return row * 2 * (depth_back_ + behind());
        const double pair = 2 * (depth_back_ + behind() + front()) + m_.front;
        return (row / 2) * pair + (row % 2 == 1 ? 2 * front() + m_.front : 0);
    }

    void lay_row(const std::vector<Share>& row_shares, int row) {
        const double v = row_at(row);
        const bool faces_back = this->faces_back(row);
        double u = 0;
        for (std::size_t k = 0; k < row_shares.size(); ++k) {
            const bool feeds_high = row_shares.size() > 1 && k < row_shares.size() / 2;
            u += k > 0 ? m_.in_line_gap + spec_.more_between : 0;
            lay_bank(row_shares[k], u, v, faces_back, feeds_high);
            u += block_.banks.back().length;
        }
        block_.length = std::max(block_.length, u);
        add_zones(u, v, faces_back);
    }

    void lay_bank(const Share& share, double u, double v, bool faces_back, bool feeds_high) {
        Bank bank;
        bank.number = static_cast<int>(block_.banks.size()) + 1;
        bank.assembly = share.assembly;
        bank.length = m_.bank_length(two_sided_ ? divided_up(share.heaters, 2) : share.heaters);
        bank.back_plane = back_plane_;
        bank.depth_front = front();
        if (racked()) bank.rack = spec_.rack, bank.behind = behind();
        bank.depth_back = two_sided_ ? front() : depth_back_;
        bank.bottom = spec_.hang.bottom;
        bank.section = *spec_.hang.section;
        bank.place = faces_back ? shape::Placement{2, {u + bank.length, v, 0}} : shape::Placement{0, {u, v, 0}};
        stand_heaters(bank, m_, share.heaters, feeds_high != faces_back);
        block_.banks.push_back(std::move(bank));
    }

    void add_zones(double length, double v, bool faces_back) {
        const double back =
            two_sided_ ? front() : depth_back_ + (spec_.arrangement == Arrangement::wall ? 0 : behind());
        const double toward = faces_back ? -1 : 1;
        const double bottom = spec_.hang.bottom, top = bottom + m_.above();
        const auto zone = [&](double u0, double v0, double u1, double v1, double w0, double w1, Use use) {
            block_.zones.push_back({shape::box_of({u0, v + toward * v0, w0}, {u1, v + toward * v1, w1}), use,
                                    solid(use) ? w1 : stations::work_height});
        };
        // the ends free of heaters change places with the end that is fed: both are kept as short as the shorter
        const double heaters_from = m_.cap_end - m_.side, heaters_to = length - heaters_from;
        const bool wall = spec_.arrangement == Arrangement::wall;
        zone(-m_.end_extra, -back, length + m_.end_extra, front(), floor_, wall ? bottom : top, Use::body);
        if (wall) zone(heaters_from, -back, heaters_to, front(), bottom, top, Use::body);
        zone(m_.cap_end, -back, length - m_.cap_end, front(), bottom - stations::heater_below,
             bottom + m_.height + stations::heater_above, Use::heaters);
        const double short_by = stations::work_width - (length - 2 * m_.cap_end);
        const double work_from = short_by > 0 ? 0 : m_.cap_end, work_to = length - work_from;
        zone(work_from, front(), work_to, front() + m_.front, 0, stations::work_height, Use::work);
        if (two_sided_) zone(work_from, -front(), work_to, -front() - m_.front, 0, stations::work_height, Use::work);
    }

    void add_way(WayRound way_round) {
        Box all = block_.zones.front().box;
        for (const Zone& zone : block_.zones) all = shape::joined(all, zone.box);
        all.min.z = 0;
        all.max.z = stations::passage_height;
        const double past = way_round == WayRound::low_end ? all.min.x - stations::passage : all.max.x;
        all.min.x = past;
        all.max.x = past + stations::passage;
        block_.zones.push_back({all, Use::way, stations::passage_height});
    }

    const Measures& m_;
    const BlockSpec& spec_;
    bool two_sided_;
    double floor_ = 0, back_plane_ = 0, depth_back_ = 0;
    Block block_;
};

}  // namespace

std::vector<Share> shares(int count, int most_in_line, int most_in_assembly) {
    std::vector<Share> out;
    const int in_line = std::max(1, most_in_line), in_assembly = std::max(1, most_in_assembly);
    int assembly = 0;
    for (int heaters : evenly(count, divided_up(count, in_assembly))) {
        ++assembly;
        for (int part : evenly(heaters, divided_up(heaters, in_line))) out.push_back({part, assembly});
    }
    return out;
}

std::vector<std::vector<Share>> ways_to_share(int count, int most_in_line, int most_in_assembly) {
    std::vector<std::vector<Share>> out{shares(count, most_in_line, most_in_assembly)};
    for (std::size_t banks = out.front().size() + 1; banks <= most_banks; ++banks) {
        if (count < least_in_bank * static_cast<int>(banks)) break;
        auto more = shares(count, divided_up(count, static_cast<int>(banks)), most_in_assembly);
        if (more.size() == banks) out.push_back(std::move(more));
    }
    return out;
}

void stand_heaters(Bank& bank, const Measures& measures, int heaters, bool mirrored) {
    const bool two_sided = bank.back_plane > 0;
    const int columns = two_sided ? divided_up(heaters, 2) : heaters;
    const int far_side = heaters - columns;
    const double first = mirrored ? measures.cap_end : measures.feed_end;
    bank.mirrored = mirrored;
    bank.stands.clear();
    for (int column = 0; column < columns; ++column) {
        const double u = first + column * measures.pitch;
        bank.stands.push_back({0, 0, u});
        // where the far side has one heater less, the place at the capped end stays empty
        const bool beyond = mirrored ? column >= columns - far_side : column < far_side;
        if (two_sided && beyond) bank.stands.push_back({0, 1, u});
    }
}

Block make_block(const Measures& measures, const BlockSpec& spec) { return Maker(measures, spec).make(); }

Block shrunk(Block block, double along, double across) {
    shape::Box all = block.zones.front().box;
    for (const Zone& zone : block.zones) all = shape::joined(all, zone.box);
    for (Zone& zone : block.zones) {
        zone.box.max.x = std::min(zone.box.max.x, all.max.x - along);
        zone.box.max.y = std::min(zone.box.max.y, all.max.y - across);
    }
    std::erase_if(block.zones, [](const Zone& zone) {
        return zone.box.max.x - zone.box.min.x < grid / 2 || zone.box.max.y - zone.box.min.y < grid / 2;
    });
    block.length = std::max(0.0, std::min(block.length, all.max.x - along));
    return block;
}

}  // namespace bw::layout
