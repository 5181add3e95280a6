// SPDX-License-Identifier: MIT
#include "design/trial.h"

#include <tbb/parallel_for.h>
#include <tbb/task_arena.h>

#include <algorithm>

#include "layout/layout.h"

namespace bw::design {
namespace {

constexpr std::size_t spare_layouts = 14;  ///< for those whose connection is shut, which cost no time
constexpr int like_refusals = 2;           ///< of a family, before it waits

/// What is said of a refusal but for its places and numbers.
std::string likeness(const Error& why) {
    std::string kept;
    int deep = 0;
    for (const char c : why.what) {
        deep += c == '(' ? 1 : c == ')' ? -1 : 0;
        if (deep == 0 && !(c >= '0' && c <= '9')) kept += c;
    }
    return kept;
}

/// A plant of many heaters takes long to lay: fewer are laid then.
Effort within_reason(Effort effort, int heaters) {
    constexpr int usual = 16;
    const int times = (heaters + usual - 1) / usual;
    if (times > 1) {
        effort.candidates = std::max(1, effort.candidates / (4 * times));
        effort.further /= 2 * times;
    }
    return effort;
}

/// Nobody builds a plant whose pieces share room: it counts as refused.
std::optional<Error> clash_in(const Proved& proved) {
    const auto clash = std::ranges::find(proved.checks, "plant.clash", &reason::Check::id);
    if (clash == proved.checks.end() || clash->status != reason::Status::fail) return std::nullopt;
    return Error{"clash: " + clash->says, "another place for the heaters, or the room freer", {}};
}

}  // namespace

Trial::Trial(Result& result, const catalogue::Catalogue& catalogue, demand::Capacity capacity, const Effort& effort)
    : result_(result),
      catalogue_(catalogue),
      capacity_(std::move(capacity)),
      effort_(within_reason(effort, capacity_.installed)) {
    layouts_ = layout::candidates(result.survey, *catalogue.heater(capacity_.heater), capacity_.installed,
                                  static_cast<std::size_t>(effort_.most_tried + effort_.further) + spare_layouts, {},
                                  &catalogue);
    result.weighed += layouts_.weighed;
    std::ranges::move(layouts_.shortfalls, std::back_inserter(result.shortfalls));
}

bool passes(const Result& result) { return result.chosen && tally(result.chosen->checks).fail == 0; }

bool Trial::passes() const { return design::passes(result_); }

/// Enough to choose among, unless none of them passes yet.
bool Trial::enough() const { return tried_ >= most_ || (built_ >= effort_.candidates && passes()); }

bool Trial::waits(const plant::Layout& layout) const {
    return std::ranges::any_of(
        likened_, [&](const auto& one) { return one.first.first == layout.family && one.second >= like_refusals; });
}

int Trial::most_in_wave() const {
    const int wanted = std::max(1, effort_.candidates - built_);
    return std::min({wanted, most_ - tried_, effort_.threads > 1 ? most_at_once : 1});
}

bool Trial::run() {
    most_ = effort_.most_tried;
    std::deque<Try> queue;
    for (const auto& layout : layouts_.candidates) queue.push_back({&layout});
    return through(std::move(queue), false);
}

bool Trial::go_on() {
    if (passes() || effort_.further == 0) return true;
    most_ = tried_ + effort_.further;
    auto queue = std::exchange(high_, {});
    std::ranges::move(std::exchange(waiting_, {}), std::back_inserter(queue));
    for (Try& each : queue)
        if (!each.done) each.hang = Hang::lower;
    return through(std::move(queue), true);
}

/// Takes layouts from the queue until there are enough; those left over, and unless `all` those of families that wait,
/// are kept for later.
bool Trial::through(std::deque<Try> queue, bool all) {
    while (!queue.empty() && !enough() && !(all && passes())) {
        std::deque<Try> taken;
        std::vector<Try*> open;
        while (!queue.empty() && static_cast<int>(open.size()) < most_in_wave()) {
            Try next = std::move(queue.front());
            queue.pop_front();
            if (!all && waits(*next.layout)) {
                waiting_.push_back(std::move(next));
                continue;
            }
            if (!next.done) {
                next.why = piping::shut_connection(result_.survey, *next.layout);
                next.done = next.shut = next.why.has_value();
            }
            taken.push_back(std::move(next));
            if (!taken.back().why) open.push_back(&taken.back());
        }
        if (!build(open)) return false;
        for (Try& each : taken) {
            // one of those side by side may have had its family wait, or have been enough
            if ((all && passes()) || enough() || (!all && waits(*each.layout)))
                waiting_.push_back(std::move(each));
            else
                settle(std::move(each));
        }
    }
    std::ranges::move(queue, std::back_inserter(waiting_));
    return true;
}

bool Trial::build(std::vector<Try*>& wave) {
    std::erase_if(wave, [](const Try* each) { return each->done; });
    if (wave.empty()) return true;
    if (effort_.go_on && !effort_.go_on(static_cast<int>(result_.candidates.size()))) return false;
    const auto one = [&](std::size_t i) {
        auto proved = prove(result_.survey, catalogue_, result_.demand, capacity_, *wave[i]->layout, wave[i]->hang,
                            wave.size() == 1 ? effort_.threads : 1);
        wave[i]->done = true;
        if (proved)
            wave[i]->proved = std::move(*proved);
        else
            wave[i]->why = proved.error();
    };
    if (wave.size() == 1) {
        one(0);
    } else {
        tbb::task_arena arena(effort_.threads);
        arena.execute([&] { tbb::parallel_for(std::size_t{0}, wave.size(), one); });
    }
    return true;
}

void Trial::settle(Try&& tried) {
    tried_ += tried.shut ? 0 : 1;
    if (tried.proved) tried.why = clash_in(*tried.proved);
    if (tried.why) tried.proved.reset();
    if (tried.proved) {
        ++built_;
        enter(summary(*tried.proved));
        if (tried.hang == Hang::as_laid_out && vents_want_room(*tried.proved)) high_.push_back({tried.layout});
        if (!result_.chosen || better(*tried.proved, *result_.chosen)) result_.chosen = std::move(*tried.proved);
        return;
    }
    auto refused = of(*tried.layout, capacity_);
    refused.refused = units::describe(*tried.why);
    enter(std::move(refused));
    ++likened_[{tried.layout->family, likeness(*tried.why)}];
}

/// In the place of what the same layout came to before it was hung lower.
void Trial::enter(Candidate candidate) {
    const auto same = [&](const Candidate& c) { return c.layout == candidate.layout && c.heater == candidate.heater; };
    const auto known = std::ranges::find_if(result_.candidates, same);
    if (known == result_.candidates.end())
        result_.candidates.push_back(std::move(candidate));
    else
        *known = std::move(candidate);
}

}  // namespace bw::design
