// SPDX-License-Identifier: MIT
#pragma once
// The parts list and what it costs, read off the pieces.

#include <string>
#include <vector>

#include "catalogue/catalogue.h"
#include "plant/plant.h"
#include "survey/survey.h"

namespace bw::make {

struct Line {
    std::string item;          ///< catalogue key
    std::string title;
    std::string material, size;///< as printed; may be empty
    std::string service;       ///< services it is used in, joined by ", "
    int count = 0;             ///< pieces
    double length = 0;         ///< metres cut in all, for what is sold by length; else 0
    double price_each = 0;     ///< USD a piece or a metre, survey overrides applied
    double price = 0;          ///< USD
    double minutes = 0;        ///< labour
    double mass = 0;           ///< kg dry
    std::string source;
    std::vector<int> pieces;   ///< indices into the plant
};

struct Estimate {
    std::vector<Line> lines;   ///< by service, then item
    double parts = 0;          ///< USD
    double hours = 0;
    double labour = 0;         ///< USD
    double markup = 0;         ///< USD
    double total = 0;          ///< USD
    double mass_dry = 0, mass_full = 0;  ///< kg
};

/// Every piece counted exactly once. Fails on a piece whose item is not in the catalogue.
[[nodiscard]] Result<Estimate> estimate(const survey::Survey& survey, const catalogue::Catalogue& catalogue,
                                        const plant::Plant& plant);

}  // namespace bw::make
