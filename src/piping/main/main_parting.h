// SPDX-License-Identifier: MIT
#pragma once
// Parts a main among several banks with tees.

#include <array>
#include <optional>
#include <vector>

#include "piping/main/main_layer.h"
#include "piping/main/main_parts.h"
#include "piping/main/tee_choice.h"

namespace bw::piping {

class MainParting {
public:
    /// Lays with `main`; `parts` says which size the trunk has beyond its own things.
    MainParting(Builder& b, MainLayer& main, const MainParts& parts) : b_(b), main_(main), parts_(parts) {}

    /// The trunk leads to one bank, a tee on it to another; what is left of the trunk goes on so to the rest. `banks`
    /// are two numbers or more. Gives up where no two of them can be parted.
    void lay_to_all(const Trunk& trunk, const std::vector<int>& banks);

private:
    enum class Fits { none, sizes, all };  ///< how much of what both banks want in their ways finds room
    /// A trunk's path to one bank with the tee to another.
    struct Parting {
        int one = 0, other = 0;
        std::vector<Vec> path;
        TeeChoice tee;
        Fits fits{};

        [[nodiscard]] std::vector<Vec> before_tee(Vec from) const;
        [[nodiscard]] std::vector<Vec> beyond_tee() const;
    };

    std::optional<Parting> choose(const Trunk& trunk, const std::vector<int>& banks, std::optional<Error>& why);
    std::optional<Parting> part_two(const Trunk& trunk, int one, int other, std::optional<Error>& why);
    std::optional<Parting> with_tee(const Trunk& trunk, int one, int other, std::vector<Vec> path);
    std::array<WayEnds, 4> ends_to_try(const Trunk& trunk, int one, int other);
    Fits fits_beyond_tee(const Parting& parting, const Line& trunk);
    void lay_branch_to(PortRef outlet, int bank, const Line& branch);

    /// What stands before a bank's header, on a line from its own size on.
    std::vector<InlineItem> things_of(int bank, const Line& line) { return bank_things(b_, line, line.size, bank); }
    [[nodiscard]] Line before_bank(const Line& trunk) const;
    [[nodiscard]] Line branch_to(int bank, const Line& trunk) const;

    Builder& b_;
    MainLayer& main_;
    const MainParts& parts_;
};

}  // namespace bw::piping
