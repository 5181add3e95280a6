// SPDX-License-Identifier: MIT
// Any bytes as a catalogue file.
#include <fmt/format.h>

#include "catalogue/catalogue.h"

#include "catalogue/read.h"
#include "must.h"

extern "C" int LLVMFuzzerTestOneInput(const unsigned char* data, std::size_t size) {
    using namespace bw;
    const auto document = text::Document::parse(std::string(fuzz::text_of(data, size)), "fuzz.toml");
    if (!document) return 0;
    catalogue::Layer layer;
    if (const auto read = catalogue::read_document(*document, layer); !read) {
        fuzz::must_explain(read.error());
        return 0;
    }
    for (const auto& placed : layer.heaters)
        if (const auto sound = catalogue::judge(placed.row); !sound) fuzz::must_explain(sound.error());
    for (const auto& placed : layer.pipes)
        if (const auto sound = catalogue::judge(placed.row); !sound) fuzz::must_explain(sound.error());
    for (const auto& placed : layer.items)
        if (const auto sound = catalogue::judge(placed.row); !sound) fuzz::must_explain(sound.error());
    return 0;
}
