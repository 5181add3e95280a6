// SPDX-License-Identifier: MIT
#pragma once
// The citing helpers that this room's rules use.

#include "reason/document.h"

namespace bw::code {

using reason::asce7;
using reason::ibc;
using reason::ifgc;
using reason::ipc;
using reason::nec;
using reason::nfpa54;
using reason::practice;

}  // namespace bw::code
