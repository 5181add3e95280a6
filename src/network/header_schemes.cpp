// SPDX-License-Identifier: MIT
#include "network/header_schemes.h"

#include <algorithm>
#include <array>
#include <map>
#include <optional>

namespace bw::network {
namespace {

enum class Place { near, middle, far };  ///< on a header, from its feed end as laid

/// A bank's header of one service: the nodes its branches leave from in order from the feed end, and the link that
/// feeds it or leads off.
struct Header {
    std::vector<int> nodes;
    int feed = -1;

    [[nodiscard]] int at(Place place) const {
        if (place == Place::near) return nodes.front();
        return place == Place::far ? nodes.back() : nodes[(nodes.size() - 1) / 2];
    }
};

class Reader {
public:
    Reader(const plant::Plant& plant, const WaterNetwork& network, bool cold)
        : plant_(plant), network_(network), cold_(cold) {
        for (std::size_t l = 0; l < network.network.links.size(); ++l)
            if (!is_heater(static_cast<int>(l))) towards_[away(l)] = static_cast<int>(l);
    }

    /// nullopt where a heater of the bank is not on one header with the others.
    std::optional<Header> read(const plant::Bank& bank) const {
        std::vector<std::pair<int, int>> by_depth;
        for (const auto& stand : bank.stands) {
            const auto node = branch_from(stand.number);
            if (!node) return std::nullopt;
            by_depth.emplace_back(depth(*node), *node);
        }
        std::ranges::sort(by_depth);
        Header header;
        for (const auto& [deep, node] : by_depth) header.nodes.push_back(node);
        const auto feed = towards_.find(header.nodes.front());
        if (feed == towards_.end()) return std::nullopt;
        header.feed = feed->second;
        return header;
    }

private:
    [[nodiscard]] bool is_heater(int link) const {
        return std::ranges::find(network_.heater, link) != network_.heater.end();
    }
    [[nodiscard]] int away(std::size_t link) const {
        const auto& l = network_.network.links[link];
        return cold_ ? l.to : l.from;
    }
    [[nodiscard]] int back(int link) const {
        const auto& l = network_.network.links[static_cast<std::size_t>(link)];
        return cold_ ? l.from : l.to;
    }
    /// From the heater's port along its own pieces to the header.
    [[nodiscard]] std::optional<int> branch_from(int heater) const {
        if (heater > static_cast<int>(network_.heater.size())) return std::nullopt;
        const int own = network_.heater[static_cast<std::size_t>(heater) - 1];
        if (own < 0) return std::nullopt;
        const auto& link = network_.network.links[static_cast<std::size_t>(own)];
        int node = cold_ ? link.from : link.to;
        for (auto next = towards_.find(node); next != towards_.end(); next = towards_.find(node)) {
            const auto& pieces = network_.pieces[static_cast<std::size_t>(next->second)];
            const bool its = std::ranges::any_of(
                pieces, [&](int i) { return plant_.pieces[static_cast<std::size_t>(i)].heater == heater; });
            if (!its) break;
            node = back(next->second);
        }
        return node;
    }
    [[nodiscard]] int depth(int node) const {
        int links = 0;
        for (auto next = towards_.find(node); next != towards_.end(); next = towards_.find(node)) {
            node = back(next->second);
            ++links;
        }
        return links;
    }

    const plant::Plant& plant_;
    const WaterNetwork& network_;
    bool cold_;
    std::map<int, int> towards_;  ///< by node: the link that leads from it to the point of connection
};

struct Scheme {
    const char* what;
    Place cold, hot;
};
constexpr std::array schemes{
    Scheme{"fed at one end, led off at the same end", Place::near, Place::near},
    Scheme{"fed at one end, led off at the other", Place::near, Place::far},
    Scheme{"fed and led off at the middle", Place::middle, Place::middle},
    Scheme{"fed at the middle, led off at one end", Place::middle, Place::near},
};

}  // namespace

std::vector<HeaderScheme> header_schemes(const plant::Plant& plant, const plant::Layout& layout,
                                         const WaterNetwork& network, const WaterFeed& feed) {
    std::vector<std::pair<Header, Header>> headers;  // cold and hot
    const Reader cold(plant, network, true), hot(plant, network, false);
    for (const auto& bank : layout.banks) {
        auto in = cold.read(bank), out = hot.read(bank);
        if (!in || !out) return {};
        headers.emplace_back(std::move(*in), std::move(*out));
    }
    std::vector<HeaderScheme> out;
    for (const auto& scheme : schemes) {
        WaterNetwork other = network;
        for (const auto& [in, off] : headers) {
            other.network.links[static_cast<std::size_t>(in.feed)].to = in.at(scheme.cold);
            other.network.links[static_cast<std::size_t>(off.feed)].from = off.at(scheme.hot);
        }
        const auto split = water_split(other, feed);
        HeaderScheme& found = out.emplace_back();
        found.what = scheme.what;
        if (split)
            found.heater = split->heater, found.shortfall = split->shortfall;
        else
            found.refused = units::describe(split.error());
    }
    return out;
}

}  // namespace bw::network
