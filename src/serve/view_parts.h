// SPDX-License-Identifier: MIT
#pragma once
// The long parts of a view, each written under its own key.

#include "serve/shown.h"
#include "serve/writer.h"

namespace bw::serve {

void write_checks(Writer& out, const design::Result& result, units::System system);
void write_pieces(Writer& out, const Shown& shown, const catalogue::Catalogue& catalogue, units::System system);
void write_geometry(Writer& out, const design::Result& result);
void write_room(Writer& out, const survey::Room& room);

}  // namespace bw::serve
