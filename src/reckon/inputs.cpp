// SPDX-License-Identifier: MIT
#include "reckon/inputs.h"

#include <fmt/format.h>

#include <cassert>

#include "units/parse.h"

namespace bw::reckon {

namespace {

std::vector<std::string_view> names_of(const Topic& topic) {
    std::vector<std::string_view> list;
    for (const auto& name : topic.names) list.push_back(name.name);
    return list;
}

Result<Value> read_quantity(const Name& name, std::string_view text) {
    auto amount = units::parse(text, name.kind);
    // a share is asked for in per cent, so a bare number is per cent
    if (!amount && name.kind == units::Kind::percent) amount = units::parse(std::string(text) + " %", name.kind);
    if (!amount) return tl::unexpected(amount.error());
    if (name.positive && amount->si <= 0)
        return fail(fmt::format("{} is out of range", units::print(*amount, units::System::us)), "more than nothing");
    return *amount;
}

Result<Value> read_count(std::string_view text) {
    auto amount = units::parse(text, units::Kind::count);
    if (!amount) return tl::unexpected(amount.error());
    if (amount->si < 0 || amount->si > 1e6) return fail(fmt::format("'{}' is out of range", text), "0 to 1,000,000");
    return *amount;
}

Result<Value> read_size(std::string_view text) {
    return units::parse_nominal(text).map([](units::Nominal size) -> Value { return units::print(size); });
}

Result<Value> read_word(const Name& name, std::string_view text) {
    return text::index_of(text, {name.name, name.choices}).map([&](std::size_t i) -> Value {
        return std::string(name.choices[i]);
    });
}

Result<Value> read(const Name& name, std::string_view text) {
    switch (name.form) {
        case Form::quantity: return read_quantity(name, text);
        case Form::count: return read_count(text);
        case Form::size: return read_size(text);
        case Form::word: return read_word(name, text);
        case Form::text: return Value(std::string(text));
    }
    return fail("a form of input that is not known");
}

const std::string* find_given(const std::vector<std::pair<std::string, std::string>>& given, std::string_view name) {
    for (const auto& [key, value] : given) {
        if (key == name) return &value;
    }
    return nullptr;
}

Result<void> known_once(const Topic& topic, const std::vector<std::pair<std::string, std::string>>& given) {
    const auto known = names_of(topic);
    for (std::size_t i = 0; i < given.size(); ++i) {
        if (auto at = text::index_of(given[i].first, {"name", known}); !at)
            return fail(fmt::format("{}: {}", topic.name, at.error().what), at.error().expected);
        for (std::size_t j = 0; j < i; ++j) {
            if (given[j].first == given[i].first)
                return fail(fmt::format("{}: '{}' is given twice", topic.name, given[i].first), "one value");
        }
    }
    return {};
}

}  // namespace

const Named* Inputs::find(std::string_view name) const {
    for (const auto& entry : all_) {
        if (entry.name == name) return &entry;
    }
    return nullptr;
}

bool Inputs::has(std::string_view name) const { return find(name) != nullptr; }

Amount Inputs::amount(std::string_view name) const {
    assert(has(name));
    return std::get<Amount>(find(name)->value);
}

std::string Inputs::word(std::string_view name) const {
    assert(has(name));
    return std::get<std::string>(find(name)->value);
}

units::Nominal Inputs::size(std::string_view name) const { return units::parse_nominal(word(name)).value(); }

Result<Inputs> read_inputs(const Topic& topic, const std::vector<std::pair<std::string, std::string>>& given) {
    if (auto ok = known_once(topic, given); !ok) return tl::unexpected(ok.error());
    Inputs inputs;
    for (const auto& name : topic.names) {
        const std::string* text = find_given(given, name.name);
        if (text == nullptr && name.required)
            return fail(fmt::format("{}: '{}' is missing ({})", topic.name, name.name, name.says), choices_of(name));
        if (text == nullptr && name.fallback.empty()) continue;
        auto value = read(name, text != nullptr ? std::string_view(*text) : name.fallback);
        if (!value) return fail(fmt::format("{}: {}", name.name, value.error().what), value.error().expected);
        inputs.all_.push_back({std::string(name.name), std::move(*value),
                               fmt::format("{}{}", name.says, text == nullptr ? " (taken, not given)" : "")});
    }
    return inputs;
}

std::string choices_of(const Name& name) {
    switch (name.form) {
        case Form::quantity: return units::expected_of(name.kind);
        case Form::count: return "a whole number";
        case Form::size: return "a nominal size such as 1-1/4";
        case Form::word: return text::one_of(name.choices);
        case Form::text: return "an identifier";
    }
    return {};
}

}  // namespace bw::reckon
