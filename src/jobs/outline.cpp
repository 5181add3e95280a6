// SPDX-License-Identifier: MIT
#include "jobs/outline.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace bw::jobs {
namespace {

bool bare(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' || c == '_';
}

void append_utf8(std::string& out, unsigned code) {
    const auto put = [&](unsigned byte) { out += static_cast<char>(byte); };
    if (code < 0x80) return put(code);
    if (code < 0x800) return put(0xC0 | code >> 6), put(0x80 | (code & 0x3F));
    if (code < 0x10000) return put(0xE0 | code >> 12), put(0x80 | (code >> 6 & 0x3F)), put(0x80 | (code & 0x3F));
    put(0xF0 | code >> 18), put(0x80 | (code >> 12 & 0x3F)), put(0x80 | (code >> 6 & 0x3F)), put(0x80 | (code & 0x3F));
}

/// Reads forward over a text that is known to be TOML; never past its end.
class Reader {
public:
    explicit Reader(std::string_view text, std::size_t at = 0) : text_(text), at_(at) {}

    [[nodiscard]] bool done() const { return at_ >= text_.size(); }
    [[nodiscard]] char now() const { return done() ? '\0' : text_[at_]; }
    [[nodiscard]] std::size_t at() const { return at_; }
    void move(std::size_t by = 1) { at_ = std::min(at_ + by, text_.size()); }
    [[nodiscard]] bool sees(std::string_view what) const { return text_.substr(at_).starts_with(what); }

    void blanks() {
        while (now() == ' ' || now() == '\t') move();
    }
    void past_line() {
        const auto end = text_.find('\n', at_);
        at_ = end == std::string_view::npos ? text_.size() : end + 1;
    }
    /// Blanks, line ends and comments.
    void gap() {
        for (;;) {
            if (now() == '#')
                past_line();
            else if (!done() && std::string_view(" \t\r\n").find(now()) != std::string_view::npos)
                move();
            else
                return;
        }
    }

    std::vector<std::string> key() {
        std::vector<std::string> out;
        do {
            if (!out.empty()) move();
            blanks();
            out.push_back(part());
            blanks();
        } while (now() == '.');
        return out;
    }

    Value value() {
        Value out;
        out.span.from = at_;
        if (now() == '[')
            list(out);
        else if (now() == '{')
            table(out);
        else if (now() == '"' || now() == '\'')
            quoted();
        else
            plain();
        out.span.to = at_;
        return out;
    }

private:
    std::string part() {
        std::string out;
        if (now() == '\'') {
            const auto end = text_.find('\'', at_ + 1);
            out = text_.substr(at_ + 1, end - at_ - 1);
            at_ = std::min(end == std::string_view::npos ? end : end + 1, text_.size());
        } else if (now() == '"') {
            for (move(); !done() && now() != '"';) out += now() == '\\' ? escaped() : std::string(1, take());
            move();
        } else {
            while (!done() && bare(now())) out += take();
        }
        return out;
    }
    char take() {
        const char c = now();
        move();
        return c;
    }
    std::string escaped() {
        move();
        const char c = take();
        constexpr std::string_view from = "btnfr\"\\", to = "\b\t\n\f\r\"\\";
        if (const auto i = from.find(c); i != std::string_view::npos) return std::string(1, to[i]);
        unsigned code = 0;
        for (int left = c == 'u' ? 4 : 8; left > 0 && !done(); --left) {
            const char digit = take();
            code = code * 16 + static_cast<unsigned>(digit <= '9' ? digit - '0' : (digit | 0x20) - 'a' + 10);
        }
        std::string out;
        append_utf8(out, code);
        return out;
    }
    void quoted() {
        const std::string mark(sees("\"\"\"") || sees("'''") ? 3 : 1, now());
        const bool escapes = now() == '"';
        for (move(mark.size()); !done() && !sees(mark);) move(escapes && now() == '\\' ? 2 : 1);
        move(mark.size());
        while (mark.size() == 3 && now() == mark[0]) move();  // up to two more belong to the text
    }
    void plain() {
        while (!done() && std::string_view(",]}#\r\n").find(now()) == std::string_view::npos) move();
        while (at_ > 0 && (text_[at_ - 1] == ' ' || text_[at_ - 1] == '\t')) --at_;
    }
    template <class Each>
    void separated(char closing, const Each& each) {
        for (move(), gap(); !done() && now() != closing; gap()) {
            if (now() == ',')
                move();
            else
                each();
        }
        move();
    }
    void list(Value& out) {
        out.kind = Written::list;
        separated(']', [&] { out.items.push_back(value()); });
    }
    void table(Value& out) {
        out.kind = Written::table;
        separated('}', [&] { out.pairs.push_back(pair()); });
    }

public:
    Pair pair() {
        Pair out;
        out.span.from = at_;
        out.key = key();
        move();  // =
        blanks();
        out.value = value();
        out.span.to = at_;
        return out;
    }

private:
    std::string_view text_;
    std::size_t at_;
};

/// A header's path, with the number of the entry it is of wherever a list of tables is passed.
Path resolved(const std::vector<std::string>& key, bool list, std::map<std::string, std::size_t>& entries) {
    Path path;
    for (std::size_t i = 0; i < key.size(); ++i) {
        path.emplace_back(key[i]);
        const auto name = written(path);
        if (list && i + 1 == key.size())
            path.emplace_back(entries[name]++);
        else if (const auto known = entries.find(name); known != entries.end())
            path.emplace_back(known->second - 1);
    }
    return path;
}

/// Past the lines after `at` that are not empty.
std::size_t past_comments(std::string_view text, std::size_t at, std::size_t limit) {
    while (at < limit) {
        const auto end = std::min(text.find('\n', at), limit - 1);
        if (text.substr(at, end - at).find_first_not_of(" \t\r") == std::string_view::npos) break;
        at = end + 1;
    }
    return at;
}

Path full_path(const Section& section, const std::vector<std::string>& key) {
    Path path = section.path;
    path.insert(path.end(), key.begin(), key.end());
    return path;
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
        Path key(pair.key.begin(), pair.key.end());
        const Path rest(path.begin() + static_cast<std::ptrdiff_t>(done), path.end());
        if (!starts_with(rest, key)) continue;
        Found inner = at;
        inner.holder = at.value, inner.pair = &pair, inner.value = &pair.value;
        if (auto found = descend(inner, path, done + key.size())) return found;
    }
    return std::nullopt;
}

void deepest_at(const Value& value, std::size_t at, Path& path) {
    for (std::size_t i = 0; i < value.items.size(); ++i)
        if (value.items[i].span.from <= at && at < value.items[i].span.to) {
            path.emplace_back(i);
            return deepest_at(value.items[i], at, path);
        }
    for (const auto& pair : value.pairs)
        if (pair.span.from <= at && at < pair.span.to) {
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

Value read_value(std::string_view text, std::size_t at) { return Reader(text, at).value(); }

Outline outline(std::string_view text) {
    Outline out;
    std::map<std::string, std::size_t> entries;
    out.sections.emplace_back();
    Reader reader(text);
    for (reader.gap(); !reader.done(); reader.gap()) {
        const auto begin = text.rfind('\n', reader.at()) + 1;  // npos + 1 is the text's start
        if (reader.now() == '[') {
            const bool list = reader.sees("[[");
            reader.move(list ? 2 : 1);
            const auto key = reader.key();
            reader.past_line();
            out.sections.back().limit = begin;
            Section& section = out.sections.emplace_back();
            section.path = resolved(key, list, entries);
            section.list = list;
            section.header = {begin, reader.at()};
            section.end = reader.at();
        } else {
            Line line;
            const auto before = reader.at();
            line.pair = reader.pair();
            if (reader.at() == before) reader.move();  // no TOML: go on all the same
            reader.past_line();
            line.whole = {begin, reader.at()};
            out.sections.back().end = reader.at();
            out.sections.back().lines.push_back(std::move(line));
        }
    }
    out.sections.back().limit = text.size();
    for (auto& section : out.sections) section.past = past_comments(text, section.end, section.limit);
    out.sections.front().past = out.sections.front().end;
    return out;
}

std::optional<Found> find(const Outline& outline, const Path& path) {
    for (const auto& section : outline.sections) {
        if (!starts_with(path, section.path)) continue;
        for (const auto& line : section.lines) {
            const auto full = full_path(section, line.pair.key);
            if (!starts_with(path, full)) continue;
            if (auto found = descend({&section, &line, &line.pair.value}, path, full.size())) return found;
        }
    }
    return std::nullopt;
}

Path path_at(const Outline& outline, std::size_t at) {
    Path path;
    for (const auto& section : outline.sections) {
        if (section.header.from <= at && at < section.header.to) return section.path;
        for (const auto& line : section.lines)
            if (line.whole.from <= at && at < line.whole.to) {
                path = full_path(section, line.pair.key);
                deepest_at(line.pair.value, at, path);
                return path;
            }
    }
    return path;
}

}  // namespace bw::jobs
