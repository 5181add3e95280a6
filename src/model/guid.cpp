// SPDX-License-Identifier: MIT
#include "model/guid.h"

#include <algorithm>
#include <boost/uuid/name_generator_sha1.hpp>

namespace bw::model {

std::string compressed(const std::array<unsigned char, 16>& bytes) {
    constexpr std::string_view digits = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz_$";
    std::string out;
    out.reserve(22);
    unsigned value = bytes[0];
    out += digits[value >> 6];
    out += digits[value & 63];
    for (std::size_t i = 1; i < bytes.size(); i += 3) {  // 24 bits are four digits
        value = static_cast<unsigned>(bytes[i] << 16 | bytes[i + 1] << 8 | bytes[i + 2]);
        for (int shift = 18; shift >= 0; shift -= 6) out += digits[value >> shift & 63];
    }
    return out;
}

Guids::Guids(std::string_view project)
    : project_(boost::uuids::name_generator_sha1(boost::uuids::ns::oid())("bankwright:" + std::string(project))) {}

std::string Guids::operator()(std::string_view kind, std::string_view name) const {
    std::string whole(kind);
    whole.append(1, '/').append(name);
    const auto made = boost::uuids::name_generator_sha1(project_)(whole);
    std::array<unsigned char, 16> bytes{};
    std::copy(made.begin(), made.end(), bytes.begin());
    return compressed(bytes);
}

}  // namespace bw::model
