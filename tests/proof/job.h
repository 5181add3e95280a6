// SPDX-License-Identifier: MIT
#pragma once
// An example taken as far as its plant, to be proved as it is or tampered with.

#include <string>
#include <vector>

#include "proof/proof.h"

namespace bw::tests {

struct Job {
    survey::Survey survey;
    catalogue::Catalogue catalogue;
    demand::Demand demand;
    demand::Capacity capacity;
    plant::Layout layout;
    piping::Built built;

    [[nodiscard]] std::vector<reason::Check> prove() const;
};

/// The wash-house: eight heaters in one bank on a wall, regulator, common vent. Built once.
const Job& wash_house();
/// The hostel, with a recirculation loop. Built once.
const Job& hostel();

/// The sports hall on a rack, and with a vent of its own for every heater. Each is built once.
const Job& racked();
const Job& single_vents();
/// The wash-house with its drain in a wall far above the floor, to which a pump lifts the condensate. Built once.
const Job& pumped();

/// The check of an id; a failure is added when there is none, and an empty check comes back.
reason::Check check(const std::vector<reason::Check>& checks, const std::string& id);
/// Proves the job and gives one check.
reason::Check check(const Job& job, const std::string& id);

plant::Piece& piece(Job& job, const std::string& id);
/// The same plant without some pieces; what was joined to them is left open.
plant::Plant without(const plant::Plant& plant, const std::vector<std::string>& ids);
/// A piece of a part, of a catalogue item, set between a piece and what its port is joined to. Its own ports are "a",
/// to the piece, and "b".
void insert_after(Job& job, const std::string& id, const std::string& port, text::Part part, const std::string& item);

}  // namespace bw::tests
