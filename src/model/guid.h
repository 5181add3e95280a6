// SPDX-License-Identifier: MIT
#pragma once
// Identifiers that stay the same while the thing they name stays.

#include <array>
#include <boost/uuid/uuid.hpp>
#include <string>
#include <string_view>

namespace bw::model {

/// The 22 characters of an IFC GloballyUniqueId: 128 bits as base 64 with IFC's own digits, the first holding two bits
/// and so 0 to 3. Source: ISO 16739-1, IfcGloballyUniqueId (from memory).
[[nodiscard]] std::string compressed(const std::array<unsigned char, 16>& bytes);

/// Name-based UUIDs (RFC 4122, version 5) under a project's own: same project and name, same identifier.
class Guids {
public:
    explicit Guids(std::string_view project);
    /// `kind` keeps apart a piece and what belongs to it.
    [[nodiscard]] std::string operator()(std::string_view kind, std::string_view name) const;

private:
    boost::uuids::uuid project_;
};

}  // namespace bw::model
