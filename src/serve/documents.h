// SPDX-License-Identifier: MIT
#pragma once
// The documents of a plant that is shown, made when asked for and kept a while.

#include <deque>
#include <mutex>
#include <span>

#include "serve/shown.h"

namespace bw::serve {

struct DocumentKind {
    std::string_view name, type, says;
};
[[nodiscard]] std::span<const DocumentKind> document_kinds();

struct Ask {
    std::string job, name;
    units::System system = units::System::us;
    std::string paper;  ///< empty: the usual with the units
};

class Documents {
public:
    explicit Documents(const catalogue::Catalogue& catalogue) : catalogue_(catalogue) {}

    /// The bytes. Fails where nothing was chosen to document, or the kind is unknown.
    [[nodiscard]] Result<std::shared_ptr<const std::string>> make(const Ask& ask, const ShownPtr& shown);
    /// Size of what is kept; nothing where it was not made.
    [[nodiscard]] std::optional<std::size_t> size(const Ask& ask, const Shown& shown);

private:
    struct Kept {
        std::string key;
        std::shared_ptr<const std::string> bytes;
    };
    Result<std::string> bytes(const Ask& ask, const design::Result& result);
    std::shared_ptr<const std::string> kept(const std::string& key);

    const catalogue::Catalogue& catalogue_;
    std::mutex making_;  ///< the drawing library and the CAD kernel are each on one thread
    std::mutex mutex_;
    std::deque<Kept> kept_;
    std::size_t held_ = 0;
};

}  // namespace bw::serve
