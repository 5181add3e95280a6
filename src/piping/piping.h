// SPDX-License-Identifier: MIT
#pragma once
// A layout becomes pieces: headers, branches, routes to the points of connection, vents, drains, power, supports.

#include "catalogue/catalogue.h"
#include "demand/demand.h"
#include "plant/layout.h"
#include "plant/plant.h"
#include "survey/survey.h"

namespace bw::piping {

/// What sizing decided, and why; the derivations go into the proof.
struct Sizing {
    std::string what;  ///< "gas main", "bank 1 cold header", "common vent 1"
    text::Service service{};
    text::Material material{};
    units::Nominal size;
    reason::Derivation derivation;
    reason::Sources sources;
};

/// What pipe in the cheapest sizes that pass costs beside the handbook's, USD with labour and mark-up, by the lengths
/// laid.
struct Economy {
    struct Line {
        std::string what;
        text::Service service{};
        units::Nominal handbook, chosen;
        double handbook_cost = 0, cost = 0;
    };
    std::vector<Line> lines;
    double handbook_cost = 0, cost = 0;  ///< of the lines and the reducers between them
    bool proved = true;                  ///< no sizes that pass cost less
    int tried = 0;                       ///< choices of water headers solved
};

struct Built {
    plant::Plant plant;
    std::vector<Sizing> sizes;
    Economy economy;
    std::vector<reason::Check> findings;  ///< what could not be built as asked, as failing or referring checks
};

/// Why a layout need not be built: it, an obstacle or the panel's working space stands right before a point of
/// connection. A quick look; nullopt promises nothing.
[[nodiscard]] std::optional<Error> shut_connection(const survey::Survey& survey, const plant::Layout& layout);

/// Builds the whole plant for one layout. Every port ends
/// joined or capped. Fails, naming the service and what is in the way, when a route to a point of connection does not
/// exist or no catalogue size is big enough.
[[nodiscard]] Result<Built> build(const survey::Survey& survey, const catalogue::Catalogue& catalogue,
                                  const demand::Demand& demand, const demand::Capacity& capacity,
                                  const plant::Layout& layout);

}  // namespace bw::piping
