// SPDX-License-Identifier: MIT
// What else the package holds.
#include "paper/report_parts.h"

namespace bw::paper {

void set_files(Flow& flow) {
    flow.heading(1, "With this report");
    flow.paragraph(
        "All are made from the same pieces as the checks, so none can differ from another. In the model files pieces "
        "have "
        "the names they have here and stand in the survey's room; the building itself is not in them.");
    flow.table(
        {{"File", 1.2}, {"What it is", 4.2}},
        {{"sheets.pdf, sheet-*.svg",
          "Plan and elevations, dimensioned; isometric; gas riser, water flow, vent and wiring diagrams, not to scale"},
         {"sheets.dxf",
          "Plan, elevations and isometric for CAD, full size: a layer a service, hidden lines apart, a block for "
          "whatever repeats"},
         {"parts.csv", "Parts list, one line an item"},
         {"plant.ifc",
          "IFC 4 for coordination: classes, ports and what they join, systems, weights, pressure and flow at the "
          "peak where the networks have a solution"},
         {"plant.step", "STEP AP214 for CAD: an assembly of exact solids with names and colours, millimetres"},
         {"plant.glb", "glTF 2.0 for looking at: one node a piece, metres, y up"},
         {"result.json", "The whole result as data"}},
        8.5);
}

}  // namespace bw::paper
