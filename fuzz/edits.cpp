// SPDX-License-Identifier: MIT
// Bytes as edits of a survey's text: those that are made change what they name and nothing else.
// What begins with [ is read as the list of edits a page sends; anything else is a recipe for such a list.
#include "jobs/edit.h"

#include <fuzzer/FuzzedDataProvider.h>

#include <algorithm>
#include <map>

#include "must.h"
#include "survey/survey.h"
#include "text/toml.h"

namespace {

using namespace bw;        // NOLINT
using namespace bw::jobs;  // NOLINT
using bw::fuzz::must;
using What = Edit::What;

/// Ways of writing that the starter has none of.
constexpr std::string_view odd =
    "title = 'plain' # first\n\"a b\".c = 1\n\n# alone\n[supply]\npressure = \"60 psi\"\t# gauge\nmore.deep.er = 0.5\n"
    "more.wide = [1, 2,\n  # within\n  3,\n]\nwords = \"\"\"\nfirst \\\n  second\"\"\"\n\n[[room.wall]]\nnumber = 1\n"
    "build = { kind = \"stud\", parts = [ { n = 1 }, { n = 2 } ], none = {} }\n  [room.wall.under]\n  x = 'y'\n"
    "[[room.wall]]\r\nnumber = 2 # second\r\n\r\n[room]\nplan = [[\"1 ft\", \"2 ft\"], []]\n# size = \"2\" # shown\n"
    "[gas.other]\n[last]\nopen = true";

using Leaves = std::map<Path, Json>;

Path extended(Path path, Step step) {
    path.push_back(std::move(step));
    return path;
}

/// What is written somewhere in a tree, by its place. What is empty may be gone: it has no place to be written.
void gather(const Json& value, const Path& path, Leaves& out) {
    if (!value.is_structured()) out[path] = value;
    std::size_t at = 0;
    if (value.is_object())
        for (const auto& [key, inner] : value.items()) gather(inner, extended(path, key), out);
    if (value.is_array())
        for (const auto& inner : value) gather(inner, extended(path, at++), out);
}

Leaves leaves(const Json& tree) {
    Leaves out;
    gather(tree, {}, out);
    return out;
}

Json read(const std::string& text) {
    auto out = tree(text, "fuzz.toml");
    must(out.has_value());
    return std::move(*out);
}

const Json* found(const Json& tree, const Path& path) {
    const Json* here = &tree;
    for (const auto& step : path) {
        const auto* key = std::get_if<std::string>(&step);
        if (key != nullptr && here->is_object() && here->contains(*key))
            here = &(*here)[*key];
        else if (key == nullptr && here->is_array() && std::get<std::size_t>(step) < here->size())
            here = &(*here)[std::get<std::size_t>(step)];
        else
            return nullptr;
    }
    return here;
}

/// Where what stood at a place stands after an edit; nothing where the edit took it.
std::optional<Path> moved(Path path, const Edit& edit) {
    if (edit.what == What::append) return path;
    if (starts_with(path, edit.path)) return std::nullopt;
    const auto* gone = std::get_if<std::size_t>(&edit.path.back());
    const Path list(edit.path.begin(), edit.path.end() - 1);
    if (edit.what == What::remove && gone != nullptr && starts_with(path, list))
        if (auto& place = std::get<std::size_t>(path[list.size()]); place > *gone) --place;
    return path;
}

void must_mean(const Json& before, const Edit& edit, const Json& after) {
    Leaves wanted;
    for (const auto& [path, value] : leaves(before))
        if (auto there = moved(path, edit)) wanted[*there] = value;
    const Json* list = found(before, edit.path);
    if (edit.what == What::set) gather(edit.value, edit.path, wanted);
    if (edit.what == What::append) gather(edit.value, extended(edit.path, list == nullptr ? 0 : list->size()), wanted);
    must(leaves(after) == wanted);
}

std::size_t alike_in_front(std::string_view a, std::string_view b) {
    return static_cast<std::size_t>(std::mismatch(a.begin(), a.end(), b.begin(), b.end()).first - a.begin());
}

/// Where one stretch was written anew, what stood there before.
std::string_view replaced(std::string_view before, std::string_view after) {
    const auto front = alike_in_front(before, after);
    auto end = before.size(), new_end = after.size();
    while (end > front && new_end > front && before[end - 1] == after[new_end - 1]) --end, --new_end;
    return before.substr(front, end - front);
}

bool holds_in_order(std::string_view whole, std::string_view part) {
    auto at = part.begin();
    for (auto byte = whole.begin(); byte != whole.end() && at != part.end(); ++byte)
        if (*byte == *at) ++at;
    return at == part.end();
}

/// A plain value's own bytes are others afterwards, and none around them.
void must_keep_around(std::string_view before, const Edit& edit, const Json& old, std::string_view after) {
    const auto written = written_value(edit.value);
    for (std::size_t begin = alike_in_front(before, after) + 1; begin-- > 0;) {
        if (!after.substr(begin).starts_with(written)) continue;
        const auto rest = after.substr(begin + written.size());
        if (begin + rest.size() > before.size() || !before.ends_with(rest)) continue;
        const auto was = before.substr(begin, before.size() - begin - rest.size());
        const auto alone = tree("x = " + std::string(was), "fuzz.toml");
        if (alone && alone->size() == 1 && (*alone)["x"] == old) return;
    }
    must(false);
}

void must_keep_bytes(const std::string& before, const Json* old, const Edit& edit, const std::string& after) {
    if (edit.what == What::remove) return must(holds_in_order(before, after));
    if (edit.what == What::set && old != nullptr) {
        if (!old->is_structured()) must_keep_around(before, edit, *old, after);
        return;  // a table or list is written anew
    }
    // added in one place, or where a remark showed it; what was remarked of that stays
    const auto gone = replaced(before, after);
    if (gone.empty()) return;
    const std::string_view front(before.data(), static_cast<std::size_t>(gone.data() - before.data()) + 1);
    const auto line = front.substr(front.rfind('\n') + 1);
    must(line[line.find_first_not_of(" \t")] == '#');
    must(std::ranges::count(gone, '#') <= 1 && gone.find('\n') == std::string_view::npos);
}

/// One after another, each looked at; then all at once.
void must_edit(const std::string& start, const std::vector<Edit>& edits) {
    auto text = start;
    auto whole = read(text);
    for (const auto& edit : edits) {
        const auto next = apply(text, {edit});
        if (!next) {
            fuzz::must_explain(next.error());
            must(edits.size() < 2 || !apply(start, edits).has_value());
            return;
        }
        auto then = read(*next);
        must_mean(whole, edit, then);
        must_keep_bytes(text, found(whole, edit.path), edit, *next);
        text = *next, whole = std::move(then);
    }
    if (edits.size() < 2) return;
    const auto at_once = apply(start, edits);
    must(at_once.has_value() && *at_once == text);
}

class Recipe {
public:
    Recipe(const unsigned char* data, std::size_t size) : data_(data, size) {}

    Json edits(const std::string& start) {
        places(read(start), {});
        Json out = Json::array();
        for (int count = data_.ConsumeIntegralInRange(1, 3); count > 0; --count) out.push_back(to_json(edit()));
        return out;
    }
    bool flag() { return data_.ConsumeBool(); }
    bool often() { return data_.ConsumeIntegralInRange(0, 7) < 7; }

private:
    void places(const Json& value, const Path& path) {
        if (!path.empty()) places_.push_back(path);
        std::size_t at = 0;
        if (value.is_object())
            for (const auto& [key, inner] : value.items()) places(inner, extended(path, key));
        if (value.is_array())
            for (const auto& inner : value) places(inner, extended(path, at++));
    }
    Edit edit() {
        Edit out{places_[data_.ConsumeIntegralInRange<std::size_t>(0, places_.size() - 1)], What::set, {}};
        for (int more = data_.ConsumeIntegralInRange(0, 3); more > 1; --more) out.path.push_back(step());
        if (data_.ConsumeProbability<float>() < 0.2F && out.path.size() > 1) out.path.pop_back();
        out.what = data_.PickValueInArray({What::set, What::remove, What::append});
        if (out.what != What::remove) out.value = value(0);
        return out;
    }
    Step step() {
        if (!often()) return data_.ConsumeIntegralInRange<std::size_t>(0, 3);
        return key();
    }
    std::string key() {
        static const char* const known[] = {"pressure", "size", "at", "number", "build", "a b", "", "x.y", "other"};
        return often() ? data_.PickValueInArray(known) : text();
    }
    std::string text() {
        auto out = data_.ConsumeRandomLengthString(24);
        for (auto& byte : out) byte = static_cast<char>(byte & 0x7f);  // a page's JSON is UTF-8
        return out;
    }
    Json value(int depth) {
        switch (data_.ConsumeIntegralInRange(0, depth < 3 ? 7 : 4)) {
            case 0: return text();
            case 1: return data_.ConsumeIntegral<std::int32_t>();
            case 2: return flag();
            case 3: return data_.ConsumeFloatingPointInRange(-1e9, 1e9);
            case 4: return "12 ft 6-1/2 in";
            case 5: {
                Json list = Json::array();
                for (int n = data_.ConsumeIntegralInRange(0, 3); n > 0; --n) list.push_back(value(depth + 1));
                return list;
            }
            case 6: {
                Json list = Json::array();
                for (int n = data_.ConsumeIntegralInRange(0, 2); n > 0; --n) list.push_back(table(depth + 1));
                return list;
            }
            default: return table(depth + 1);
        }
    }
    Json table(int depth) {
        Json out = Json::object();
        for (int n = data_.ConsumeIntegralInRange(0, 3); n > 0; --n) out[key()] = value(depth);
        return out;
    }

    FuzzedDataProvider data_;
    std::vector<Path> places_;
};

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const unsigned char* data, std::size_t size) {
    static const std::string starter = survey::starter(), other(odd);
    const std::string* start = &starter;
    Json json;
    if (size > 0 && data[0] == '[') {
        json = Json::parse(data, data + size, nullptr, false);
    } else {
        Recipe recipe(data, size);
        if (recipe.often()) start = &other;  // read much sooner
        json = recipe.edits(*start);
    }
    const auto edits = read_edits(json);
    if (!edits)
        fuzz::must_explain(edits.error());
    else
        must_edit(*start, *edits);
    return 0;
}
