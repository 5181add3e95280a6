// SPDX-License-Identifier: MIT
#pragma once
// The chosen plant as models other programs open. Pieces keep their ids, stand where the survey's room has them, and
// have the volume of their solids.

#include <string>

#include "design/design.h"

namespace bw::model {

/// glTF 2.0, binary. Metres, y up (x as in the room, z = -y of the room). One node a piece, named by its id, under a
/// node a service (heaters apart); a material a service; equal shapes share a mesh. `extras` of a piece: id, part,
/// service, item and where they have a meaning size, cut (m), mass (kg), heater, bank. Deterministic bytes. Fails when
/// nothing was chosen.
[[nodiscard]] bw::Result<std::string> gltf(const design::Result& result);

/// IFC 4, STEP physical file. Metres, pascals, seconds. Classes of the trade, ports with what they connect to, a system
/// a service, types by catalogue row, quantities, and pressure and flow where the networks have a solution. GUIDs
/// follow from job title and piece id. Deterministic bytes. Fails when nothing was chosen.
[[nodiscard]] bw::Result<std::string> ifc(const design::Result& result, const catalogue::Catalogue& catalogue);

/// STEP AP214 by the CAD kernel, metres: an assembly of services, each of its pieces; exact solids, equal shapes
/// shared; names and colours. The same statements every time, in an order that is the kernel's. Fails when nothing was
/// chosen or the kernel refuses a shape, which it names.
[[nodiscard]] bw::Result<std::string> step(const design::Result& result);

}  // namespace bw::model
