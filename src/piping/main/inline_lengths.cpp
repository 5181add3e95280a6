// SPDX-License-Identifier: MIT
#include "piping/main/inline_lengths.h"

#include <algorithm>
#include <iterator>

namespace bw::piping {

double length_to_first_item(const Builder& b, const Line& line, const std::vector<InlineItem>& things) {
    auto end = std::ranges::find_if(things, [](const InlineItem& thing) { return thing.item != nullptr; });
    if (end != things.end()) ++end;
    return length_of(b, line, {things.begin(), end});
}

double length_of_first_changes(const Builder& b, const Line& line, const std::vector<InlineItem>& things) {
    return length_of(b, line, {things.begin(), std::ranges::find_if_not(things, &InlineItem::changes_size)});
}

double length_of_last_changes(const Builder& b, const Line& line, const std::vector<InlineItem>& things) {
    auto first = things.end();
    while (first != things.begin() && std::prev(first)->changes_size()) --first;
    return length_of(b, resized(line, size_after(line, {things.begin(), first})), {first, things.end()});
}

double length_of_changes(const Builder& b, const Line& line, const std::vector<InlineItem>& things) {
    std::vector<InlineItem> changes;
    std::ranges::copy_if(things, std::back_inserter(changes), &InlineItem::changes_size);
    return length_of(b, line, changes);
}

double length_with_tee(const Builder& b, const Line& line, std::vector<InlineItem> things, Nominal outlet) {
    InlineItem tee;
    tee.outlet = outlet;
    things.push_back(tee);
    return length_of(b, line, things);
}

Nominal size_after(const Line& line, const std::vector<InlineItem>& things) {
    Nominal size = line.size;
    for (const auto& thing : things)
        if (thing.changes_size()) size = thing.to;
    return size;
}

Line resized(Line line, Nominal size) {
    line.size = size;
    return line;
}

}  // namespace bw::piping
