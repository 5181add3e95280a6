// SPDX-License-Identifier: MIT
#include "units/error.h"

#include "units/printable.h"

namespace bw::units {

std::string describe(const Error& error) {
    std::string out = printable(error.place.file);
    if (error.place.line > 0) {
        if (!out.empty()) out += ':';
        out += std::to_string(error.place.line);
        if (error.place.column > 0) out += ':' + std::to_string(error.place.column);
    }
    if (!out.empty()) out += ": ";
    out += printable(error.what);
    if (!error.expected.empty()) out += ", expected " + printable(error.expected);
    return out;
}

}  // namespace bw::units
