// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <cmath>

#include "catalogue/read.h"
#include "catalogue/rows.h"

namespace bw::catalogue {

namespace {

/// All numbers a part may hold: the common ones, then its own.
std::vector<Number<Item>> numbers_of(Part part) {
    std::vector<Number<Item>> out(item_numbers().begin(), item_numbers().end());
    for (auto& number : out) {
        if (number.name == "run") number.required = needs(part).run;
        if (number.name == "stem") number.required = needs(part).stem;
    }
    for (const auto& field : data_fields())
        if (belongs(field, part)) out.push_back({field.name, field.kind, false, field.range, nullptr, field.required});
    return out;
}

/// Appends each, which is done for every row at every start: quicker than formatting.
void append(std::string& text, auto... more) { (text.append(more), ...); }

/// "tee/steel-40/3x3/4", "regulator/3/4/natural", "co-alarm".
std::string key_of(const Item& item, const Words& words) {
    if (!words.key.empty()) return words.key;
    std::string key(text::name(item.part));
    if (item.material) append(key, "/", text::name(*item.material));
    if (words.size) append(key, "/", print(*words.size));
    if (words.size && words.branch) append(key, "x", print(*words.branch));
    if (!words.variant.empty()) append(key, "/", words.variant);
    return key;
}

/// "Tee, wrought copper, 2 x 3/4 in".
std::string title_of(const std::string& title, const Words& words) {
    std::string out = title;
    if (!words.variant.empty()) append(out, ", ", words.variant);
    if (!words.size) return out;
    append(out, ", ", print(*words.size));
    if (words.branch) append(out, " x ", print(*words.branch));
    return out.append(" in");
}

/// The gas a row is for: the head's, else the one its variant names, as files written before there was `gas` say it.
std::optional<text::Gas> gas_of(const Item& head, const Words& words) {
    if (head.gas) return head.gas;
    const auto named = text::named<text::Gas>(words.variant);
    return named ? std::optional(*named) : std::nullopt;
}

Result<void> complete(const RowInHand<Item>& hand, const std::vector<Number<Item>>& numbers) {
    const Needs need = needs(hand.row.part);
    const auto part = text::name(hand.row.part);
    if (need.size && !hand.words.size)
        return fail(fmt::format("a {} without 'size'", part), "a nominal size such as 1-1/4", hand.place);
    if (need.branch && !hand.words.branch)
        return fail(fmt::format("a {} without 'branch'", part), "the nominal size of its branch, small end or outlet",
                    hand.place);
    if (hand.words.branch && !hand.words.size)
        return fail(fmt::format("a {} with 'branch' but no 'size'", part), "both", hand.place);
    for (std::size_t i = 0; i < numbers.size(); ++i)
        if (numbers[i].required && !hand.given.test(i))
            return fail(fmt::format("{}: '{}' is missing", key_of(hand.row, hand.words), numbers[i].name),
                        "in the head, or as a column with its unit", hand.place);
    return {};
}

bool on_grid(Length length) {
    const double sixteenths = 16 * static_cast<double>(length / inch);
    return std::abs(sixteenths - std::round(sixteenths)) < 1e-6;
}

Result<void> judge_pump(const Item& item) {
    for (int i = 2; i <= 5; ++i) {
        const auto flow = item.number(fmt::format("flow-{}", i)), head = item.number(fmt::format("head-{}", i));
        if (flow.has_value() != head.has_value())
            return fail(fmt::format("{}: flow-{} and head-{} come together", item.key, i, i), "both or neither");
        const auto flow_before = item.number(fmt::format("flow-{}", i - 1)),
                   head_before = item.number(fmt::format("head-{}", i - 1));
        if (flow && !flow_before)
            return fail(fmt::format("{}: point {} without point {}", item.key, i, i - 1), "points in order");
        if (flow && (*flow <= *flow_before || *head >= *head_before))
            return fail(fmt::format("{}: point {} of the curve", item.key, i),
                        "more flow and less head than the point before");
    }
    return {};
}

}  // namespace

Result<void> judge(const Item& item) {
    for (const auto& [name, length] : {std::pair{"run", item.run}, {"stem", item.stem}})
        if (!on_grid(length))
            return fail(
                fmt::format("{}: {} {:.4f} in is off the grid", item.key, name, static_cast<double>(length / inch)),
                "a multiple of 1/16 in, so that cut lengths come out exact");
    const bool narrows = item.part == Part::reducer || item.part == Part::vent_adapter;
    if (narrows && !(item.branch < item.size))
        return fail(fmt::format("{}: the small end is not smaller", item.key), "branch < size");
    if ((item.part == Part::tee || item.part == Part::vent_tee) && item.branch > item.size)
        return fail(fmt::format("{}: the branch is larger than the run", item.key), "branch <= size");
    if (item.part == Part::regulator) {
        if (!item.gas)
            return fail(fmt::format("{}: 'gas' is missing", item.key),
                        fmt::format("in the head, {}", text::one_of(text::names<text::Gas>())));
        if (*item.number("outlet") >= *item.number("lock-up"))
            return fail(fmt::format("{}: lock-up is not above the outlet pressure", item.key), "outlet < lock-up");
        if (*item.number("lock-up") >= *item.number("inlet-greatest"))
            return fail(fmt::format("{}: lock-up is not below the greatest inlet", item.key),
                        "lock-up < inlet-greatest");
    }
    if (item.part == Part::pressure_reducer && *item.number("outlet") >= *item.number("inlet-greatest"))
        return fail(fmt::format("{}: the outlet is not below the greatest inlet", item.key), "outlet < inlet-greatest");
    if (item.part == Part::mixing_valve && *item.number("flow-least") >= *item.number("flow-greatest"))
        return fail(fmt::format("{}: least flow is not below the greatest", item.key), "flow-least < flow-greatest");
    if (item.part == Part::expansion_vessel && *item.number("acceptance") > *item.number("volume"))
        return fail(fmt::format("{}: accepts more than it holds", item.key), "acceptance <= volume");
    const bool pumps = item.part == Part::pump || item.part == Part::condensate_pump;
    return pumps ? judge_pump(item) : Result<void>{};
}

Result<void> read_items(const text::Node& table, const SourceNames& names, Layer& into) {
    text::TableReader reader(table);
    Item head;
    reader.require_named("part", head.part);
    if (head.part == Part::heater || head.part == Part::pipe || head.part == Part::vent_pipe ||
        head.part == Part::connection)
        reader.fail_at("part", fmt::format("{} is no item", text::name(head.part)),
                       "heaters and pipes have sections of their own");
    std::string title;
    reader.require("title", title);
    const auto sources = take_sources(reader, names);
    const auto materials = take_names<Material>(reader, "materials");
    const auto services = take_names<Service>(reader, "services");
    reader.optional("drinking-water", head.drinking_water);
    reader.optional("gas-listed", head.gas_listed);
    text::Gas gas{};
    if (head.part == Part::regulator && reader.optional_named("gas", gas)) head.gas = gas;
    const auto numbers = numbers_of(head.part);
    auto rows = take_rows(reader, std::move(head), numbers);
    if (auto ok = reader.finish(); !ok) return ok;
    std::vector<std::optional<Material>> goes_with(materials.begin(), materials.end());
    if (goes_with.empty()) goes_with.push_back(std::nullopt);
    for (const auto& hand : rows) {
        if (auto ok = complete(hand, numbers); !ok) return ok;
        for (const auto& material : goes_with) {
            Item item = hand.row;
            item.material = material;
            item.size = hand.words.size;
            item.branch = hand.words.branch;
            if (item.part == Part::regulator) item.gas = gas_of(hand.row, hand.words);
            item.key = key_of(item, hand.words);
            item.title = title_of(title, hand.words);
            item.services = services;
            item.sources = sources;
            if (auto ok = judge(item); !ok) return fail(ok.error().what, ok.error().expected, hand.place);
            into.items.push_back({std::move(item), hand.place});
        }
    }
    return {};
}

}  // namespace bw::catalogue
