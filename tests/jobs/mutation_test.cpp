// SPDX-License-Identifier: MIT
// Surveys spoilt at random: what is no TOML is refused, what still is can be edited, and only the value named changes.
// BANKWRIGHT_MUTATIONS and BANKWRIGHT_SEED ask for more of them, and for others; tools/mutations.sh has sanitizers watch.
#include <gtest/gtest.h>

#include <cstdlib>
#include <random>

#include "jobs/edit.h"
#include "survey/survey.h"

namespace {

using namespace bw;        // NOLINT
using namespace bw::jobs;  // NOLINT

/// Ways of writing that surveys have none of.
constexpr std::string_view odd =
    "title = 'plain' # first\n\"a b\".c = 1\n\n# alone\n[supply]\npressure = \"60 psi\"\t# gauge\nmore.deep.er = 0.5\n"
    "more.wide = [1, 2,\n  # within\n  3,\n]\nwords = \"\"\"\nfirst \\\n  second\"\"\"\n\n[[room.wall]]\nnumber = 1\n"
    "build = { kind = \"stud\", parts.a = [ { n = 1 }, { n = 2 } ], none = {}, parts.b = 1 }\n  [room.wall.under]\n"
    "  x = 'y'\n[[room.wall]]\r\nnumber = 2 # second\r\n\r\n[room]\nplan = [[\"1 ft\", \"2 ft\"], []]\n"
    "# size = \"2\" # shown\n# prepared-by = [see sheet 2}\n[gas.other]\nname = \"\xC3\xBC\xE2\x82\xAC\"\n[last]\nopen "
    "= true";

long number_from(const char* name, long otherwise) {
    const char* text = std::getenv(name);
    return text == nullptr ? otherwise : std::atol(text);
}

class Mutations : public testing::Test {
protected:
    std::mt19937_64 chance{static_cast<std::uint64_t>(number_from("BANKWRIGHT_SEED", 7))};
    std::size_t below(std::size_t n) { return n == 0 ? 0 : chance() % n; }

    std::string spoilt(std::string text) {
        static const std::vector<std::string> pieces{"[",
                                                     "]",
                                                     "{",
                                                     "}",
                                                     "\"",
                                                     "'",
                                                     "\"\"\"",
                                                     "'''",
                                                     "#",
                                                     "=",
                                                     ".",
                                                     ",",
                                                     "\n",
                                                     "\r\n",
                                                     "\r",
                                                     "\xEF\xBB\xBF",
                                                     "\xC3\xBC",
                                                     "\xE2\x82",
                                                     "\\",
                                                     "[[",
                                                     "]]",
                                                     "# pressure = [see}\n",
                                                     "# size = {",
                                                     "a.b.c = 1\n",
                                                     "[room.wall]\n",
                                                     "[[room.wall]]\n",
                                                     "x = 1979-05-27\n",
                                                     " ",
                                                     "\t",
                                                     "= {a.b = [1], a.c = 'x'}",
                                                     std::string(1, '\0'),
                                                     "1e999",
                                                     "[[[[[[[[[[[[[[[[[[[[",
                                                     "{a={a={a={a={a={a="};
        for (auto times = 1 + below(3); times > 0; --times) {
            const auto at = below(text.size() + 1), length = below(std::min<std::size_t>(text.size() - at + 1, 40));
            switch (below(6)) {
                case 0: text.insert(at, pieces[below(pieces.size())]); break;
                case 1: text.replace(at, std::min<std::size_t>(1, length), pieces[below(pieces.size())]); break;
                case 2: text.erase(at, length); break;
                case 3: text.insert(below(text.size() + 1), text.substr(at, length)); break;
                case 4:
                    if (at < text.size()) text[at] = static_cast<char>(below(8) == 0 ? below(256) : 32 + below(95));
                    break;
                default:
                    if (below(8) == 0) text.resize(at);
            }
        }
        return text;
    }

    void gather(const Json& value, const Path& path, std::vector<Path>& out) {
        if (!path.empty()) out.push_back(path);
        std::size_t number = 0;
        const auto under = [&](Step step, const Json& inner) {
            auto deeper = path;
            deeper.push_back(std::move(step));
            gather(inner, deeper, out);
        };
        if (value.is_object())
            for (const auto& [key, inner] : value.items()) under(key, inner);
        if (value.is_array())
            for (const auto& inner : value) under(number++, inner);
    }
    Edit edit_of(const Json& whole) {
        std::vector<Path> places{{"job"}};
        gather(whole, {}, places);
        static const std::vector<Json> values{
            "5 ft",        3, true, Json::array({"1 ft", 2}), {{"a", "b"}}, Json::array({{{"n", 1}}, {{"m", 2}}}),
            Json::object()};
        Edit edit{places[below(places.size())], Edit::What::set, values[below(values.size())]};
        if (below(3) == 0) edit.path.emplace_back(below(2) == 0 ? "pressure" : "size");
        if (below(4) == 0) edit.what = Edit::What::remove, edit.value = {};
        if (below(6) == 0) edit.what = Edit::What::append, edit.value = values[below(values.size())];
        return edit;
    }
};

const Json* at(const Json& tree, const Path& path) {
    const Json* here = &tree;
    for (const auto& step : path) {
        const auto* key = std::get_if<std::string>(&step);
        if (key != nullptr ? !here->contains(*key) : !here->is_array() || std::get<std::size_t>(step) >= here->size())
            return nullptr;
        here = key != nullptr ? &here->at(*key) : &here->at(std::get<std::size_t>(step));
    }
    return here;
}

/// Outside of the bytes of the value that stood there, nothing is other.
void keeps_around(const std::string& before, const Edit& edit, const std::string& after) {
    const auto document = text::Document::parse(before, {});
    const auto all = outline(*document, before);
    const auto found = find(all, edit.path);
    ASSERT_TRUE(found) << written(edit.path) << "\n" << before;
    const auto span = found->value->span;
    EXPECT_EQ(after, before.substr(0, span.from) + written_value(edit.value) + before.substr(span.to));
    EXPECT_EQ(tree("x = " + before.substr(span.from, span.to - span.from), {})->at("x"),
              *at(*tree(before, {}), edit.path));
}

TEST_F(Mutations, SpoiltTextsAreRefusedOrEditedInPlace) {
    const auto wanted = number_from("BANKWRIGHT_MUTATIONS", 600);
    long refused = 0, edited = 0, kept = 0, unmade = 0;
    for (long i = 0; i < wanted; ++i) {
        const auto text = spoilt(i % 4 == 0 ? survey::starter() : std::string(odd));
        (void)path_at(text, {"", static_cast<int>(below(40)), static_cast<int>(below(90))});
        const auto whole = tree(text, {});
        const auto edit = edit_of(whole ? *whole : Json::object());
        const auto out = apply(text, {edit, edit_of(whole ? *whole : Json::object())});
        const auto one = apply(text, {edit});
        if (!whole) {
            ++refused;
            EXPECT_FALSE(out || one) << text;
            continue;
        }
        if (!one) {
            unmade += one.error().what == "this cannot be changed where it is written";
            continue;
        }
        ++edited;
        const auto* old = at(*whole, edit.path);
        if (edit.what == Edit::What::set && old != nullptr && !old->is_structured())
            ++kept, keeps_around(text, edit, *one);
        if (HasFailure()) FAIL() << "text " << i << ", " << to_json(edit).dump() << "\n" << text;
    }
    std::printf("%ld texts: %ld refused, %ld edited, %ld of them in place, %ld not to be edited\n", wanted, refused,
                edited, kept, unmade);
    EXPECT_GT(refused, wanted / 5);
    EXPECT_GT(edited, wanted / 8);
    EXPECT_GT(kept, wanted / 40);
    EXPECT_LT(unmade, wanted / 100 + 1);
}

}  // namespace
