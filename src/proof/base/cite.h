// SPDX-License-Identifier: MIT
#pragma once
// What the checks lean on: clauses by the documents' own table, facts that are given, and what is read off the pieces.

#include "reason/document.h"

namespace bw::proof {

using reason::asce7;
using reason::ibc;
using reason::ifgc;
using reason::imc;
using reason::ipc;
using reason::nec;
using reason::nfpa54;
using reason::practice;
using reason::Source;
using reason::Sources;
using reason::Standing;

[[nodiscard]] inline Source given(std::string field) { return {"survey", "", std::move(field), Standing::given}; }
[[nodiscard]] inline Source by_pieces() { return {"this plant's pieces and joints", "", "", Standing::computed}; }

}  // namespace bw::proof
