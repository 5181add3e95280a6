// SPDX-License-Identifier: MIT
#pragma once
// Real plants, and their sheets as an independent reader of PDF sees them.

#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "../support/examples.h"
#include "draw/sheets.h"

namespace bw::test {

struct Page {
    double width = 0, height = 0;  ///< points
    struct Word {
        double left = 0, top = 0, right = 0, bottom = 0;
        std::string text;
    };
    std::vector<Word> words;
    /// Every word, in the reader's order, with a blank between.
    [[nodiscard]] std::string text() const;
    /// How often the words of a phrase follow one another.
    [[nodiscard]] int count(const std::string& phrase) const;
};

/// Pages and words by poppler. A reader that is missing or stops is a failure.
[[nodiscard]] std::vector<Page> pages_of(const std::string& pdf);
/// The sheet with this title, by its title block.
[[nodiscard]] const Page& page_titled(const std::vector<Page>& pages, const std::string& title);

}  // namespace bw::test
