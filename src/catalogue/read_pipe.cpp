// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include "catalogue/read.h"
#include "catalogue/rows.h"

namespace bw::catalogue {

namespace {

Result<void> complete(const RowInHand<Pipe>& hand, const std::vector<Number<Pipe>>& numbers) {
    if (!hand.words.size) return fail("a pipe without 'size'", "a nominal size such as 1-1/4", hand.place);
    if (!hand.words.key.empty() || !hand.words.variant.empty() || hand.words.branch)
        return fail("a pipe has no key, variant or branch", "material and size, which make its key", hand.place);
    for (std::size_t i = 0; i < numbers.size(); ++i)
        if (numbers[i].required && !hand.given.test(i))
            return fail(fmt::format("{}: '{}' is missing", print(*hand.words.size), numbers[i].name),
                        "in the head, or as a column with its unit", hand.place);
    return {};
}

}  // namespace

Result<void> judge(const Pipe& pipe) {
    if (pipe.inside >= pipe.outside)
        return fail(fmt::format("{}: inside {:.3f} in is not less than outside {:.3f} in", pipe.key,
                                static_cast<double>(pipe.inside / inch), static_cast<double>(pipe.outside / inch)),
                    "inside < outside");
    if (pipe.roughness >= pipe.inside)
        return fail(fmt::format("{}: rougher than it is wide", pipe.key), "roughness < inside");
    return {};
}

Result<void> read_pipes(const text::Node& table, const SourceNames& names, Layer& into) {
    text::TableReader reader(table);
    Pipe head;
    reader.require_named("material", head.material);
    head.sources = take_sources(reader, names);
    reader.optional("drinking-water", head.drinking_water);
    const std::vector<Number<Pipe>> numbers(pipe_numbers().begin(), pipe_numbers().end());
    auto rows = take_rows(reader, std::move(head), numbers);
    if (auto ok = reader.finish(); !ok) return ok;
    for (auto& hand : rows) {
        if (auto ok = complete(hand, numbers); !ok) return ok;
        hand.row.size = *hand.words.size;
        hand.row.key = fmt::format("pipe/{}/{}", text::name(hand.row.material), print(hand.row.size));
        if (auto ok = judge(hand.row); !ok) return fail(ok.error().what, ok.error().expected, hand.place);
        into.pipes.push_back({std::move(hand.row), hand.place});
    }
    return {};
}

}  // namespace bw::catalogue
