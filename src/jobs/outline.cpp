// SPDX-License-Identifier: MIT
#include "jobs/outline.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdint>
#include <deque>
#include <map>

namespace bw::jobs {
namespace {

using text::Node;

bool bare(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' || c == '_';
}

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

/// The bytes where lines and columns begin, as the parser counts them: in letters of UTF-8, from 1.
class Letters {
public:
    explicit Letters(std::string_view text) {
        lines_.push_back(0);
        for (std::size_t at = text.starts_with(byte_order_mark) ? byte_order_mark.size() : 0; at < text.size(); ++at) {
            if ((static_cast<unsigned char>(text[at]) & 0xC0) != 0x80) letters_.push_back(static_cast<Byte>(at));
            if (text[at] == '\n') lines_.push_back(static_cast<Byte>(letters_.size()));
        }
        letters_.push_back(static_cast<Byte>(text.size()));
    }
    /// The text's end where there is no such line or column.
    [[nodiscard]] std::size_t byte(const Place& place) const {
        const auto line = static_cast<std::size_t>(std::max(place.line, 1) - 1);
        const auto column = static_cast<std::size_t>(std::max(place.column, 1) - 1);
        const std::size_t letter = line < lines_.size() ? lines_[line] + column : letters_.size();
        return letters_[std::min(letter, letters_.size() - 1)];
    }

private:
    using Byte = std::uint32_t;
    std::vector<Byte> letters_, lines_;  ///< bytes of letters; letters that lines begin with
};

std::size_t line_begin(std::string_view text, std::size_t at) {
    return at == 0 ? 0 : text.rfind('\n', at - 1) + 1;  // npos + 1 is the text's start
}
std::size_t past_line(std::string_view text, std::size_t at) {
    const auto end = text.find('\n', at);
    return end == std::string_view::npos ? text.size() : end + 1;
}
std::size_t past_any(std::string_view text, std::size_t at, std::string_view of) {
    return std::min(text.find_first_not_of(of, at), text.size());
}

/// A step on the way from the root; what it points to outlives it.
struct Crumb {
    const Crumb* up = nullptr;
    Step step;
    std::size_t depth = 1;
};

/// The last `count` steps.
Path last_steps(const Crumb* crumb, std::size_t count) {
    Path path(count);
    for (; count > 0; crumb = crumb->up) path[--count] = crumb->step;
    return path;
}

/// Goes over a document once, and notes by their bytes the headers and the values that stand on lines of their own.
class Walk {
public:
    Walk(const text::Document& document, std::string_view text) : text_(text), letters_(text) {
        table(document.root(), nullptr);
    }

    Outline drawn() {
        Outline out;
        const auto begin = text_.starts_with(byte_order_mark) ? byte_order_mark.size() : 0;
        out.sections.emplace_back();
        out.sections.back().header = {begin, begin}, out.sections.back().end = begin;
        auto header = headers_.begin();
        const auto begin_sections = [&](std::size_t until) {
            for (; header != headers_.end() && header->first < until; ++header)
                begin_section(out, header->first, header->second);
        };
        for (const auto& [at, written] : values_) {
            begin_sections(at);
            add_line(out.sections.back(), at, written);
        }
        begin_sections(text_.size());
        out.sections.back().limit = text_.size();
        for (auto& section : out.sections) section.past = past_comments(section);
        out.sections.front().past = out.sections.front().end;
        return out;
    }

private:
    struct Header {
        const Crumb* crumb = nullptr;
        bool list = false;
    };
    struct Statement {
        Node node;
        const Crumb* crumb = nullptr;
    };

    std::size_t begin(const Node& node) const { return letters_.byte(node.place()); }
    const Crumb* down(const Crumb* up, Step step) {
        return &crumbs_.emplace_back(Crumb{up, std::move(step), up == nullptr ? 1 : up->depth + 1});
    }
    static bool spread(const Node& node) { return node.is_table() && !node.is_inline(); }

    void table(const Node& node, const Crumb* here) {
        for (auto& [key, child] : node.entries()) under(child, down(here, std::move(key)));
    }
    void under(const Node& child, const Crumb* here) {
        const auto items = child.items();
        if (!items.empty() && spread(items.front())) {
            std::size_t number = 0;
            for (const auto& item : items) headed(item, down(here, number++), true);
        } else if (spread(child)) {
            headed(child, here, false);
        } else {
            values_[begin(child)] = {child, here};
        }
    }
    /// Tables on the way to a header are said to begin where it does; the innermost is the header's own.
    void headed(const Node& node, const Crumb* here, bool list) {
        if (const auto at = begin(node); at < text_.size() && text_[at] == '[') headers_[at] = {here, list};
        table(node, here);
    }

    void begin_section(Outline& out, std::size_t at, const Header& header) const {
        const auto begin = line_begin(text_, at);
        out.sections.back().limit = begin;
        Section& section = out.sections.emplace_back();
        section.path = last_steps(header.crumb, header.crumb->depth);
        section.list = header.list;
        section.header = {begin, past_line(text_, at)};
        section.end = section.header.to;
    }
    void add_line(Section& section, std::size_t at, const Statement& statement) const {
        Line line;
        const auto from = std::max(line_begin(text_, at), section.header.to);
        line.pair.value = value(statement.node);
        for (auto& step : last_steps(statement.crumb, statement.crumb->depth - section.path.size()))
            line.pair.key.push_back(std::get<std::string>(std::move(step)));
        line.pair.span = {past_any(text_, from, " \t"), line.pair.value.span.to};
        line.whole = {from, past_line(text_, line.pair.value.span.to)};
        section.end = line.whole.to;
        section.lines.push_back(std::move(line));
    }

    Value value(const Node& node) const {
        Value out;
        out.span = {begin(node), letters_.byte(node.end())};
        if (node.is_array()) {
            out.kind = Written::list;
            for (const auto& item : node.items()) out.items.push_back(value(item));
        } else if (node.is_table()) {
            out.kind = Written::table;
            std::vector<std::string> key;
            pairs(node, key, out.pairs);
            std::sort(out.pairs.begin(), out.pairs.end(),
                      [](const Pair& a, const Pair& b) { return a.value.span.from < b.value.span.from; });
            auto past = out.span.from + 1;
            for (auto& pair : out.pairs) {
                pair.span = {past_any(text_, past, " \t,"), pair.value.span.to};
                past = pair.span.to;
            }
        }
        return out;
    }
    /// Of a table in braces, dotted keys joined.
    void pairs(const Node& node, std::vector<std::string>& key, std::vector<Pair>& out) const {
        for (const auto& [name, child] : node.entries()) {
            key.push_back(name);
            if (spread(child))
                pairs(child, key, out);
            else
                out.push_back({key, {}, value(child)});
            key.pop_back();
        }
    }

    /// Past the lines behind a section that are not empty.
    std::size_t past_comments(const Section& section) const {
        auto at = section.end;
        while (at < section.limit) {
            const auto end = std::min(text_.find('\n', at), section.limit - 1);
            if (text_.substr(at, end - at).find_first_not_of(" \t\r") == std::string_view::npos) break;
            at = end + 1;
        }
        return at;
    }

    std::string_view text_;
    Letters letters_;
    std::deque<Crumb> crumbs_;
    std::map<std::size_t, Header> headers_;
    std::map<std::size_t, Statement> values_;
};

/// Whether the steps of `path` from `done` on begin with a key, or where they end before it, lead along it.
bool goes_along(const Path& path, std::size_t done, const std::vector<std::string>& key) {
    for (std::size_t i = 0; i < std::min(key.size(), path.size() - done); ++i) {
        const auto* name = std::get_if<std::string>(&path[done + i]);
        if (name == nullptr || *name != key[i]) return false;
    }
    return true;
}
bool goes_by(const Path& path, std::size_t done, const std::vector<std::string>& key) {
    return path.size() >= done + key.size() && goes_along(path, done, key);
}

/// Goes down from a value by the steps of `path` from `done` on.
std::optional<Found> descend(Found at, const Path& path, std::size_t done) {
    if (done == path.size()) return at;
    if (const auto* number = std::get_if<std::size_t>(&path[done])) {
        if (at.value->kind != Written::list || *number >= at.value->items.size()) return std::nullopt;
        at.holder = at.value, at.pair = nullptr, at.value = &at.value->items[*number];
        return descend(at, path, done + 1);
    }
    for (const auto& pair : at.value->pairs) {
        if (!goes_by(path, done, pair.key)) continue;
        Found inner = at;
        inner.holder = at.value, inner.pair = &pair, inner.value = &pair.value;
        if (auto found = descend(inner, path, done + pair.key.size())) return found;
    }
    return std::nullopt;
}

bool holds(const Span& span, std::size_t at) { return span.from <= at && at < span.to; }

void deepest_at(const Value& value, std::size_t at, Path& path) {
    for (std::size_t i = 0; i < value.items.size(); ++i)
        if (holds(value.items[i].span, at)) {
            path.emplace_back(i);
            return deepest_at(value.items[i], at, path);
        }
    for (const auto& pair : value.pairs)
        if (holds(pair.span, at)) {
            path.insert(path.end(), pair.key.begin(), pair.key.end());
            return deepest_at(pair.value, at, path);
        }
}

}  // namespace

bool starts_with(const Path& path, const Path& front) {
    return path.size() >= front.size() && std::equal(front.begin(), front.end(), path.begin());
}

std::string written(const Path& path) {
    std::string out;
    for (const auto& step : path) {
        if (!out.empty()) out += '.';
        if (const auto* key = std::get_if<std::string>(&step))
            out += *key;
        else
            out += std::to_string(std::get<std::size_t>(step));
    }
    return out;
}

std::string written_key(std::string_view key) {
    if (!key.empty() && std::all_of(key.begin(), key.end(), bare)) return std::string(key);
    std::string out = "\"";
    for (const char c : key) {
        const auto byte = static_cast<unsigned char>(c);
        if (c == '"' || c == '\\')
            out += {'\\', c};
        else if (byte < 0x20 || byte == 0x7F)
            out += fmt::format("\\u{:04X}", byte);
        else
            out += c;
    }
    return out + '"';
}

bool lies_under(const Section& section, const Line& line, const Path& path) {
    if (path.size() <= section.path.size()) return starts_with(section.path, path);
    const auto& key = line.pair.key;
    return path.size() - section.path.size() <= key.size() && starts_with(path, section.path) &&
           goes_along(path, section.path.size(), key);
}

Outline outline(const text::Document& document, std::string_view text) { return Walk(document, text).drawn(); }

std::optional<std::size_t> past_value(std::string_view line, const Path& key) {
    if (line.ends_with('\r')) line.remove_suffix(1);
    const auto document = text::Document::parse(std::string(line), {});
    if (!document) return std::nullopt;
    std::optional<Node> node = document->root();
    for (const auto& step : key) {
        const auto* name = std::get_if<std::string>(&step);
        if (name == nullptr || !(node = node->get(*name))) return std::nullopt;
    }
    if (node->is_table() && !node->is_inline()) return std::nullopt;
    return Letters(line).byte(node->end());
}

std::optional<Found> find(const Outline& outline, const Path& path) {
    for (const auto& section : outline.sections) {
        if (!starts_with(path, section.path)) continue;
        for (const auto& line : section.lines) {
            const auto& key = line.pair.key;
            if (!goes_by(path, section.path.size(), key)) continue;
            if (auto found = descend({&section, &line, &line.pair.value}, path, section.path.size() + key.size()))
                return found;
        }
    }
    return std::nullopt;
}

Path path_at(const std::string& text, const Place& place) {
    const auto document = text::Document::parse(text, {});
    if (!document || place.line < 1) return {};
    const auto at = Letters(text).byte(place);
    const auto all = outline(*document, text);
    for (const auto& section : all.sections) {
        if (holds(section.header, at)) return section.path;
        for (const auto& line : section.lines)
            if (holds(line.whole, at)) {
                Path path = section.path;
                path.insert(path.end(), line.pair.key.begin(), line.pair.key.end());
                deepest_at(line.pair.value, at, path);
                return path;
            }
    }
    return {};
}

}  // namespace bw::jobs
