// SPDX-License-Identifier: MIT
#pragma once
// A layout becomes pieces: headers, branches, routes to the points of connection, vents, drains, power, supports.

#include <memory>

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

/// Plants laid for one job, kept between its edits: what an edit leaves as it was is taken from here and not laid
/// again. One build uses it at a time; another that comes meanwhile goes without.
class PlantCache {
public:
    PlantCache();
    ~PlantCache();
    PlantCache(const PlantCache&) = delete;
    PlantCache& operator=(const PlantCache&) = delete;
    /// Rounds of heaters, banks and mains that builds laid with it, and those they took from it.
    [[nodiscard]] int laid() const;
    [[nodiscard]] int taken() const;

private:
    friend class Layer;
    struct Plants;
    std::unique_ptr<Plants> plants_;
};

/// Builds the whole plant for one layout. Every port ends joined or capped. Fails, naming the service and what is in
/// the way, when a route to a point of connection does not exist or no catalogue size is big enough. The same with
/// anything laid before and without. The loop's pump gives at least `loop_head` where one does.
[[nodiscard]] Result<Built> build(const survey::Survey& survey, const catalogue::Catalogue& catalogue,
                                  const demand::Demand& demand, const demand::Capacity& capacity,
                                  const plant::Layout& layout, PlantCache* before = nullptr,
                                  units::Length loop_head = {});

}  // namespace bw::piping
