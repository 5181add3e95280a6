// SPDX-License-Identifier: MIT
#pragma once
// Exact solids of the CAD kernel. Included by this room alone.

#include <TopoDS_Shape.hxx>

#include "model/form.h"
#include "units/error.h"

namespace bw::kernel {

/// Millimetres, as CAD programs have it. One solid where the shape has one form, else a compound of them; a bent rod
/// the kernel cannot sweep stays the bars it is made of. Every solid has the volume of its form. Fails, naming the
/// item, where the kernel makes none.
[[nodiscard]] bw::Result<TopoDS_Shape> kernel_shape(const model::Shape& shape);

}  // namespace bw::kernel
