// SPDX-License-Identifier: MIT
#include "catalogue/rows.h"

#include <fmt/format.h>

#include <charconv>
#include <cmath>

#include "units/number.h"
#include "text/utf8.h"

namespace bw::catalogue {

namespace {

constexpr std::array<std::string_view, 4> word_names{"key", "variant", "size", "branch"};

/// What stands under one heading: a word, or a number with its unit.
struct Column {
    int word = -1;           ///< index into word_names
    std::size_t number = 0;  ///< index into the numbers, when word is -1
    Scale scale;
};

void store(Pipe& row, const Number<Pipe>& number, double si) { number.set(row, si); }
void store(Item& row, const Number<Item>& number, double si) {
    if (number.set != nullptr)
        number.set(row, si);
    else
        row.data.insert_or_assign(std::string(number.name), si);
}

Result<void> set_word(Words& words, int which, std::string_view text) {
    if (which == 0) words.key = text;
    if (which == 1) words.variant = text;
    if (which < 2) return {};
    auto size = units::parse_nominal(text);
    if (!size) return tl::unexpected(size.error());
    (which == 2 ? words.size : words.branch) = *size;
    return {};
}

/// A whole cell as a number: a plain decimal, or as the trade writes it.
std::optional<double> number_in(std::string_view cell) {
    double plain = 0;
    const auto [end, error] = std::from_chars(cell.data(), cell.data() + cell.size(), plain);
    if (error == std::errc{} && end == cell.data() + cell.size() && std::isfinite(plain)) return plain;
    const auto value = units::take_number(cell);
    return cell.empty() ? value : std::nullopt;
}

std::string bounds(const text::Range& range, Kind kind) {
    return fmt::format("{} to {}", units::print({range.least, kind}, units::System::us),
                       units::print({range.greatest, kind}, units::System::us));
}

template <class Row>
class RowsReader {
public:
    RowsReader(text::TableReader& reader, const std::vector<Number<Row>>& numbers)
        : reader_(reader), numbers_(numbers) {}

    std::vector<RowInHand<Row>> read(Row head) {
        head_.row = std::move(head);
        head_.place = reader_.table().place();
        take_head();
        const auto node = reader_.child("table");
        if (!reader_.ok()) return {};
        if (!node) return {std::move(head_)};
        auto text = node->as_string();
        if (!text) {
            reader_.fail_at("table", text.error().what, "rows between ''' and '''");
            return {};
        }
        auto rows = read_table(*text, node->place());
        if (!rows) {
            reader_.fail(std::move(rows.error()));
            return {};
        }
        return std::move(*rows);
    }

private:
    void take_head() {
        reader_.optional("key", head_.words.key);
        reader_.optional("variant", head_.words.variant);
        Nominal size;
        if (reader_.optional("size", size)) head_.words.size = size;
        if (reader_.optional("branch", size)) head_.words.branch = size;
        for (std::size_t i = 0; i < numbers_.size(); ++i) {
            const auto& n = numbers_[i];
            if (n.per_length) {
                if (reader_.child(n.name)) reader_.fail_at(n.name, "is by length", "a column of the table");
                continue;
            }
            units::Amount amount;
            if (!reader_.optional(n.name, amount, n.kind, n.range)) continue;
            store(head_.row, n, amount.si);
            head_.given.set(i);
        }
    }

    Result<std::vector<RowInHand<Row>>> read_table(std::string_view text, const Place& at) {
        auto table = split_table(text, at);
        if (!table) return tl::unexpected(table.error());
        file_ = at.file;
        std::vector<Column> columns;
        for (const Cell& heading : table->heading) {
            auto column = column_of(heading);
            if (!column) return tl::unexpected(column.error());
            for (const auto& before : columns)
                if (before.word == column->word && before.number == column->number)
                    return fail(fmt::format("two columns '{}'", heading.text), "each once", at_cell(heading));
            columns.push_back(*column);
        }
        std::vector<RowInHand<Row>> rows;
        rows.reserve(table->rows.size());
        for (const auto& cells : table->rows) {
            rows.push_back(head_);
            rows.back().place = at_cell(cells.front());
            for (std::size_t i = 0; i < cells.size(); ++i)
                if (auto ok = take_cell(rows.back(), columns[i], cells[i]); !ok) return tl::unexpected(ok.error());
        }
        return rows;
    }

    Result<Column> column_of(const Cell& heading) const {
        const auto name = heading.text.substr(0, heading.text.find('/'));
        const bool has_unit = name.size() < heading.text.size();
        for (std::size_t i = 0; i < word_names.size(); ++i)
            if (!has_unit && name == word_names[i]) {
                if (head_says(static_cast<int>(i))) return said_twice(heading, name);
                return Column{static_cast<int>(i), 0, {}};
            }
        for (std::size_t i = 0; i < numbers_.size(); ++i) {
            if (numbers_[i].name != name) continue;
            if (head_.given.test(i)) return said_twice(heading, name);
            const auto unit = has_unit ? heading.text.substr(name.size() + 1) : std::string_view{};
            auto scale = scale_of(numbers_[i].kind, unit, numbers_[i].per_length);
            if (!scale)
                return fail(fmt::format("the heading '{}' lacks a unit of its kind", heading.text),
                            fmt::format("{}/unit, {}", name, scale.error().expected), at_cell(heading));
            return Column{-1, i, *scale};
        }
        return unknown(heading, name);
    }

    bool head_says(int word) const {
        const Words& w = head_.words;
        return word == 0   ? !w.key.empty()
               : word == 1 ? !w.variant.empty()
               : word == 2 ? w.size.has_value()
                           : w.branch.has_value();
    }
    tl::unexpected<Error> said_twice(const Cell& heading, std::string_view name) const {
        return fail(fmt::format("'{}' stands in the head and in the table", name), "one of the two", at_cell(heading));
    }
    tl::unexpected<Error> unknown(const Cell& heading, std::string_view name) const {
        std::vector<std::string_view> names(word_names.begin(), word_names.end());
        for (const auto& n : numbers_) names.push_back(n.name);
        const auto near = text::nearest(name, names);
        return fail(fmt::format("unknown column '{}'", name),
                    near.empty() ? fmt::format("one of {}", fmt::join(names, " ")) : fmt::format("'{}'?", near),
                    at_cell(heading));
    }

    Result<void> take_cell(RowInHand<Row>& hand, const Column& column, const Cell& cell) const {
        if (cell.text == "-") return {};
        if (auto fine = text::judge_line(cell.text, at_cell(cell)); !fine) return fine;
        if (column.word >= 0) {
            auto ok = set_word(hand.words, column.word, cell.text);
            if (!ok)
                return fail(fmt::format("{}: {}", word_names[static_cast<std::size_t>(column.word)], ok.error().what),
                            ok.error().expected, at_cell(cell));
            return {};
        }
        const auto& n = numbers_[column.number];
        const auto value = number_in(cell.text);
        if (!value)
            return fail(fmt::format("{}: '{}' is not a number", n.name, cell.text), "a number such as 1.25 or 1-1/4",
                        at_cell(cell));
        const double si = *value * column.scale.factor + column.scale.offset;
        if (si < n.range.least || si > n.range.greatest)
            return fail(fmt::format("{}: {} is out of range", n.name, cell.text), bounds(n.range, n.kind),
                        at_cell(cell));
        store(hand.row, n, si);
        hand.given.set(column.number);
        return {};
    }

    Place at_cell(const Cell& cell) const { return {file_, cell.line, cell.column}; }

    text::TableReader& reader_;
    const std::vector<Number<Row>>& numbers_;
    RowInHand<Row> head_;
    std::string file_;
};

}  // namespace

template <class Row>
std::vector<RowInHand<Row>> take_rows(text::TableReader& reader, Row head, const std::vector<Number<Row>>& numbers) {
    return RowsReader<Row>(reader, numbers).read(std::move(head));
}

template std::vector<RowInHand<Pipe>> take_rows(text::TableReader&, Pipe, const std::vector<Number<Pipe>>&);
template std::vector<RowInHand<Item>> take_rows(text::TableReader&, Item, const std::vector<Number<Item>>&);

}  // namespace bw::catalogue
