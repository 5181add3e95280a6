// SPDX-License-Identifier: MIT
#include "kit.h"

#include "../support/readers.h"

#include <regex>
#include <sstream>

namespace bw::test {
namespace {

namespace fs = std::filesystem;

std::string plain(std::string text) {
    for (const auto& [coded, sign] :
         {std::pair{"&lt;", "<"}, {"&gt;", ">"}, {"&quot;", "\""}, {"&apos;", "'"}, {"&#39;", "'"}, {"&amp;", "&"}})
        for (std::size_t at = 0; (at = text.find(coded, at)) != std::string::npos; ++at)
            text.replace(at, std::string_view(coded).size(), sign);
    return text;
}

}  // namespace

std::string Page::text() const {
    std::string all = " ";
    for (const auto& word : words) all += word.text + " ";
    return all;
}

int Page::count(const std::string& phrase) const {
    const auto all = text(), wanted = " " + phrase + " ";
    int found = 0;
    for (std::size_t at = 0; (at = all.find(wanted, at)) != std::string::npos; at += wanted.size() - 1) ++found;
    return found;
}

std::vector<Page> pages_of(const std::string& pdf) {
    const auto folder = fs::temp_directory_path() / ("bankwright-draw-" + std::to_string(::getpid()));
    fs::create_directories(folder);
    std::ofstream(folder / "in.pdf", std::ios::binary) << pdf;
    const int status =
        std::system(("cd '" + folder.string() + "' && pdftotext -bbox in.pdf out.html 2>said.txt").c_str());
    EXPECT_TRUE(WIFEXITED(status) && WEXITSTATUS(status) == 0);
    EXPECT_EQ(text_in(folder / "said.txt"), "");
    std::istringstream lines(text_in(folder / "out.html"));
    fs::remove_all(folder);
    static const std::regex page("<page width=\"([0-9.]+)\" height=\"([0-9.]+)\">");
    static const std::regex word(
        "<word xMin=\"([-0-9.]+)\" yMin=\"([-0-9.]+)\" xMax=\"([-0-9.]+)\" yMax=\"([-0-9.]+)\">(.*)</word>");
    std::vector<Page> pages;
    std::smatch m;
    for (std::string line; std::getline(lines, line);)
        if (std::regex_search(line, m, page))
            pages.push_back({std::stod(m[1]), std::stod(m[2]), {}});
        else if (std::regex_search(line, m, word))
            pages.back().words.push_back(
                {std::stod(m[1]), std::stod(m[2]), std::stod(m[3]), std::stod(m[4]), plain(m[5])});
    return pages;
}

const Page& page_titled(const std::vector<Page>& pages, const std::string& title) {
    for (const auto& page : pages)
        if (page.count(title) > 0) return page;
    ADD_FAILURE() << "no sheet is titled " << title;
    static const Page none;
    return none;
}

}  // namespace bw::test
