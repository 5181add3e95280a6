// SPDX-License-Identifier: MIT
#include "piping/main/main_layer.h"

#include <fmt/format.h>

#include "piping/main/inline_lengths.h"
#include "reason/document.h"
#include "reason/register/register.h"

namespace bw::piping {

MainLayer::MainLayer(Builder& b, const Line& line, Thoroughness how) : b_(b), line_(line), router_(b, line, how) {}

void MainLayer::lay_between(const Line& line, PortRef from, PortRef to, Nominal largest,
                            const std::vector<InlineItem>& things, const WayEnds& ends) {
    const auto path = router_.find_roomy(line, from, to, largest, things, ends);
    if (!path) return refuse(path.error());
    lay_along(line, from, *path, things, to);
}

PortRef MainLayer::lay_along(const Line& line, PortRef from, const std::vector<Vec>& path,
                             const std::vector<InlineItem>& things, PortRef to) {
    const Dressed laid = lay_dressed(b_, line, from, path, things, to);
    outlets_.insert(outlets_.end(), laid.outlets.begin(), laid.outlets.end());
    for (const auto& name : laid.left_out) report_left_out(name);
    return laid.end;
}

void MainLayer::refuse(const Error& error) {
    b_.give_up(fmt::format("{} main: {}", text::name(line_.service), error.what), error.expected);
}

void MainLayer::report_left_out(const std::string& name) {
    const bool regulator = b_.ground.regulator_each_bank && name.ends_with("regulator");
    if (name == "size" || name.ends_with("reduced") || regulator) {
        b_.give_up(fmt::format("{}: no straight leg is long enough for {}", line_.name,
                               regulator ? "the regulator of each bank" : "its change of size"),
                   "the point of connection farther from the banks");
        return;
    }
    const std::string service(text::name(line_.service));
    auto check = reason::new_check("parts.main.<service>.<thing>", {reason::practice()},
                                   {{"service", service, service}, {"thing", name, name}});
    check.status = reason::Status::fail;
    check.says = "No straight leg of the main has room for it; it is not in the plant.";
    b_.finding(std::move(check));
}

void lay_routed(Builder& b, const Line& begin, Nominal largest, PortRef from, PortRef to,
                const std::vector<InlineItem>& things) {
    if (!b.ok()) return;
    MainLayer main(b, begin, Thoroughness::searched);
    main.lay_between(begin, from, to, largest, things,
                     {length_to_first_item(b, begin, things), 0, length_of_first_changes(b, begin, things), 0});
}

}  // namespace bw::piping
