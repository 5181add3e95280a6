// SPDX-License-Identifier: MIT
#pragma once
// One IFC file on its way: each step adds instances and keeps the numbers later steps refer to.

#include <vector>

#include "model/form.h"
#include "model/guid.h"
#include "model/ifc_class.h"
#include "model/part21.h"
#include "design/solved.h"

namespace bw::model {

struct IfcWriter {
    IfcWriter(const design::Result& result, const catalogue::Catalogue& catalogue);

    void project();      ///< units, contexts, site to space
    void shapes();       ///< geometry of every shape, with its colour
    void elements();     ///< every piece that is not the building's, in the space
    void types();        ///< a type a catalogue row and class
    void quantities();   ///< quantity and property sets of every element
    void ports();        ///< ports of what flows, nested in their elements
    void connections();  ///< ports joined to ports, and supports to what they hold
    void systems();      ///< a distribution system a service

    const design::Result& result;
    const catalogue::Catalogue& catalogue;
    const plant::Plant& plant;
    Scene scene;
    design::Solved solved;
    Guids guid;
    Part21 text;

    int body = 0;  ///< geometric context
    int axes = 0;  ///< placement at the origin, along the axes
    int here = 0;  ///< local placement of the space
    int building = 0, space = 0;
    int z = 0, x = 0;                          ///< directions
    std::vector<int> shape_map, shape_direct;  ///< by shape: representation map where shared, else representation
    std::vector<int> element, placement;       ///< by piece; 0 for the building's
    std::vector<Frame> frame;                  ///< by piece
    std::vector<std::vector<int>> port;        ///< by piece and port; 0 where none

    [[nodiscard]] int point(shape::Vec v);
    [[nodiscard]] int direction(shape::Vec v);
    /// A placement in a frame.
    [[nodiscard]] int axis2(const Frame& f);
};

/// Whether a port of this service becomes an IfcDistributionPort.
[[nodiscard]] bool flows(text::Service service);

}  // namespace bw::model
