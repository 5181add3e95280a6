// SPDX-License-Identifier: MIT
#pragma once
// Layouts of one model tried in order, some side by side; what comes of it is as if they had been tried one by one.

#include <deque>
#include <map>

#include "design/prove.h"

namespace bw::design {

inline constexpr int most_at_once = 8;  ///< plants held in memory side by side

/// Whether the best plant so far does.
[[nodiscard]] bool passes(const Result& result);

class Trial {
public:
    Trial(Result& result, const catalogue::Catalogue& catalogue, demand::Capacity capacity, const Effort& effort);

    /// The first layouts, in order. A family whose layouts are refused twice for like reasons waits until the others
    /// had their turn. False when told to stop.
    [[nodiscard]] bool run();
    /// Goes on where no plant passes yet: to those whose vents want more room, with the heaters hung lower, then to
    /// layouts not tried so far; until one passes or `Effort::further` are tried.
    [[nodiscard]] bool go_on();

private:
    struct Try {
        const plant::Layout* layout = nullptr;
        Hang hang = Hang::as_laid_out;
        std::optional<Error> why = {};  ///< it was not built
        std::optional<Proved> proved = {};
        bool done = false;  ///< one of the two above is known
        bool shut = false;  ///< by a quick look, at no cost
    };

    [[nodiscard]] bool passes() const;
    [[nodiscard]] bool enough() const;
    [[nodiscard]] bool waits(const plant::Layout& layout) const;
    [[nodiscard]] int most_in_wave() const;
    [[nodiscard]] bool through(std::deque<Try> queue, bool all);
    [[nodiscard]] bool build(std::vector<Try*>& wave);
    void settle(Try&& tried);
    void enter(Candidate candidate);

    Result& result_;
    const catalogue::Catalogue& catalogue_;
    demand::Capacity capacity_;
    const Effort effort_;
    plant::Layouts layouts_;
    std::deque<Try> high_;                                        ///< built, and their vents want more room
    std::deque<Try> waiting_;                                     ///< of families that wait, or beyond the first
    std::map<std::pair<std::string, std::string>, int> likened_;  ///< refusals by family and what is said of them
    int built_ = 0, tried_ = 0, most_ = 0;
};

}  // namespace bw::design
