// SPDX-License-Identifier: MIT
#pragma once
// A topic and the function behind it; each is made in the file that bears its name.

#include "reckon/inputs.h"
#include "reckon/reckon.h"

namespace bw::reckon {

/// What a topic hands back; topic and given are filled in by the caller.
struct Findings {
    std::vector<Named> result;
    reason::Derivation derivation = {};
    reason::Sources sources = {};
};

struct Entry {
    Topic topic;
    Result<Findings> (*run)(const Inputs& inputs, const catalogue::Catalogue& catalogue);
};

[[nodiscard]] Entry gas_pipe();
[[nodiscard]] Entry fixture_units();
[[nodiscard]] Entry fixture_probability();
[[nodiscard]] Entry hourly_demand();
[[nodiscard]] Entry occupancy_demand();
[[nodiscard]] Entry inlet_water();
[[nodiscard]] Entry water();
[[nodiscard]] Entry water_pipe();
[[nodiscard]] Entry heater_capacity();
[[nodiscard]] Entry combustion();
[[nodiscard]] Entry combustion_air();
[[nodiscard]] Entry gas_test();
[[nodiscard]] Entry expansion_vessel();
[[nodiscard]] Entry heat_loss();
[[nodiscard]] Entry anchor_seismic();
[[nodiscard]] Entry overturning();

/// The pipe of a material and size; fails with the sizes there are.
[[nodiscard]] Result<const catalogue::Pipe*> find_pipe(const catalogue::Catalogue& catalogue, units::Nominal size,
                                                       text::Material material);
/// Puts more sources behind others, each once.
void add(reason::Sources& to, const reason::Sources& more);
/// The words of an enumeration, for a name's choices.
template <class Enum>
[[nodiscard]] std::vector<std::string_view> words() {
    const auto all = text::names<Enum>();
    return {all.begin(), all.end()};
}

}  // namespace bw::reckon
