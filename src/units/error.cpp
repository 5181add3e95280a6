// SPDX-License-Identifier: MIT
#include "units/error.h"

namespace bw::units {

namespace {

// Input may hold line breaks and control bytes; a message stays one printable line.
std::string one_line(const std::string& text) {
    std::string out;
    for (const char c : text) {
        if (c == '\n')
            out += "\\n";
        else if (static_cast<unsigned char>(c) < 0x20 || c == 0x7f)
            out += '?';
        else
            out += c;
    }
    return out;
}

}  // namespace

std::string describe(const Error& error) {
    std::string out = one_line(error.place.file);
    if (error.place.line > 0) {
        if (!out.empty()) out += ':';
        out += std::to_string(error.place.line);
        if (error.place.column > 0) out += ':' + std::to_string(error.place.column);
    }
    if (!out.empty()) out += ": ";
    out += one_line(error.what);
    if (!error.expected.empty()) out += ", expected " + one_line(error.expected);
    return out;
}

}  // namespace bw::units
