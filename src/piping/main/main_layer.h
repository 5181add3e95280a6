// SPDX-License-Identifier: MIT
#pragma once
// Lays a main between two ports and keeps account of what became of the things set into it.

#include <string>
#include <vector>

#include "piping/main/main_router.h"

namespace bw::piping {

class MainLayer {
public:
    /// Of `line` the service, the material and, for messages, the name count.
    MainLayer(Builder& b, const Line& line, Thoroughness how);

    [[nodiscard]] const MainRouter& router() const { return router_; }

    /// Finds the roomiest way and lays it with the things set in, the far port joined. `largest` is the greatest size
    /// the main has on it. Gives up where there is no way.
    void lay_between(const Line& line, PortRef from, PortRef to, Nominal largest, const std::vector<InlineItem>& things,
                     const WayEnds& ends);
    /// Lays a way that is known; gives its end, open where no far port is given.
    PortRef lay_along(const Line& line, PortRef from, const std::vector<Vec>& path,
                      const std::vector<InlineItem>& things, PortRef to = nowhere);
    /// Gives up, saying which main found no way.
    void refuse(const Error& error);

    /// What the outlets laid so far were left open for.
    [[nodiscard]] const std::vector<Outlet>& outlets() const { return outlets_; }

private:
    void report_left_out(const std::string& name);

    Builder& b_;
    Line line_;
    MainRouter router_;
    std::vector<Outlet> outlets_;
};

/// Finds a way between two open ports and lays it with things set in.
void lay_routed(Builder& b, const Line& begin, Nominal largest, PortRef from, PortRef to,
                const std::vector<InlineItem>& things);

}  // namespace bw::piping
