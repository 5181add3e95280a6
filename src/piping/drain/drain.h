// SPDX-License-Identifier: MIT
#pragma once
// Condensate: from each heater through a trap into a header under the row, rows together through a neutraliser, over an
// air gap into the building's drain.

#include <array>
#include <optional>
#include <vector>

#include "piping/kit/builder_extra.h"

namespace bw::piping {

/// Condensate of condensing heaters at cold return, by input. Common practice, no source: a gallon an hour per
/// 100 kBtu/h; the stoichiometric limit is a little higher.
[[nodiscard]] units::VolumeFlow condensate_flow(units::Power input);
/// What a drain pipe carries half full at a fall of 1/4 in a foot. Manning's equation, n = 0.009 for plastic.
[[nodiscard]] units::VolumeFlow drain_capacity(units::Length inside);

/// Sizes of the condensate lines of a plant.
struct DrainSizes {
    Nominal branch, header;
    const Item* neutraliser = nullptr;
    units::Power input{};
    units::VolumeFlow flow{};
};
/// Smallest header of 3/4 in or more that carries the flow, and the cheapest neutraliser rated for the input. Fails
/// where the catalogue has none.
[[nodiscard]] Result<DrainSizes> size_drains(const Builder& b);

/// A side of a bank: the heaters that drain into one header.
struct DrainRow {
    const plant::Bank* bank = nullptr;
    int side = 0;
    std::vector<Standing> heaters;
    std::vector<PortRef> vents;  ///< open drain tappings of common vents above it
    std::string name;            ///< "bank-1.condensate"
    Vec along, out;              ///< unit vectors: towards the drain, and away from the wall
};
[[nodiscard]] std::vector<DrainRow> drain_rows(const Builder& b, Vec drain);

/// Where a row's header runs and its traps stand, metres.
struct DrainPlan {
    double trap_out = 0, header_out = 0;  ///< from v = 0 to the traps' and the header's axes
    double height = 0;                    ///< of the header's axis
};
/// As near to the usual height as finds a free line, no lower than `least` where one so high does, with room
/// for its fall to `drain` where there is any.
[[nodiscard]] Result<DrainPlan> plan_row(const Builder& b, const DrainRow& row, const DrainSizes& sizes, double least,
                                         Vec drain);
/// Where the heaters' relief valves will hang, which are laid after the drains.
[[nodiscard]] std::vector<KeepOff> relief_rooms(const Builder& b);
/// Whether the condensate as it is laid can be hung with its fall: at the usual slope, else at the code's least.
[[nodiscard]] bool falls_to_drain(const Builder& b);

/// Lays a row; its header's open end towards the drain.
PortRef lay_row(Builder& b, const DrainRow& row, const DrainSizes& sizes, const DrainPlan& plan);

/// The room without the working space in front of heaters, for a pipe that finds no other way.
[[nodiscard]] ClearanceMap over_working_space(const Builder& b);
/// Refers a pipe that crosses the working space to the inspector.
void crosses(Builder& b, const Line& line);

/// A condensate pump on the floor, and the height its discharge rises to before it falls to the drain.
struct PumpStand {
    const Item* item = nullptr;
    Vec at;   ///< on the floor, under its inlet
    Vec way;  ///< from inlet to discharge
    double high = 0;

    [[nodiscard]] Vec inlet() const;
    [[nodiscard]] Vec discharge() const;
    /// Of pump and riser.
    [[nodiscard]] std::array<shape::Box, 2> room() const;
};
/// Free places for a pump whose lift and flow suffice, the nearest to the banks first; no more than a few.
[[nodiscard]] std::vector<PumpStand> pump_stands(const Builder& b, const DrainSizes& sizes, Vec drain);
/// Sets the pump under an open pipe end at its inlet, with its overflow switch; the discharge, through a check valve,
/// up and on to an air gap at the drain.
void lay_pump(Builder& b, const PumpStand& stand, PortRef into, Vec drain);

/// Where the neutraliser is looked for, and what it drains into.
struct DrainEnd {
    double lowered = 0;               ///< 0 level with the headers, 1 as low as drain and floor allow
    bool over_working_space = false;  ///< before the heaters too: a floor drain there is better met than not at all
    std::optional<PumpStand> pump = {};

    [[nodiscard]] Vec low_point(Vec drain) const { return pump ? pump->inlet() : drain; }
};

/// Height above the drain that neutraliser, drop and air gap need, or above a pump's inlet neutraliser and drop,
/// metres.
[[nodiscard]] double height_over(const Builder& b, const DrainSizes& sizes, const DrainEnd& end);
/// Lays neutraliser, drop and air gap at the building's drain, or pump and discharge, with a tee for each row past the
/// first. Open ports that take the rows' headers, the farthest upstream first.
[[nodiscard]] std::vector<PortRef> lay_neutraliser(Builder& b, const DrainSizes& sizes, Vec drain, double height,
                                                   int rows, Vec from, const DrainEnd& end);
/// On from an open pipe end by corners, through an air gap into the building's drain.
void end_at_drain(Builder& b, const Line& line, PortRef open, const std::vector<Vec>& corners, const Item& gap);

}  // namespace bw::piping
