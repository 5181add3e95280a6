// SPDX-License-Identifier: MIT
#pragma once
// What every code rule hands back: a value, how it was found, and where it stands. Whether the jurisdiction adopted
// that document and edition is for the proof to ask, not for these functions.

#include <string>
#include <utility>

#include "reason/reason.h"
#include "text/vocabulary.h"
#include "units/amount.h"
#include "units/error.h"
#include "units/nominal.h"
#include "units/quantity.h"

namespace bw::code {

using namespace bw::units;  // NOLINT: quantity names are the language of these headers
using reason::Derivation;
using reason::Source;
using reason::Sources;
using reason::Standing;
using text::Gas;
using text::Material;

/// A rule that is one stated value.
template <class T>
struct Clause {
    T value{};
    std::string says;  ///< the rule in one plain sentence of our own
    Source source;
};

/// A rule that takes working out.
template <class T>
struct Ruled {
    T value{};
    Derivation derivation;
    Sources sources;
};

}  // namespace bw::code
