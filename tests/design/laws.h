// SPDX-License-Identifier: MIT
#pragma once
// Laws every designed plant keeps, whatever the survey.

#include <gtest/gtest.h>

#include "design/design.h"
#include "network/service_tree.h"
#include "reason/register/register.h"

namespace bw::test {

/// Every check is a row of the register, stands in report order, and ends as its row says it may.
inline void expect_registered(const std::vector<reason::Check>& checks) {
    std::size_t last = 0;
    for (const auto& check : checks) {
        const auto place = reason::place_of(check.id);
        ASSERT_TRUE(place) << check.id << " is no row of the register of checks";
        EXPECT_GE(place->order, last) << check.id << " stands out of order";
        last = place->order;
        EXPECT_EQ(check.service, reason::row_of(place->group).key) << check.id;
        EXPECT_TRUE(check.status != reason::Status::fail || place->row->ends == reason::Ends::may_fail)
            << check.id << ": " << check.says;
    }
}

/// Every port joined or capped, parts equal to pieces, flow into every tee equal to the flow out of it, every heater
/// fed by gas and cold and feeding hot.
inline void expect_lawful(const design::Result& result) {
    expect_registered(result.checks);
    ASSERT_TRUE(result.chosen);
    const auto& plant = result.chosen->built.plant;
    for (const auto& broken : plant::unlawful(plant)) ADD_FAILURE() << broken;

    int counted = 0, pieces = 0;
    double mass = 0, mass_pieces = 0;
    for (const auto& line : result.chosen->estimate.lines) counted += line.count, mass += line.mass;
    for (const auto& piece : plant.pieces) {
        pieces += piece.part != text::Part::connection;
        mass_pieces += piece.part != text::Part::connection ? piece.mass_dry : 0;
    }
    EXPECT_EQ(counted, pieces);
    EXPECT_NEAR(mass, mass_pieces, 1e-6 * mass_pieces);

    const int heaters = result.capacity.installed;
    for (auto [service, site] : {std::pair(text::Service::gas, "site.gas"), std::pair(text::Service::cold, "site.cold"),
                                 std::pair(text::Service::hot, "site.hot")}) {
        const auto tree = network::trace_service(plant, service, plant.find(site));
        ASSERT_TRUE(tree) << units::describe(tree.error());
        ASSERT_EQ(static_cast<int>(tree->leaf.size()), heaters) << site;
        for (int h = 0; h < heaters; ++h)
            EXPECT_GE(tree->leaf[static_cast<std::size_t>(h)], 0) << site << " does not reach heater " << h + 1;
        EXPECT_EQ(tree->traversals.front().heaters, heaters) << site;
        // what enters a passage leaves by the traversals after it, or ends at a heater
        std::vector<int> out(tree->traversals.size(), 0);
        for (const auto& p : tree->traversals)
            if (p.before >= 0) out[static_cast<std::size_t>(p.before)] += p.heaters;
        for (int leaf : tree->leaf) out[static_cast<std::size_t>(leaf)] += 1;
        for (std::size_t i = 0; i < out.size(); ++i) {
            const auto& p = tree->traversals[i];
            // a tee has a passage for its run and one for its branch, each carrying its own share
            EXPECT_EQ(out[i], p.heaters) << site << " at " << plant.pieces[static_cast<std::size_t>(p.piece)].id;
        }
    }
}

}  // namespace bw::test
