// SPDX-License-Identifier: MIT
#include "survey/section.h"

#include <fmt/format.h>

#include "survey/geometry.h"
#include "units/parse.h"

namespace bw::survey {
namespace {

constexpr text::Range coordinates{-10000 * 0.3048, 10000 * 0.3048};

Result<std::vector<double>> read_lengths(const text::Node& node, std::size_t count, std::string_view shape) {
    const auto items = node.items();
    if (!node.is_array() || items.size() != count)
        return node.error(node.is_array() ? fmt::format("has {} values", items.size()) : "is not a list",
                          std::string(shape));
    std::vector<double> out;
    for (const auto& item : items) {
        const auto amount = item.as_amount(units::Kind::length);
        if (!amount) return tl::unexpected(amount.error());
        if (amount->si < coordinates.least || amount->si > coordinates.greatest)
            return item.error(fmt::format("{} is out of range", units::print(*amount, units::System::us)),
                              "-10000 ft to 10000 ft");
        out.push_back(snapped(amount->si));
    }
    return out;
}

}  // namespace

Result<shape::Vec> read_place(const text::Node& node) {
    return read_lengths(node, 3, "three lengths, [x, y, height]: [\"12 ft\", \"0 ft\", \"6 ft 6 in\"]")
        .map([](const auto& v) {
            return shape::Vec{v[0], v[1], v[2]};
        });
}

Result<shape::Point> read_corner(const text::Node& node) {
    return read_lengths(node, 2, "two lengths, [x, y]: [\"12 ft\", \"8 ft 6 in\"]").map([](const auto& v) {
        return shape::Point{v[0], v[1]};
    });
}

Table::Table(std::string path, std::optional<text::Node> node, std::vector<Assumption>& assumed, std::string label)
    : path_(std::move(path)), label_(label.empty() ? path_ : std::move(label)), assumed_(&assumed) {
    if (node) reader_.emplace(*node);
}

const Field& Table::spec_of(std::string_view key) const { return field(fmt::format("{}.{}", path_, key)); }

bool Table::present(std::string_view key, const Field& spec) {
    if (!ok() || !reader_) return false;
    if (reader_->table().get(key)) return true;
    (void)reader_->child(key);  // makes the key known
    if (spec.required) reader_->fail(missing(key, spec));
    return false;
}

/// A required key that is absent; where one much like it stands there, that one is refused instead.
Error Table::missing(std::string_view key, const Field& spec) const {
    for (const auto& [written, node] : reader_->table().entries()) {
        const auto path = fmt::format("{}.{}", path_, written);
        const auto all = fields();
        const bool known = std::any_of(all.begin(), all.end(), [&](const Field& f) { return f.path == path; });
        if (!known && !text::nearest(written, std::span(&key, 1)).empty())
            return node.error(fmt::format("unknown key '{}'", written.substr(0, 60)), fmt::format("'{}' perhaps", key))
                .value();
    }
    return reader_->table().error(fmt::format("missing key '{}'", key), std::string(spec.says)).value();
}

bool Table::take(std::string_view key, std::string& out) {
    const auto& spec = spec_of(key);
    if (spec.form == Form::word) {
        const auto found = word(key);
        if (found) out = *found;
        return found.has_value();
    }
    if (!present(key, spec)) return false;
    std::string read;
    if (!reader_->optional(key, read)) return false;
    if (spec.required && read.find_first_not_of(" \t\r\n") == std::string::npos)
        refuse(key, "is empty", std::string(spec.says));
    if (read.size() > 400) refuse(key, fmt::format("is {} bytes long", read.size()), "at most 400");
    if (!ok()) return false;
    out = std::move(read);
    return true;
}

bool Table::take(std::string_view key, bool& out) { return present(key, spec_of(key)) && reader_->optional(key, out); }

bool Table::take(std::string_view key, int& out) {
    const auto& spec = spec_of(key);
    std::int64_t read = 0;
    if (!present(key, spec) || !reader_->optional(key, read, range(spec))) return false;
    out = static_cast<int>(read);
    return true;
}

bool Table::take(std::string_view key, double& out) {
    const auto& spec = spec_of(key);
    if (spec.form == Form::quantity) {
        const auto amount = quantity(key);
        if (amount) out = *amount;
        return amount.has_value();
    }
    return present(key, spec) && reader_->optional(key, out, range(spec));
}

bool Table::take(std::string_view key, Nominal& out) {
    return present(key, spec_of(key)) && reader_->optional(key, out);
}

bool Table::take(std::string_view key, shape::Vec& out) {
    if (!present(key, spec_of(key))) return false;
    const auto node = child(key);
    const auto read = read_place(*node);
    if (!read) {
        auto error = read.error();
        error.what = fmt::format("{}: {}", key, error.what);
        fail(std::move(error));
        return false;
    }
    out = *read;
    return true;
}

std::optional<double> Table::quantity(std::string_view key) {
    const auto& spec = spec_of(key);
    units::Amount read;
    if (!present(key, spec) || !reader_->optional(key, read, spec.kind, range(spec))) return std::nullopt;
    return spec.kind == units::Kind::length ? snapped(read.si) : read.si;
}

std::optional<std::string> Table::word(std::string_view key) {
    const auto& spec = spec_of(key);
    std::string read;
    if (!present(key, spec) || !reader_->optional(key, read)) return std::nullopt;
    if (std::find(spec.words.begin(), spec.words.end(), read) != spec.words.end()) return read;
    const auto near = text::nearest(read, spec.words);
    auto expected = near.empty() ? listed(spec.words) : fmt::format("{} ('{}' perhaps)", listed(spec.words), near);
    refuse(key, fmt::format("'{}' is not a choice here", read.substr(0, 60)), std::move(expected));
    return std::nullopt;
}

double Table::written_value(const Field& spec, std::string_view written) {
    const auto amount = units::parse(written, spec.form == Form::quantity ? spec.kind : units::Kind::number);
    assert(amount);
    return amount->si;
}

void Table::note(std::string_view key, const Fallback& otherwise) {
    if (ok())
        assumed_->push_back({fmt::format("{}.{}", label_, key), otherwise.written, otherwise.why, otherwise.safety});
}

std::optional<text::Node> Table::child(std::string_view key) {
    return reader_ && ok() ? reader_->child(key) : std::nullopt;
}

std::vector<text::Node> Table::list(std::string_view key, bool* present) {
    const auto node = child(key);
    if (present != nullptr) *present = node.has_value();
    if (!node) return {};
    if (!node->is_array()) {
        refuse(key, "is not a list of tables", fmt::format("[[{}.{}]]", path_, key));
        return {};
    }
    auto items = node->items();
    if (items.size() > 1000) refuse(key, fmt::format("has {} entries", items.size()), "at most 1000");
    return items;
}

void Table::refuse(std::string_view key, std::string what, std::string expected) {
    if (reader_) reader_->fail_at(key, std::move(what), std::move(expected));
}

void Table::fail(Error error) {
    if (!ok()) return;
    if (reader_)
        reader_->fail(std::move(error));
    else
        error_ = std::move(error);
}

Result<void> Table::finish() {
    if (error_) return tl::unexpected(*error_);
    return reader_ ? reader_->finish() : Result<void>{};
}

}  // namespace bw::survey
