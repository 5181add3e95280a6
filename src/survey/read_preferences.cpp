// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include "survey/parts.h"
#include "survey/section.h"
#include "text/material.h"

namespace bw::survey {
namespace {

constexpr double most_dollars = 1e6;

bool is_year(std::string_view text) {
    return text.size() == 4 && std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; }) &&
           text >= "1990" && text <= "2049";
}

Result<Code> read_code(const text::Node& node, const Survey& survey, std::vector<Assumption>& assumed) {
    Code code;
    Table t("codes", node, assumed);
    t.take("document", code.document);
    t.take("edition", code.edition);
    t.take("amendments", code.amendments);
    if (t.ok() && !is_year(code.edition))
        t.refuse("edition", fmt::format("'{}' is not a year", code.edition.substr(0, 20)), "a year such as \"2018\"");
    if (t.ok() && survey.adopted(code.document) != nullptr)
        t.refuse("document", fmt::format("{} is adopted twice", code.document), "each document once");
    if (auto done = t.finish(); !done) return tl::unexpected(done.error());
    return code;
}

/// "12.50 USD" for a piece; "3.20 USD/ft" or "10.50 USD/m" for pipe, which is held per metre.
Result<double> read_price(const std::string& key, const text::Node& node) {
    const bool pipe = key.starts_with("pipe/");
    const std::string_view expected =
        pipe ? "a price a length: \"3.20 USD/ft\" or \"10.50 USD/m\"" : "a price: \"12.50 USD\"";
    const auto text = node.as_string();
    if (!text) return node.error(fmt::format("{}: {}", key, text.error().what), std::string(expected));
    std::string_view written = *text;
    double per_metre = 1;
    if (pipe) {
        const bool foot_price = written.ends_with("/ft");
        if (!foot_price && !written.ends_with("/m"))
            return node.error(fmt::format("{}: '{}' is not a price a length", key, written.substr(0, 40)),
                              std::string(expected));
        written.remove_suffix(foot_price ? 3 : 2);
        if (foot_price) per_metre = 1 / 0.3048;
    }
    const auto amount = units::parse(written, units::Kind::money);
    if (!amount) return node.error(fmt::format("{}: {}", key, amount.error().what), std::string(expected));
    if (amount->si < 0 || amount->si > most_dollars)
        return node.error(fmt::format("{}: {} is out of range", key, *text), "0 USD to 1000000 USD");
    return amount->si * per_metre;
}

void read_prices(Table& t, Preferences& preferences) {
    const auto node = t.child("prices");
    if (!node) return;
    if (!node->is_table()) return t.refuse("prices", "is not a table", "[preferences.prices]");
    for (const auto& [key, value] : node->entries()) {
        const auto price = read_price(key, value);
        if (!price) return t.fail(price.error());
        preferences.prices[key] = *price;
        preferences.price_places[key] = value.place();
    }
}

void judge_gas_pipe(Table& t, const Survey& survey) {
    const auto pipe = survey.preferences.gas_pipe.value;
    const bool copper = text::row_of(pipe).gas_use == text::GasUse::low_sulphide;
    if (t.ok() && copper && !survey.gas.low_sulphide.value)
        t.refuse("gas-pipe", fmt::format("{} needs gas low in hydrogen sulphide", text::name(pipe)),
                 "gas.low-sulphide = true from the utility, or steel-40, steel-80, stainless-10s or csst");
}

void read_spare(Table& t, Survey& survey) {
    auto& preferences = survey.preferences;
    if (!t.take("spare", preferences.spare))
        t.fall_back("spare", preferences.spare,
                    survey.use.care ? Fallback{"one", "people in care: hot water with one heater down"}
                                    : Fallback{"none", "no spare heater was asked for"});
    const bool shared = t.take("spare-share", preferences.spare_share);
    if (!shared && t.ok() && preferences.spare.value == SparePolicy::share)
        t.take_or_default("spare-share", preferences.spare_share);
    if (!shared && t.ok() && preferences.spare.value == SparePolicy::share_one_down)
        t.fall_back("spare-share", preferences.spare_share, {"75 %", "three quarters; common practice, no source"});
}

}  // namespace

Result<void> read_codes(const Top& top, Survey& out) {
    if (!top.codes) {
        out.assumed.push_back({"codes", "none", "no adopted code is named: code checks refer", true});
        return {};
    }
    if (!top.codes->is_array()) return top.codes->error("codes is not a list of tables", "[[codes]]");
    for (const auto& node : top.codes->items()) {
        auto code = read_code(node, out, out.assumed);
        if (!code) return tl::unexpected(code.error());
        out.codes.push_back(std::move(*code));
    }
    return {};
}

Result<void> read_safety(const Top& top, Survey& out) {
    Table t("safety", top.safety, out.assumed);
    t.take_or_default("emergency-stop-required", out.emergency_stop_required);
    t.take_or_default("co-alarm-required", out.co_alarm_required);
    return t.finish();
}

Result<void> read_preferences(const Top& top, Survey& out) {
    auto& preferences = out.preferences;
    Table t("preferences", top.preferences, out.assumed);
    t.take_or_default("gas-pipe", preferences.gas_pipe);
    t.take_or_default("water-pipe", preferences.water_pipe);
    t.take_or_default("vent-pipe", preferences.vent_pipe);
    t.take_or_default("arrangement", preferences.arrangement);
    t.take_or_default("vent", preferences.vent);
    t.take_or_default("room-air", preferences.room_air);
    read_spare(t, out);
    t.take_or_default("scale-allowance", preferences.scale_allowance);
    Volume tank{};
    if (t.take("tank", tank)) preferences.tank = tank;
    std::string heater;
    if (t.take("heater", heater)) {
        preferences.heater = heater;
        preferences.heater_place = top.preferences->get("heater")->place();
    }
    std::string place;
    if (t.take("place", place)) preferences.place = place;
    t.take_or_default("labour-rate", preferences.labour_rate);
    t.take_or_default("markup", preferences.markup);
    t.take_or_default("most-in-line", preferences.most_in_line);
    t.take_or_default("most-in-assembly", preferences.most_in_assembly);
    t.take_or_default("header-serves", preferences.header_serves);
    t.take_or_default("gas-by-engineering", preferences.engineered_gas);
    read_prices(t, preferences);
    judge_gas_pipe(t, out);
    return t.finish();
}

}  // namespace bw::survey
