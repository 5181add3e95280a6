// SPDX-License-Identifier: MIT
#pragma once
// The page's files as they travel inside the program.

#include <map>
#include <span>
#include <string>

#include "serve/answer.h"
#include "text/embedded.h"

namespace bw::serve {

class Page {
public:
    /// Files packed by gzip, named by their place under the page's root with ".gz".
    explicit Page(std::span<const text::EmbeddedFile> files);

    /// The file at an address; `/` is index.html.
    [[nodiscard]] Answer file(const std::string& path, bool takes_gzip) const;

private:
    struct File {
        std::string_view packed;
        std::string type, tag;
    };
    std::map<std::string, File, std::less<>> files_;
};

}  // namespace bw::serve
