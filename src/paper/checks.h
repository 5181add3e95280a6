// SPDX-License-Identifier: MIT
#pragma once
// How a check and its working are set on the page.

#include "paper/flow.h"
#include "reason/reason.h"

namespace bw::paper {

[[nodiscard]] draw::Colour colour(reason::Status status);
/// "at most 0.500 inH2O" or, for yes/no checks, what was judged.
[[nodiscard]] std::string limit_text(const reason::Check& check, units::System system);
/// "+12.3 %", or empty.
[[nodiscard]] std::string margin_text(const reason::Check& check);
/// The check in full: title, verdict, value, limit and margin bar, sentence, working, sources, what it rests on.
void set_check(Flow& flow, const reason::Check& check, units::System system);
void set_derivation(Flow& flow, const reason::Derivation& derivation, units::System system, double indent = 12);
void set_sources(Flow& flow, const reason::Sources& sources, double indent = 12);

}  // namespace bw::paper
