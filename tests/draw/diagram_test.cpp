// SPDX-License-Identifier: MIT
// Diagrams as they read on paper, against the pieces they are read off.
#include <algorithm>
#include <cctype>
#include <set>

#include "design/solved.h"
#include "kit.h"

namespace bw::test {
namespace {

using text::Part;
using text::Service;

class Diagrams : public ::testing::TestWithParam<const char*> {
protected:
    [[nodiscard]] std::vector<Page> pages() const {
        return pages_of(
            draw::sheets(designed(GetParam()), demo_catalogue(), units::System::us, draw::Paper::tabloid).value().pdf);
    }
    [[nodiscard]] int of(std::set<Part> parts, std::set<Service> services) const {
        int n = 0;
        for (const auto& p : plant_of(GetParam()).pieces) n += parts.contains(p.part) && services.contains(p.service);
        return n;
    }
};
INSTANTIATE_TEST_SUITE_P(All, Diagrams, ::testing::ValuesIn(example_names));

/// The number in brackets after a phrase of the legend; nothing of the kind is not in it.
int legend(const Page& page, const std::string& phrase) {
    const auto text = page.text();
    const auto at = text.find(" " + phrase + " (");
    return at == std::string::npos ? 0 : std::stoi(text.substr(at + phrase.size() + 3));
}

TEST_P(Diagrams, EveryHeaterStandsOnceOnEachAndAllItsPartsAreShown) {
    const auto all = pages();
    const int heaters = of({Part::heater}, {plant_of(GetParam()).pieces.front().service});
    ASSERT_GT(heaters, 1);
    for (const auto* title : {"Gas riser diagram", "Water flow diagram", "Vent diagram", "Wiring and link diagram"}) {
        const auto& page = page_titled(all, title);
        const auto in_drawing = [&](const Page::Word& w) {
            return w.right < page.width - 230 && w.bottom < page.height - 90 &&
                   std::ranges::all_of(w.text, [](unsigned char c) { return std::isdigit(c); });
        };
        double tallest = 0;  // heaters' numbers are its largest
        for (const auto& w : page.words)
            if (in_drawing(w)) tallest = std::max(tallest, w.bottom - w.top);
        std::multiset<std::string> drawn;
        for (const auto& w : page.words)
            if (in_drawing(w) && w.bottom - w.top > 0.9 * tallest) drawn.insert(w.text);
        for (int n = 1; n <= heaters; ++n) EXPECT_EQ(drawn.count(std::to_string(n)), 1u) << title << " heater " << n;
    }
    const auto& gas = page_titled(all, "Gas riser diagram");
    EXPECT_EQ(legend(gas, "gas shutoff"), of({Part::gas_valve}, {Service::gas}));
    EXPECT_EQ(legend(gas, "union"), of({Part::union_joint}, {Service::gas}));
    EXPECT_EQ(legend(gas, "flexible connector"), heaters);
    EXPECT_EQ(legend(gas, "sediment trap") + legend(gas, "capped end"), of({Part::cap}, {Service::gas}));
    const auto& water = page_titled(all, "Water flow diagram");
    EXPECT_EQ(legend(water, "relief valve, piped to an air gap"),
              of({Part::relief_valve}, {Service::hot, Service::relief}));
    EXPECT_EQ(legend(water, "strainer"), of({Part::strainer}, {Service::cold}));
    const std::set wet{Service::cold, Service::hot, Service::recirculation};
    EXPECT_EQ(legend(water, "check valve, flow from the filled side"), of({Part::check_valve}, wet));
    EXPECT_EQ(legend(water, "ball valve"), of({Part::ball_valve}, wet));
    EXPECT_EQ(legend(water, "reducer"), of({Part::reducer}, wet));
    const auto& vent = page_titled(all, "Vent diagram");
    EXPECT_EQ(legend(vent, "exhaust terminal"), of({Part::vent_terminal}, {Service::exhaust}));
    EXPECT_EQ(legend(vent, "heater's collar"), of({Part::vent_collar}, {Service::exhaust, Service::intake}));
    const auto& power = page_titled(all, "Wiring and link diagram");
    EXPECT_EQ(legend(power, "disconnect in sight of its heater"), heaters);
    EXPECT_EQ(legend(power, "link cable, dashed"), of({Part::link_cable}, {Service::link}));
}

TEST_P(Diagrams, SayWhatTheNetworksSay) {
    const auto all = pages();
    const auto& result = designed(GetParam());
    const auto solved = design::solved(result);
    const auto& gas = page_titled(all, "Gas riser diagram");
    for (const auto& p : solved.heater_gas_pressure) {
        ASSERT_TRUE(p);
        EXPECT_GT(gas.count(units::print(units::amount(*p, units::Kind::gas_pressure), units::System::us)), 0);
    }
    const auto each = result.chosen->capacity.each.input / *result.survey.gas.heating_value;
    const auto load = [&](int n) {
        return units::print(units::amount(static_cast<double>(n) * each, units::Kind::gas_flow), units::System::us);
    };
    EXPECT_GT(gas.count(load(result.chosen->capacity.installed)), 0);
    EXPECT_GT(gas.count(load(1)), 0) << "the last run feeds one heater";
    const auto& water = page_titled(all, "Water flow diagram");
    for (const auto& q : solved.heater_water) {
        ASSERT_TRUE(q);
        EXPECT_GT(water.count(units::print(units::amount(*q), units::System::us)), 0);
    }
}

}  // namespace
}  // namespace bw::test
