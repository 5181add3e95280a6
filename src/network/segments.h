// SPDX-License-Identifier: MIT
#pragma once
// A service's tree cut into segments, each one link of its flow network.

#include <optional>
#include <string_view>
#include <vector>

#include "catalogue/catalogue.h"
#include "flow/pipes.h"
#include "network/service_tree.h"
#include "plant/plant.h"
#include "units/error.h"

namespace bw::network {

/// Pieces in a row of one bore, away from the root of their tree. A piece that may stop the flow is a segment by
/// itself.
struct Segment {
    int before = -1;                             ///< segment upstream; -1 at the root
    std::vector<int> pieces;                     ///< indices
    double bore = 0, length = 0, roughness = 0;  ///< metres; roughness 0: no pipe in it
    double local = 0;                            ///< velocity heads
    bool one_way = false;                        ///< a check valve or a backflow preventer
    std::optional<double> holds;                 ///< a reducing valve's or regulator's outlet, Pa gauge
    plant::PortRef end;
    int heater = 0;  ///< number of the heater it ends at; such a segment has no piece of its own

    [[nodiscard]] bool whole() const { return one_way || holds; }  ///< takes no other piece in
    [[nodiscard]] bool lossless() const { return length == 0 && local == 0; }
    /// Drawn tubing, 0.0015 mm (Moody 1944), where no pipe row says better.
    [[nodiscard]] flow::Stretch stretch() const { return {length, bore, roughness > 0 ? roughness : 1.5e-6, local}; }
};

/// The segments that lead from a point of connection to heaters, each after the one before it. Fails where the tree
/// cannot be read, or naming a piece without a bore or a regulator without an outlet pressure.
[[nodiscard]] Result<std::vector<Segment>> segments_of(const plant::Plant& plant, const catalogue::Catalogue& catalogue,
                                                       text::Service service, std::string_view root);

/// What one passage loses.
struct PassageLoss {
    double bore = 0, length = 0;  ///< metres
    double velocity_heads = 0;    ///< in that bore
};
/// By the solved networks' rule. A tee's side outlet may be smaller than its run: its loss counts in the smaller bore.
/// A piece without a bore of its own takes the one upstream.
[[nodiscard]] PassageLoss loss_through(const plant::Plant& plant, const Traversal& passage, double upstream_bore);

/// "bank-1.cold.header.pipe-1 to bank-1.cold.header.pipe-4"
[[nodiscard]] std::string name_of(const plant::Plant& plant, const Segment& segment);
/// "bank-1.cold.header.tee-2.b"
[[nodiscard]] std::string name_of(const plant::Plant& plant, plant::PortRef port);

}  // namespace bw::network
