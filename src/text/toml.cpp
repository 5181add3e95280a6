// SPDX-License-Identifier: MIT
#include "text/toml.h"

#include <fmt/format.h>

namespace bw::text {
/// A promise the parser breaks to itself: it asserts on input such as `[[#`, where it ought to refuse.
struct ParserFault {};
constexpr void parser_promise(bool holds) {
    if (!holds) throw ParserFault{};
}
}  // namespace bw::text

#undef NDEBUG  // else the parser takes its assertions for granted and runs on
#define TOML_ASSERT(holds) ::bw::text::parser_promise(static_cast<bool>(holds))
#define TOML_EXCEPTIONS 0
#define TOML_HEADER_ONLY 1
#define TOML_UNRELEASED_FEATURES 0
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wconversion"
#pragma GCC diagnostic ignored "-Wshadow"
#pragma GCC diagnostic ignored "-Wold-style-cast"
#include <toml++/toml.h>
#pragma GCC diagnostic pop

#include <algorithm>
#include <cmath>

#include "text/trouble.h"
#include "text/utf8.h"

namespace bw::text {

struct Document::Data {
    std::string file;
    toml::table root;
};

namespace {

const toml::node& seen(const void* node) { return *static_cast<const toml::node*>(node); }

Place place_of(const std::string& file, const toml::source_position& at) {
    return {file, static_cast<int>(at.line), static_cast<int>(at.column)};
}

std::string_view kind_of(const toml::node& node) {
    switch (node.type()) {
        case toml::node_type::table: return "a table";
        case toml::node_type::array: return "an array";
        case toml::node_type::string: return "a text";
        case toml::node_type::integer:
        case toml::node_type::floating_point: return "a number";
        case toml::node_type::boolean: return "true or false";
        default: return "a date or time";
    }
}

/// The node that first goes past the deepest nesting, if any. Dotted headers nest without brackets.
const toml::node* too_deep(const toml::node& node, int depth) {
    if (depth > deepest) return &node;
    const toml::node* found = nullptr;
    const auto look = [&](const toml::node& child) {
        if (found == nullptr) found = too_deep(child, depth + 1);
    };
    if (const auto* table = node.as_table()) {
        for (const auto& [key, child] : *table) look(child);
    } else if (const auto* array = node.as_array()) {
        for (const auto& child : *array) look(child);
    }
    return found;
}

/// Line where the parser breaks down: the fewest lines of the text on which it does.
int fault_line(std::string_view text) {
    std::vector<std::size_t> ends;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text[i] == '\n') ends.push_back(i + 1);
    }
    ends.push_back(text.size());
    const auto sound = [&](std::size_t end) {
        try {
            (void)toml::parse(text.substr(0, end));
            return true;
        } catch (const ParserFault&) {
            return false;
        }
    };
    return static_cast<int>(std::partition_point(ends.begin(), ends.end(), sound) - ends.begin()) + 1;
}

/// A parser's message on one line.
std::string plain(std::string_view text) {
    std::string out;
    for (const char c : text) out += static_cast<unsigned char>(c) < 0x20 ? ' ' : c;
    return out;
}

Result<toml::table> parse_table(std::string_view text, const std::string& file) {
    try {
        auto parsed = toml::parse(text, std::string_view(file));
        if (parsed) return std::move(parsed).table();
        const auto& error = parsed.error();
        return fail("not TOML: " + plain(error.description()), "TOML", place_of(file, error.source().begin));
    } catch (const ParserFault&) {
        return fail("not TOML: this line cannot be read", "TOML", {file, fault_line(text), 1});
    }
}

}  // namespace

Result<Document> Document::parse(std::string text, std::string file_name) {
    const auto at_byte = [&](std::size_t byte) {
        const auto [line, column] = line_column(text, byte);
        return Place{file_name, line, column};
    };
    if (text.size() > largest_file)
        return fail("the file is too large", fmt::format("at most {} MiB", largest_file >> 20), {file_name});
    if (const auto bad = first_bad_byte(text)) return fail("not UTF-8", "UTF-8 text", at_byte(*bad));
    if (const auto trouble = first_trouble(text)) return fail(trouble->what, trouble->expected, at_byte(trouble->at));
    auto root = parse_table(text, file_name);
    if (!root) return tl::unexpected(root.error());
    auto data = std::make_shared<Data>();
    data->file = std::move(file_name);
    data->root = std::move(*root);
    if (const auto* deep = too_deep(data->root, 0)) {
        auto trouble = nested_too_deeply(0);
        return fail(trouble.what, trouble.expected, place_of(data->file, deep->source().begin));
    }
    Document document;
    document.data_ = std::move(data);
    return document;
}

Result<Document> Document::read(const std::string& path) {
    return read_file(path).and_then([&](std::string text) { return parse(std::move(text), path); });
}

Node Document::root() const {
    Node node;
    node.document_ = data_;
    node.node_ = static_cast<const toml::node*>(&data_->root);
    return node;
}

const std::string& Document::file() const { return data_->file; }

Place Node::place() const { return place_of(document_->file, seen(node_).source().begin); }
bool Node::is_table() const { return seen(node_).is_table(); }
bool Node::is_array() const { return seen(node_).is_array(); }
bool Node::is_string() const { return seen(node_).is_string(); }

std::optional<Node> Node::get(std::string_view key) const {
    const auto* table = seen(node_).as_table();
    const toml::node* child = table == nullptr ? nullptr : table->get(key);
    if (child == nullptr) return std::nullopt;
    Node node = *this;
    node.node_ = child;
    return node;
}

std::vector<std::pair<std::string, Node>> Node::entries() const {
    struct Entry {
        toml::source_position at;
        std::string key;
        const toml::node* node;
    };
    std::vector<Entry> found;
    if (const auto* table = seen(node_).as_table()) {
        for (const auto& [key, child] : *table) found.push_back({key.source().begin, std::string(key.str()), &child});
    }
    std::sort(found.begin(), found.end(), [](const Entry& a, const Entry& b) {
        return a.at.line != b.at.line       ? a.at.line < b.at.line
               : a.at.column != b.at.column ? a.at.column < b.at.column
                                            : a.key < b.key;
    });
    std::vector<std::pair<std::string, Node>> out;
    for (auto& entry : found) {
        Node node = *this;
        node.node_ = entry.node;
        out.emplace_back(std::move(entry.key), std::move(node));
    }
    return out;
}

std::vector<Node> Node::items() const {
    std::vector<Node> out;
    if (const auto* array = seen(node_).as_array()) {
        for (const auto& child : *array) {
            Node node = *this;
            node.node_ = &child;
            out.push_back(std::move(node));
        }
    }
    return out;
}

tl::unexpected<Error> Node::error(std::string what, std::string expected) const {
    return fail(std::move(what), std::move(expected), place());
}

Result<std::string> Node::as_string() const {
    if (const auto value = seen(node_).value_exact<std::string>()) return *value;
    return error(fmt::format("is {}", kind_of(seen(node_))), "a text in quotes");
}

Result<std::string> Node::as_line() const {
    auto text = as_string();
    if (!text) return text;
    if (auto fine = judge_line(*text, place()); !fine) return tl::unexpected(fine.error());
    return text;
}

Result<std::int64_t> Node::as_integer() const {
    if (const auto value = seen(node_).value_exact<std::int64_t>()) return *value;
    return error(fmt::format("is {}", kind_of(seen(node_))), "a whole number");
}

Result<double> Node::as_number() const {
    const auto& node = seen(node_);
    if (!node.is_number()) return error(fmt::format("is {}", kind_of(node)), "a number");
    const auto value = node.value<double>();
    if (!value || !std::isfinite(*value)) return error("is not finite", "a finite number");
    return *value;
}

Result<bool> Node::as_flag() const {
    if (const auto value = seen(node_).value_exact<bool>()) return *value;
    return error(fmt::format("is {}", kind_of(seen(node_))), "true or false");
}

Result<units::Amount> Node::as_amount(units::Kind kind) const {
    std::string written;
    if (seen(node_).is_number()) {
        auto number = as_number();
        if (!number) return tl::unexpected(number.error());
        written = fmt::format("{}", *number);
    } else {
        auto text = as_string();
        if (!text) return error(text.error().what, fmt::format("a text: {}", units::expected_of(kind)));
        written = std::move(*text);
    }
    auto amount = units::parse(written, kind);
    if (!amount) return error(amount.error().what, amount.error().expected);
    return *amount;
}

Result<units::Nominal> Node::as_nominal() const {
    auto text = as_string();
    if (!text) return error(text.error().what, "a nominal size in quotes such as \"1-1/4\"");
    auto size = units::parse_nominal(*text);
    if (!size) return error(size.error().what, size.error().expected);
    return *size;
}

}  // namespace bw::text
