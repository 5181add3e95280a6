// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "text/toml.h"

namespace bw::text {

namespace {

template <class T>
bool within(T value, const Range& range) {
    const auto v = static_cast<double>(value);
    return v >= range.least && v <= range.greatest;
}

std::string bound(double si, units::Kind kind) { return units::print({si, kind}, units::System::us); }

std::string bounds(const Range& range, units::Kind kind) {
    if (range.least > -1e299 && range.greatest < 1e299)
        return fmt::format("{} to {}", bound(range.least, kind), bound(range.greatest, kind));
    return range.least > -1e299 ? fmt::format("at least {}", bound(range.least, kind))
                                : fmt::format("at most {}", bound(range.greatest, kind));
}

}  // namespace

TableReader::TableReader(Node table) : table_(std::move(table)) {
    if (!table_.is_table()) error_ = table_.error("not a table", "a table").value();
}

void TableReader::fail(Error error) {
    if (!error_) error_ = std::move(error);
}

void TableReader::fail_at(std::string_view key, std::string what, std::string expected) {
    if (error_) return;
    const auto node = table_.get(key);
    error_ = (node ? *node : table_).error(fmt::format("{}: {}", key, what), std::move(expected)).value();
}

std::optional<Node> TableReader::child(std::string_view key) {
    known_.emplace_back(key);
    if (error_) return std::nullopt;
    return table_.get(key);
}

std::optional<Node> TableReader::required_child(std::string_view key, std::string_view expected) {
    auto node = child(key);
    if (!error_ && !node) error_ = table_.error(fmt::format("missing key '{}'", key), std::string(expected)).value();
    return node;
}

/// Takes a value by `read`, names the key in its error, and judges the range.
template <class T, class Read>
bool TableReader::take(const std::optional<Node>& node, std::string_view key, T& out, const Range& range, Read read) {
    if (error_ || !node) return false;
    auto value = read(*node);
    if (!value) {
        error_ = std::move(value.error());
        error_->what = fmt::format("{}: {}", key, error_->what);
        return false;
    }
    if constexpr (std::is_same_v<T, units::Amount>) {
        if (!within(value->si, range)) {
            fail_at(key, fmt::format("{} is out of range", units::print(*value, units::System::us)),
                    bounds(range, value->kind));
            return false;
        }
    } else if constexpr (std::is_same_v<T, double> || std::is_same_v<T, std::int64_t>) {
        if (!within(*value, range)) {
            fail_at(key, fmt::format("{} is out of range", *value), bounds(range, units::Kind::number));
            return false;
        }
    }
    out = std::move(*value);
    return true;
}

namespace {

constexpr auto as_line = [](const Node& n) { return n.as_line(); };
constexpr auto as_integer = [](const Node& n) { return n.as_integer(); };
constexpr auto as_number = [](const Node& n) { return n.as_number(); };
constexpr auto as_flag = [](const Node& n) { return n.as_flag(); };
constexpr auto as_nominal = [](const Node& n) { return n.as_nominal(); };

}  // namespace

void TableReader::require(std::string_view key, std::string& out) {
    take(required_child(key, "a text"), key, out, {}, as_line);
}
void TableReader::require(std::string_view key, std::int64_t& out, Range range) {
    take(required_child(key, "a whole number"), key, out, range, as_integer);
}
void TableReader::require(std::string_view key, double& out, Range range) {
    take(required_child(key, "a number"), key, out, range, as_number);
}
void TableReader::require(std::string_view key, bool& out) {
    take(required_child(key, "true or false"), key, out, {}, as_flag);
}
void TableReader::require(std::string_view key, units::Nominal& out) {
    take(required_child(key, "a nominal size such as \"1-1/4\""), key, out, {}, as_nominal);
}
void TableReader::require(std::string_view key, units::Amount& out, units::Kind kind, Range range) {
    take(required_child(key, units::expected_of(kind)), key, out, range,
         [kind](const Node& n) { return n.as_amount(kind); });
}

bool TableReader::optional(std::string_view key, std::string& out) { return take(child(key), key, out, {}, as_line); }
bool TableReader::optional(std::string_view key, std::int64_t& out, Range range) {
    return take(child(key), key, out, range, as_integer);
}
bool TableReader::optional(std::string_view key, double& out, Range range) {
    return take(child(key), key, out, range, as_number);
}
bool TableReader::optional(std::string_view key, bool& out) { return take(child(key), key, out, {}, as_flag); }
bool TableReader::optional(std::string_view key, units::Nominal& out) {
    return take(child(key), key, out, {}, as_nominal);
}
bool TableReader::optional(std::string_view key, units::Amount& out, units::Kind kind, Range range) {
    return take(child(key), key, out, range, [kind](const Node& n) { return n.as_amount(kind); });
}

Result<void> TableReader::finish() {
    if (error_) return tl::unexpected(*error_);
    for (const auto& [key, node] : table_.entries()) {
        if (std::find(known_.begin(), known_.end(), key) != known_.end()) continue;
        const std::vector<std::string_view> known(known_.begin(), known_.end());
        const std::string near = nearest(key, known);
        return node.error(fmt::format("unknown key '{}'", key.substr(0, 60)),
                          near.empty() ? one_of(known) : fmt::format("'{}' perhaps", near));
    }
    return {};
}

}  // namespace bw::text
