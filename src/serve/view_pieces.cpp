// SPDX-License-Identifier: MIT
#include <map>
#include <unordered_map>

#include "model/form.h"
#include "serve/view_parts.h"
#include "units/amount.h"

namespace bw::serve {
namespace {

using text::Part;
using text::Service;
using units::amount;

/// Texts that many rows share, by number.
class Shared {
public:
    int number(std::string_view text) {
        if (text.empty()) return -1;
        const auto [at, fresh] = known_.try_emplace(std::string(text), static_cast<int>(list_.size()));
        if (fresh) list_.push_back(at->first);
        return at->second;
    }
    [[nodiscard]] const std::vector<std::string>& list() const { return list_; }

private:
    std::unordered_map<std::string, int> known_;
    std::vector<std::string> list_;
};

/// Which sizing a piece's size comes from, by the names both carry.
class Whys {
public:
    explicit Whys(const std::vector<piping::Sizing>& sizes) {
        for (const auto& sizing : sizes) {
            auto says = sizing.what;
            if (!sizing.derivation.empty()) says += ": " + sizing.derivation.back().says;
            by_name_[prefix(sizing.what)] += (by_name_[prefix(sizing.what)].empty() ? "" : "\n") + says;
        }
    }
    [[nodiscard]] std::string_view of(const plant::Piece& piece) const {
        if (piece.size.eighths == 0) return {};
        for (auto id = std::string_view(piece.id); !id.empty();) {
            if (const auto found = by_name_.find(id); found != by_name_.end()) return found->second;
            const auto dot = id.rfind('.');
            id = dot == std::string_view::npos ? std::string_view{} : id.substr(0, dot);
        }
        if (piece.heater > 0)
            if (const auto found = by_name_.find(branch(piece.service)); found != by_name_.end()) return found->second;
        return {};
    }

private:
    static std::string branch(Service service) { return "branch." + std::string(text::name(service)); }
    /// "bank 1 gas header, places 1 to 4" stands for ids that begin with "bank-1.gas.header".
    static std::string prefix(const std::string& what) {
        std::string plain = what.substr(0, what.find(','));
        if (plain == "recirculation return") return "main.recirculation";
        if (plain.ends_with(" main")) return "main." + plain.substr(0, plain.size() - 5);
        if (plain.ends_with(" branch to each heater")) return "branch." + plain.substr(0, plain.find(' '));
        if (plain.starts_with("bank ")) {
            plain[4] = '-';
            for (char& c : plain)
                if (c == ' ') c = '.';
        }
        return plain;
    }
    std::map<std::string, std::string, std::less<>> by_name_;
};

void write_list(Writer& out, std::string_view key, const std::vector<std::string>& list) {
    out.key(key).open('[');
    for (const auto& text : list) out.text(text);
    out.close(']');
}

std::unordered_map<std::string_view, std::string_view> titles(const design::Result& result,
                                                              const catalogue::Catalogue& catalogue) {
    std::unordered_map<std::string_view, std::string_view> out;
    for (const auto& line : result.chosen->estimate.lines) out.emplace(line.item, line.title);
    for (const auto& heater : catalogue.heaters) out.emplace(heater.key, heater.title);
    return out;
}

}  // namespace

std::string pieces_text(const Shown& shown, const catalogue::Catalogue& catalogue, units::System system) {
    Writer out;
    out.open('{');
    out.key("columns").raw(R"(["id","part","service","item","size","heater","bank","cut"])");
    Shared parts, services, items;
    out.key("rows").open('[');
    if (shown.result.chosen) {
        const auto& built = shown.result.chosen->built;
        for (const auto& piece : built.plant.pieces) {
            out.open('[').text(piece.id).whole(parts.number(text::name(piece.part)));
            out.whole(services.number(text::name(piece.service))).whole(items.number(piece.item));
            out.text(piece.size.eighths > 0 ? units::print(piece.size) : std::string());
            out.whole(piece.heater).whole(piece.bank);
            if (piece.cut > 0)
                out.text(units::print(amount(piece.cut * units::metre), system));
            else
                out.none();
            out.close(']');
        }
    }
    out.close(']');
    write_list(out, "parts", parts.list());
    write_list(out, "services", services.list());
    out.key("items").open('[');
    if (shown.result.chosen) {
        const auto known = titles(shown.result, catalogue);
        for (const auto& item : items.list()) {
            const auto title = known.find(item);
            out.open('[').text(item).text(title == known.end() ? std::string_view(item) : title->second).close(']');
        }
    }
    out.close(']');
    return out.close('}').take();
}

std::string whys_text(const design::Result& result) {
    Shared list;
    Writer of, out;
    of.open('[');
    if (result.chosen) {
        const Whys why(result.chosen->built.sizes);
        for (const auto& piece : result.chosen->built.plant.pieces) of.whole(list.number(why.of(piece)));
    }
    of.close(']');
    out.open('{');
    write_list(out, "list", list.list());
    return out.key("of").raw(of.take()).close('}').take();
}

std::string geometry_text(const design::Result& result) {
    Writer out, boxes, rods;
    boxes.open('['), rods.open('[');
    const auto point = [](Writer& to, shape::Vec v) { to.place(v.x).place(v.y).place(v.z); };
    if (result.chosen) {
        const auto& pieces = result.chosen->built.plant.pieces;
        for (std::size_t i = 0; i < pieces.size(); ++i) {
            const auto number = static_cast<std::int64_t>(i);
            if (pieces[i].part == Part::connection) continue;  // the building's
            for (const auto& form : model::forms(pieces[i].solids)) {
                if (const auto* box = std::get_if<shape::Box>(&form)) {
                    boxes.whole(number);
                    point(boxes, box->min), point(boxes, box->max);
                } else {
                    const auto& rod = std::get<model::Rod>(form);
                    rods.whole(number).place(rod.radius).whole(static_cast<std::int64_t>(rod.line.size()));
                    for (const auto& at : rod.line) point(rods, at);
                }
            }
        }
    }
    boxes.close(']'), rods.close(']');
    out.open('{').key("boxes").raw(boxes.take()).key("rods").raw(rods.take());
    return out.close('}').take();
}

}  // namespace bw::serve
