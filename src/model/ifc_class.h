// SPDX-License-Identifier: MIT
#pragma once
// What IFC 4 calls the parts and services.

#include <string_view>

#include "text/vocabulary.h"

namespace bw::model {

struct IfcClass {
    std::string_view name;         ///< "PipeSegment": IFCPIPESEGMENT and its type IFCPIPESEGMENTTYPE
    std::string_view predefined;   ///< of the class's own enumeration
    std::string_view object = {};  ///< ObjectType where that is USERDEFINED
};

/// Not for Part::connection, which is the building's.
[[nodiscard]] IfcClass ifc_class(text::Part part);

/// A service as a distribution system. `predefined` is empty for structure, which is none.
struct IfcSystem {
    std::string_view predefined;   ///< IfcDistributionSystemEnum
    std::string_view object = {};  ///< ObjectType, where the enumeration is wider than the service
    std::string_view port;         ///< IfcDistributionPortTypeEnum
};

[[nodiscard]] IfcSystem ifc_system(text::Service service);

}  // namespace bw::model
