// SPDX-License-Identifier: MIT
#include <algorithm>
#include <unordered_map>

#include "serve/view_parts.h"

namespace bw::serve {
namespace {

const ViewPart* find(const std::vector<ViewPart>& list, const std::string& key) {
    const auto found = std::ranges::find(list, key, &ViewPart::key);
    return found == list.end() ? nullptr : &*found;
}

void write_head(Writer& out, const View& view) {
    out.key("revision").whole(view.revision);
    out.key("settled").flag(view.settled);
}

void write_parts(Writer& out, const View& was, const View& now) {
    out.key("parts").open('{');
    for (const auto& part : now.parts)
        if (const auto* before = find(was.parts, part.key); !before || before->text != part.text)
            out.key(part.key).raw(part.text);
    for (const auto& part : was.parts)
        if (!find(now.parts, part.key)) out.key(part.key).none();
    out.close('}');
}

void write_checks(Writer& out, const View& was, const View& now) {
    std::unordered_map<std::string_view, std::string_view> before;
    for (const auto& check : was.checks) before.emplace(check.key, check.text);
    out.key("checks").open('[');
    for (const auto& check : now.checks)
        if (const auto found = before.find(check.key); found == before.end() || found->second != check.text)
            out.raw(check.text);
    out.close(']');
    if (std::ranges::equal(was.checks, now.checks, {}, &ViewPart::key, &ViewPart::key)) return;
    out.key("order").open('[');
    for (const auto& check : now.checks) out.text(check.key);
    out.close(']');
}

}  // namespace

std::string full(const View& view) {
    std::size_t bytes = 64;
    for (const auto* list : {&view.parts, &view.checks})
        for (const auto& part : *list) bytes += part.key.size() + part.text.size() + 8;
    Writer out;
    out.reserve(bytes);
    out.open('{');
    write_head(out, view);
    for (const auto& part : view.parts) out.key(part.key).raw(part.text);
    out.key("checks").open('[');
    for (const auto& check : view.checks) out.raw(check.text);
    return out.close(']').close('}').take();
}

std::string change(const View& was, const View& now) {
    Writer out;
    out.open('{');
    write_head(out, now);
    out.key("since").whole(was.revision);
    write_parts(out, was, now);
    write_checks(out, was, now);
    return out.close('}').take();
}

}  // namespace bw::serve
