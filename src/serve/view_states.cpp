// SPDX-License-Identifier: MIT
#include <array>
#include <bit>
#include <map>

#include "serve/view_parts.h"
#include "units/amount.h"

namespace bw::serve {
namespace {

using design::State;
using text::Service;
using units::amount;
using units::Kind;

/// How a service's figures are printed.
enum class Medium { water, gas, flue };

Medium medium_of(Service service) {
    if (service == Service::gas) return Medium::gas;
    return service == Service::exhaust || service == Service::intake ? Medium::flue : Medium::water;
}

/// The same figures printed the same way: pieces of one run share them.
using Likeness = std::array<std::uint64_t, 5>;
Likeness likeness(const State& state, Medium medium) {
    const auto bits = [](double value) { return std::bit_cast<std::uint64_t>(value); };
    const auto none = ~std::uint64_t{0};
    return {static_cast<std::uint64_t>(medium), bits(state.start.value()), bits(state.end.value()),
            state.flow ? bits(state.flow->value()) : none, state.mass_flow ? bits(state.mass_flow->value()) : none};
}

void write_state(Writer& out, const State& state, Medium medium, units::System system) {
    out.open('[');
    if (state.flow)
        out.text(
            units::print(medium == Medium::gas ? amount(*state.flow, Kind::gas_flow) : amount(*state.flow), system));
    else if (state.mass_flow)
        out.text(units::print(amount(*state.mass_flow), system));
    else
        out.none();
    const auto kind = medium == Medium::water ? Kind::pressure : Kind::gas_pressure;
    out.text(units::print(amount(state.start, kind), system));
    out.text(units::print(amount(state.end, kind), system));
    out.close(']');
}

}  // namespace

std::string states_text(const Shown& shown, units::System system) {
    Writer list, of;
    list.open('['), of.open('[');
    std::map<Likeness, std::int64_t> known;
    const std::size_t pieces = shown.solved ? shown.solved->piece.size() : 0;
    for (std::size_t i = 0; i < pieces; ++i) {
        const auto& state = shown.solved->piece[i];
        if (!state) {
            of.whole(-1);
            continue;
        }
        const auto medium = medium_of(shown.result.chosen->built.plant.pieces[i].service);
        const auto [at, fresh] = known.try_emplace(likeness(*state, medium), static_cast<std::int64_t>(known.size()));
        if (fresh) write_state(list, *state, medium, system);
        of.whole(at->second);
    }
    list.close(']'), of.close(']');
    Writer out;
    out.open('{').key("list").raw(list.take()).key("of").raw(of.take());
    return out.close('}').take();
}

}  // namespace bw::serve
