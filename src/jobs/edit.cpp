// SPDX-License-Identifier: MIT
#include "jobs/edit.h"

#include <fmt/format.h>

#include <algorithm>

namespace bw::jobs {
namespace {

using What = Edit::What;

tl::unexpected<Error> leads_nowhere(const Path& path) {
    return fail(fmt::format("there is no {} in the survey", written(path)), "a place that is there");
}
tl::unexpected<Error> not_here() {
    return fail("this cannot be changed where it is written", "the survey's text edited by hand");
}

Path parent_of(const Path& path) { return {path.begin(), path.end() - 1}; }
Path extended(Path path, Step step) {
    path.push_back(std::move(step));
    return path;
}
Path tail(const Path& path, std::size_t from) { return {path.begin() + static_cast<std::ptrdiff_t>(from), path.end()}; }

std::string dotted(const Path& path) {
    std::string out;
    for (const auto& step : path)
        if (const auto* key = std::get_if<std::string>(&step)) out += (out.empty() ? "" : ".") + written_key(*key);
    return out;
}

/// A whole table under a header.
std::string block(const Path& path, bool list, const Json& table) {
    std::string out = (list ? "[[" : "[") + dotted(path) + (list ? "]]\n" : "]\n");
    for (const auto& [key, value] : table.items())
        out += fmt::format("{} = {}\n", written_key(key), written_value(value));
    return out;
}
/// Entries of a list of tables from a number on, each under its header.
std::string blocks(const Path& path, const Json& list, std::size_t from = 0) {
    std::string out;
    for (; from < list.size(); ++from) out += (out.empty() ? "" : "\n") + block(path, true, list[from]);
    return out;
}

bool tables_alone(const Json& value) {
    return value.is_array() && !value.empty() &&
           std::all_of(value.begin(), value.end(), [](const Json& item) { return item.is_object(); });
}

constexpr std::size_t most_read = 6u << 20;  ///< bytes; the text is read again after each of its changes

/// A text under change.
class Text {
public:
    Text(const text::Document& document, std::string text)
        : text_(std::move(text)), outline_(outline(document, text_)) {}

    Result<void> make(const Edit& edit) {
        switch (edit.what) {
            case What::set: return set(edit.path, edit.value);
            case What::remove: return remove(edit.path);
            case What::append: return append(edit.path, edit.value);
        }
        return {};
    }
    [[nodiscard]] const std::string& text() const { return text_; }

private:
    /// The outline is of the text as it is now.
    Result<void> look() {
        if (!changed_) return {};
        read_ += text_.size();
        if (read_ > most_read)
            return fail("this changes too much at once", "fewer edits at a time, or the survey's text edited by hand");
        const auto document = text::Document::parse(text_, {});
        if (!document) return not_here();
        outline_ = outline(*document, text_);
        changed_ = false;
        return {};
    }
    void replace(Span span, const std::string& by) {
        text_.replace(span.from, span.to - span.from, by);
        changed_ = true;
    }
    void insert(std::size_t at, std::string what) {
        if (at > 0 && text_[at - 1] != '\n') what.insert(0, "\n");
        replace({at, at}, what);
    }

    /// The header that makes exactly this table or list entry.
    const Section* header(const Path& path) const {
        for (const auto& section : outline_.sections)
            if (!path.empty() && section.path == path) return &section;
        return path.empty() ? &outline_.sections.front() : nullptr;
    }
    /// How many entries of a list of tables have headers.
    std::size_t headed_entries(const Path& path) const {
        return static_cast<std::size_t>(std::count_if(
            outline_.sections.begin(), outline_.sections.end(),
            [&](const Section& s) { return s.list && s.path.size() == path.size() + 1 && starts_with(s.path, path); }));
    }
    /// Whether the table is there only because something lies in it.
    bool implied(const Path& path) const {
        for (const auto& section : outline_.sections) {
            if (section.path.size() > path.size() && starts_with(section.path, path)) return true;
            for (const auto& line : section.lines)
                if (lies_under(section, line, path)) return true;
        }
        return false;
    }

    Result<void> set(const Path& path, const Json& value) {
        if (auto ok = look(); !ok) return ok;
        if (const auto found = find(outline_, path)) {
            replace(found->value->span, written_value(value));
            return {};
        }
        if (header(path) != nullptr || implied(path)) return set_table(path, value);
        const auto* key = std::get_if<std::string>(&path.back());
        if (key == nullptr) return leads_nowhere(path);
        return add(path, *key, value);
    }

    /// What is there as tables under headers or by dotted keys takes another value.
    Result<void> set_table(const Path& path, const Json& value) {
        if (auto ok = look(); !ok) return ok;
        const auto entries = headed_entries(path);
        if (entries > 0 && tables_alone(value)) {
            for (std::size_t i = 0; i < std::min(entries, value.size()); ++i)
                if (auto ok = set_table(extended(path, i), value[i]); !ok) return ok;
            for (std::size_t i = entries; i > value.size(); --i)
                if (auto ok = remove(extended(path, i - 1)); !ok) return ok;
            if (auto ok = look(); !ok) return ok;
            if (entries < value.size()) put_section(path, blocks(path, value, entries));
            return {};
        }
        if (entries == 0 && value.is_object()) return set_keys(path, value);
        if (auto ok = remove(path); !ok) return ok;
        return set(path, value);
    }
    Result<void> set_keys(const Path& path, const Json& value) {
        auto now = tree(text_, {});
        if (!now) return tl::unexpected(now.error());
        const Json* here = &*now;
        for (const auto& step : path)
            here = std::holds_alternative<std::string>(step) ? &here->at(std::get<std::string>(step))
                                                             : &here->at(std::get<std::size_t>(step));
        for (const auto& [key, old] : here->items())
            if (!value.contains(key))
                if (auto ok = remove(extended(path, key)); !ok) return ok;
        if (auto ok = look(); !ok) return ok;
        if (header(path) == nullptr && !implied(path)) return value.empty() ? set(path, value) : add_all(path, value);
        return add_all(path, value);
    }
    Result<void> add_all(const Path& path, const Json& value) {
        for (const auto& [key, item] : value.items())
            if (auto ok = set(extended(path, key), item); !ok) return ok;
        return {};
    }

    Result<void> add(const Path& path, const std::string& key, const Json& value) {
        const auto parent = parent_of(path);
        if (const auto found = find(outline_, parent)) {
            if (found->value->kind != Written::table) return leads_nowhere(path);
            put_in_braces(*found->value, fmt::format("{} = {}", written_key(key), written_value(value)));
            return {};
        }
        if (value.is_object() && !inside_value(path)) {
            put_section(path, block(path, false, value));
            return {};
        }
        if (tables_alone(value) && !inside_value(path)) {
            if (!std::holds_alternative<std::string>(path.back())) return leads_nowhere(path);
            put_section(path, blocks(path, value));
            return {};
        }
        return add_line(path, value);
    }

    /// Whether a table above stands in braces or brackets, or is no table.
    bool inside_value(const Path& path) const {
        for (std::size_t steps = path.size() - 1; steps > 0; --steps)
            if (find(outline_, Path(path.begin(), path.begin() + static_cast<std::ptrdiff_t>(steps)))) return true;
        return false;
    }

    Result<void> add_line(const Path& path, const Json& value) {
        const auto parent = parent_of(path);
        if (const auto* section = header(parent)) {
            put_line(*section, tail(path, parent.size()), value);
            return {};
        }
        for (auto section = outline_.sections.rbegin(); section != outline_.sections.rend(); ++section)
            for (auto line = section->lines.rbegin(); line != section->lines.rend(); ++line)
                if (section->path.size() < parent.size() && lies_under(*section, *line, parent)) {
                    insert(line->whole.to,
                           fmt::format("{} = {}\n", dotted(tail(path, section->path.size())), written_value(value)));
                    return {};
                }
        if (inside_value(path)) return add_nested(path, value);
        if (!std::holds_alternative<std::string>(parent.back())) return leads_nowhere(path);
        put_section(parent, block(parent, false, Json{{std::get<std::string>(path.back()), value}}));
        return {};
    }
    /// Into a table in braces that is missing a table on the way.
    Result<void> add_nested(const Path& path, const Json& value) {
        const auto parent = parent_of(path);
        if (!std::holds_alternative<std::string>(path.back()) || parent.empty()) return leads_nowhere(path);
        if (find(outline_, parent)) return leads_nowhere(path);
        return set(parent, Json{{std::get<std::string>(path.back()), value}});
    }

    /// A line in a section: in place of the comment that shows it, or after the last.
    void put_line(const Section& section, const Path& key, const Json& value) {
        const auto what = fmt::format("{} = {}", dotted(key), written_value(value));
        if (const auto shown = commented(section, key)) {
            auto rest = text_.substr(shown->to);
            rest = rest.substr(0, rest.find('\n'));
            const auto old_width = shown->to - shown->from;
            if (rest.find('#') != std::string::npos) {  // the remark keeps its column where it can
                const auto blank = rest.find('#');
                rest = std::string(old_width + blank > what.size() + 1 ? old_width + blank - what.size() : 2, ' ') +
                       rest.substr(blank);
            }
            const auto end = std::min(text_.find('\n', shown->to), text_.size());
            replace({shown->from, end}, what + rest);
        } else {
            insert(section.end, what + "\n");
        }
    }
    /// `# key = value` in a section, from its sign to the end of its value, before any commented-out header.
    std::optional<Span> commented(const Section& section, const Path& key) const {
        const auto shown = dotted(key);
        auto line = section.lines.begin();
        for (auto at = section.header.to; at < section.limit;) {
            while (line != section.lines.end() && line->whole.to <= at) ++line;
            if (line != section.lines.end() && line->whole.from <= at) {  // a remark within a value is none
                at = line->whole.to;
                continue;
            }
            const auto end = std::min(text_.find('\n', at), text_.size());
            const std::string_view remark = std::string_view(text_).substr(at, end - at);
            const auto sign = remark.find_first_not_of(" \t");
            const auto word = sign == std::string_view::npos || remark[sign] != '#'
                                  ? std::string_view::npos
                                  : remark.find_first_not_of(" \t", sign + 1);
            if (word != std::string_view::npos) {
                const auto said = remark.substr(word);
                if (said.starts_with('[')) return std::nullopt;
                if (said.starts_with(shown))
                    if (const auto past = past_value(said, key)) return Span{at + sign, at + word + *past};
            }
            at = end + 1;
        }
        return std::nullopt;
    }

    void put_in_braces(const Value& table, const std::string& pair) {
        if (table.pairs.empty())
            replace(table.span, "{ " + pair + " }");
        else
            insert_plainly(table.pairs.back().span.to, ", " + pair);
    }
    void insert_plainly(std::size_t at, const std::string& what) { replace({at, at}, what); }

    /// A new section after those it is most akin to.
    void put_section(const Path& path, std::string what) {
        std::size_t best = 0, at = text_.size();
        for (const auto& section : outline_.sections) {
            std::size_t common = 0;
            while (common < std::min(path.size(), section.path.size()) && path[common] == section.path[common])
                ++common;
            if (common > 0 && common >= best) best = common, at = section.past;
        }
        while (at == text_.size() && at > 1 && text_[at - 1] == '\n' && text_[at - 2] == '\n') --at;
        if (at > 0) what.insert(0, text_[at - 1] == '\n' ? "\n" : "\n\n");
        if (at < text_.size() && text_[at] != '\n' && text_[at] != '\r') what += "\n";
        replace({at, at}, what);
    }

    Result<void> append(const Path& path, const Json& value) {
        if (auto ok = look(); !ok) return ok;
        if (const auto found = find(outline_, path)) {
            if (found->value->kind != Written::list)
                return fail(fmt::format("{} is not a list", written(path)), "a list");
            if (found->value->items.empty())
                replace(found->value->span, written_value(Json::array({value})));
            else
                insert_plainly(found->value->items.back().span.to, ", " + written_value(value));
            return {};
        }
        if (headed_entries(path) == 0 && (header(path) != nullptr || implied(path)))
            return fail(fmt::format("{} is not a list", written(path)), "a list");
        if (headed_entries(path) > 0 && !value.is_object())
            return fail(fmt::format("{} is a list of tables", written(path)), "a table");
        if (!value.is_object() || inside_value(path)) return set(path, Json::array({value}));
        if (!std::holds_alternative<std::string>(path.back())) return leads_nowhere(path);
        put_section(path, block(path, true, value));
        return {};
    }

    Result<void> remove(const Path& path) {
        if (auto ok = look(); !ok) return ok;
        if (const auto found = find(outline_, path)) {
            if (found->holder != nullptr)
                take_out(*found);
            else
                replace(found->line->whole, "");
            return {};
        }
        std::vector<Span> gone;
        for (const auto& section : outline_.sections) {
            if (!path.empty() && starts_with(section.path, path))
                gone.push_back({section.header.from, section.end});
            else
                for (const auto& line : section.lines)
                    if (lies_under(section, line, path)) gone.push_back(line.whole);
        }
        if (gone.empty()) return leads_nowhere(path);
        for (auto span = gone.rbegin(); span != gone.rend(); ++span) {
            const bool blank_before = span->from < 2 || text_.compare(span->from - 2, 2, "\n\n") == 0;
            if (blank_before && span->to < text_.size() && text_[span->to] == '\n') ++span->to;
            replace(*span, "");
        }
        return {};
    }
    /// Out of a list in brackets or a table in braces, with the comma after it, or before where it was the last.
    void take_out(const Found& found) {
        Span span = found.pair != nullptr ? found.pair->span : found.value->span;
        const auto comma = first_after(span.to, found.holder->span.to);
        if (comma < text_.size() && text_[comma] == ',') {
            span.to = text_.find_first_not_of(" \t", comma + 1);
        } else {
            for (auto at = span.from; at > found.holder->span.from; --at)
                if (text_[at - 1] == ',') {
                    span.from = at - 1;
                    break;
                } else if (std::string_view(" \t\r\n").find(text_[at - 1]) == std::string_view::npos) {
                    break;
                }
        }
        replace(span, "");
    }
    std::size_t first_after(std::size_t at, std::size_t limit) const {
        while (at < limit && std::string_view(" \t\r\n").find(text_[at]) != std::string_view::npos) ++at;
        return at;
    }

    std::string text_;
    Outline outline_;
    bool changed_ = false;
    std::size_t read_ = 0;
};

/// Whether they hold the same, in whatever order. A list or table that was emptied may be gone: where it stands under
/// headers, nothing is left to write it by.
bool alike(const Json& wanted, const Json& got) {
    if (wanted.is_object() && got.is_object()) {
        const auto known = [](const Json& in, const auto& entry, const auto& check) {
            return in.contains(entry.key()) ? check(in[entry.key()])
                                            : entry.value().is_structured() && entry.value().empty();
        };
        for (auto entry = wanted.begin(); entry != wanted.end(); ++entry)
            if (!known(got, entry, [&](const Json& there) { return alike(entry.value(), there); })) return false;
        return std::all_of(got.items().begin(), got.items().end(),
                           [&](const auto& entry) { return wanted.contains(entry.key()); });
    }
    if (wanted.is_array() && got.is_array())
        return wanted.size() == got.size() && std::equal(wanted.begin(), wanted.end(), got.begin(), alike);
    return wanted == got;
}

}  // namespace

Result<std::string> apply(const std::string& text, const std::vector<Edit>& edits) {
    const auto document = text::Document::parse(text, {});
    if (!document) return tl::unexpected(document.error());
    auto wanted = tree(*document);
    if (!wanted) return tl::unexpected(wanted.error());
    Text changed(*document, text);
    for (const auto& edit : edits) {
        if (auto ok = apply(*wanted, edit); !ok) return tl::unexpected(ok.error());
        if (auto ok = changed.make(edit); !ok) return tl::unexpected(ok.error());
    }
    if (changed.text().size() > std::max(largest_text, text.size()))
        return fail("the survey's text grows too large", fmt::format("at most {} KiB", largest_text >> 10));
    const auto got = tree(changed.text(), {});
    if (!got || !alike(*wanted, *got)) return not_here();
    return changed.text();
}

}  // namespace bw::jobs
