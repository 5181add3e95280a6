// SPDX-License-Identifier: MIT
// Any bytes as a survey's text that is edited, sound or not: refused alike wherever they are looked at, or changed at
// the one place that is named.
#include "jobs/edit.h"
#include "must.h"
#include "text/toml.h"

using namespace bw;        // NOLINT
using namespace bw::jobs;  // NOLINT
using bw::fuzz::must;

namespace {

void must_take(const std::string& text, const Edit& edit) {
    const auto out = apply(text, {edit});
    if (!out) return fuzz::must_explain(out.error());
    must(tree(*out, {}).has_value());
}

void at_every_place(const std::string& text, const Json& value, const Path& path, int& left) {
    if (left-- <= 0) return;
    if (!path.empty() && path.size() <= 12)
        for (const auto what : {Edit::What::set, Edit::What::remove, Edit::What::append})
            must_take(text, {path, what, what == Edit::What::remove ? Json() : Json("5 ft")});
    std::size_t number = 0;
    for (const auto& entry : value.items()) {
        if (!value.is_structured()) break;
        auto deeper = path;
        deeper.push_back(value.is_object() ? Step(entry.key()) : Step(number++));
        at_every_place(text, entry.value(), deeper, left);
    }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const unsigned char* data, std::size_t size) {
    const std::string text(fuzz::text_of(data, size));
    for (int line = 0; line < 4; ++line) (void)path_at(text, {"", line, static_cast<int>(size % 40)});
    const Edit edit{{"job", "prepared-by"}, Edit::What::set, "me"};
    const auto whole = tree(text, {});
    if (!whole) {
        must(!apply(text, {edit}).has_value());
        return 0;
    }
    must_take(text, edit);
    int left = 12;
    at_every_place(text, *whole, {}, left);
    return 0;
}
