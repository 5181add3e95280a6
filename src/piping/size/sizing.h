// SPDX-License-Identifier: MIT
#pragma once
// Sizes before laying, and again once the pieces tell the lengths.

#include "piping/kit/builder.h"

namespace bw::piping {

/// Lengths that gas sizing rests on, metres, equivalent lengths of fittings included.
struct GasLengths {
    double longest = 0;  ///< from the connection, or the regulator's outlet, to the farthest heater
    double service = 0;  ///< from the connection to the regulator; 0 where there is none
};

/// As far as the crow's orthogonal way and half as much again: for the first round.
[[nodiscard]] GasLengths guess_gas_lengths(const Builder& b);
/// Read off what was laid.
[[nodiscard]] Result<GasLengths> measure_gas_lengths(const Builder& b);

struct Sized {
    Sizes sizes;
    std::vector<Sizing> records;
};
/// By the handbook, for a builder that has laid nothing yet. Fails where no catalogue size is big enough, or a material
/// may not carry the service.
[[nodiscard]] Result<Sized> decide_sizes(const SizingInputs& brief, const Builder& bare, const GasLengths& lengths);

/// A length of a header, from the feed end: heaters it and what comes after it feed, and the first and last of its own
/// in order from the feed.
struct HeaderLength {
    int feeds = 0, first = 0, last = 0;
};
[[nodiscard]] std::vector<HeaderLength> header_lengths(const Builder& b, const plant::Bank& bank);
/// "bank 1 gas header", or "bank 1 gas header, places 5 to 8 from its feed"
/// where it has several lengths.
[[nodiscard]] std::string header_name(const plant::Bank& bank, Service service,
                                      const std::vector<HeaderLength>& lengths, std::size_t length);

/// What the pipe upstream of the line regulator, or of one before each bank, is called.
[[nodiscard]] std::string before_regulators(const Builder& b);
/// Gas pipe that is not laid has the size of what stands in its place: the pipe upstream of a regulator where there is
/// none, the main behind it where each bank has its own.
void size_unlaid_gas(const Builder& b, Sizes& sizes);

/// Whether reducers find room at the joint before a header's length without pushing the branches about: the heaters
/// either side of it stand far enough apart.
[[nodiscard]] bool may_change(const Builder& b, const plant::Bank& bank, Service service, std::size_t length,
                              Nominal from, Nominal to);

/// Water flow a bank's header or the main carries: what its heaters can give, and no more than the peak.
[[nodiscard]] units::VolumeFlow water_flow(const SizingInputs& brief, int heaters);

}  // namespace bw::piping
