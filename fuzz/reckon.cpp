// SPDX-License-Identifier: MIT
// A topic and its arguments, one a line: refused in one line, or answered in finite numbers that print as JSON.
#include "reckon/reckon.h"

#include <cmath>

#include "must.h"

using namespace bw;
using fuzz::must;

namespace {

const catalogue::Catalogue& catalogue_of_the_program() {
    static const auto loaded = catalogue::load();
    must(loaded.has_value());
    return *loaded;
}

std::vector<std::string_view> lines_of(std::string_view text) {
    std::vector<std::string_view> lines;
    while (!text.empty()) {
        const auto end = text.find('\n');
        lines.push_back(text.substr(0, end));
        text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
    }
    return lines;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const unsigned char* data, std::size_t size) {
    const auto lines = lines_of(fuzz::text_of(data, size));
    if (lines.empty() || lines.size() > 40) return 0;
    std::vector<std::pair<std::string, std::string>> given;
    for (std::size_t i = 1; i < lines.size(); ++i) {
        auto pair = reckon::split_argument(lines[i]);
        if (!pair) return fuzz::must_explain(pair.error()), 0;
        given.push_back(std::move(*pair));
    }
    const auto answer = reckon::reckon(lines[0], given, catalogue_of_the_program());
    if (!answer) return fuzz::must_explain(answer.error()), 0;
    for (const auto& named : answer->result) {
        if (const auto* amount = std::get_if<units::Amount>(&named.value)) must(std::isfinite(amount->si));
    }
    must(!reckon::print(*answer, units::System::us).empty());
    must(!reckon::to_json(*answer, units::System::si).dump().empty());
    return 0;
}
