// SPDX-License-Identifier: MIT
// Any bytes as TOML: refused with a place, or walked through to the last value.
#include "text/toml.h"
#include "must.h"

using namespace bw;
using fuzz::must;

namespace {

void read_as_everything(const text::Node& node) {
    if (const auto v = node.as_string(); !v) fuzz::must_explain(v.error());
    if (const auto v = node.as_number(); !v) fuzz::must_explain(v.error());
    if (const auto v = node.as_integer(); !v) fuzz::must_explain(v.error());
    if (const auto v = node.as_flag(); !v) fuzz::must_explain(v.error());
    if (const auto v = node.as_nominal(); !v) fuzz::must_explain(v.error());
    if (const auto v = node.as_amount(units::Kind::length); !v) fuzz::must_explain(v.error());
}

void walk(const text::Node& node, int depth) {
    must(depth <= 66);
    if (node.is_table()) {
        for (const auto& [key, child] : node.entries()) {
            must(node.get(key).has_value());
            walk(child, depth + 1);
        }
    } else if (node.is_array()) {
        for (const auto& child : node.items()) walk(child, depth + 1);
    } else {
        read_as_everything(node);
    }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const unsigned char* data, std::size_t size) {
    const auto document = text::Document::parse(std::string(fuzz::text_of(data, size)), "fuzz.toml");
    if (!document) {
        fuzz::must_explain(document.error());
        must(document.error().place.line > 0);
        return 0;
    }
    walk(document->root(), 0);
    text::TableReader reader(document->root());
    double value = 0;
    reader.optional("value", value, {0, 1});
    if (auto ok = reader.finish(); !ok) fuzz::must_explain(ok.error());
    return 0;
}
