// SPDX-License-Identifier: MIT
// The work behind the pages: the views of jobs in line, then the wider choice.
#include <sys/resource.h>
#include <sys/syscall.h>
#include <unistd.h>

#include "serve/live_shared.h"

namespace bw::serve {
namespace {

using Clock = std::chrono::steady_clock;

constexpr auto progress_every = std::chrono::milliseconds(150);
/// Whoever types on does not want the wider choice yet; and it lets views by, but not for ever.
constexpr auto quiet_time = std::chrono::milliseconds(250), longest_step_back = std::chrono::milliseconds(100);

/// The wider choice steps back wherever a view is wanted.
void make_room_for_others() { ::setpriority(PRIO_PROCESS, static_cast<id_t>(::syscall(SYS_gettid)), 15); }

}  // namespace

std::optional<Live::Task> Live::take(bool behind) {
    std::unique_lock lock(mutex_);
    Task task;
    task.job = next_of(behind ? behind_ : ahead_, lock);
    if (ending_) return std::nullopt;
    const auto& live = jobs_.at(task.job);
    task.turn = live.turn, task.revision = live.revision, task.survey = live.survey, task.kept = live.kept;
    task.laid = live.laid;
    if (!behind) ++viewing_;
    return task;
}

void Live::step_back() {
    std::unique_lock lock(mutex_);
    wake_.wait_for(lock, longest_step_back, [this] { return ending_ || (viewing_ == 0 && ahead_.empty()); });
}

void Live::work(bool behind) {
    if (behind) make_room_for_others();
    while (const auto task = take(behind)) {
        if (task->survey) attempt(*task, behind);
        if (behind) continue;
        {
            const std::lock_guard lock(mutex_);
            --viewing_;
        }
        wake_.notify_all();
    }
}

void Live::attempt(const Task& task, bool behind) {
    try {
        if (behind)
            widen(task);
        else
            narrow(task);
    } catch (const std::exception&) {
        fail(task, {"the program met an error of its own at this revision", "the edit undone", {}});
    }
}

void Live::fail(const Task& task, const Error& why) {
    std::unique_lock lock(mutex_);
    if (!stands_stored(task, lock)) return;
    auto& live = jobs_.at(task.job);
    live.failed = failure(task.revision, why);
    for (const auto& listener : live.listeners) listener->send({"failed", live.failed});
}

void Live::narrow(const Task& task) {
    auto result = one(*task.survey, task.kept, task.laid.get(), [&](int) { return stands(task); });
    if (!result) return fail(task, result.error());
    publish(task, made(task.revision, std::move(*result), false), true);
}

/// Renders outside of the lock, then sends unless something newer has come.
void Live::publish(const Task& task, const ShownPtr& shown, bool as_view) {
    const auto message = [&](units::System system) {
        return as_view ? view_message(*shown, system) : Message{"wider", wider(*shown, system)};
    };
    std::set<units::System> systems;
    {
        const std::lock_guard lock(mutex_);
        if (const auto* live = known(task.job))
            for (const auto& listener : live->listeners) systems.insert(listener->system());
    }
    ShownPtr before;  // let go outside of the lock
    std::map<units::System, Message> messages;
    for (const auto system : systems) messages.emplace(system, message(system));
    std::unique_lock lock(mutex_);
    if (!stands_stored(task, lock)) return;
    auto& live = jobs_.at(task.job);
    before = std::exchange(live.shown, shown);
    live.quiet = Clock::now() + quiet_time;
    if (shown->result.chosen) live.kept = place_of(shown->result);
    live.at_rest |= shown->settled;
    for (const auto& listener : live.listeners) {
        const auto system = listener->system();
        auto made = messages.find(system);
        if (made == messages.end()) made = messages.emplace(system, message(system)).first;  // it came meanwhile
        listener->send(made->second);
    }
    if (!shown->settled && !live.listeners.empty()) queue(behind_, task.job);
}

void Live::widen(const Task& task) {
    ShownPtr before;
    bool stays = task.survey->preferences.place.has_value();
    {
        const std::lock_guard lock(mutex_);
        const auto* live = known(task.job);
        if (live == nullptr || live->listeners.empty()) return;
        before = live->shown;
        stays |= live->at_rest && before && before->result.chosen;
    }
    if (!before || before->revision != task.revision || before->settled) return;
    auto told = Clock::now();
    auto effort = design::wide();
    effort.threads = 1;  // asked between layouts whether it is still wanted
    effort.go_on = [&](int done) {
        step_back();
        if (!stands(task) || !followed(task.job)) return false;
        if (Clock::now() - told > progress_every) {
            told = Clock::now();
            tell(task.job, "working", one_line({{"revision", task.revision}, {"stage", "wider"}, {"done", done}}));
        }
        return true;
    };
    auto free = *task.survey;
    free.preferences.place.reset();  // what else there is, where the survey keeps to one place
    auto result = design::run(free, catalogue_, effort);
    if (!result) return;  // stopped, or failed as the view did
    if (stays) result = beside(before->result, std::move(*result));
    const auto shown = made(task.revision, std::move(*result), true);
    const auto& was = before->result;
    const bool same = was.chosen.has_value() == shown->result.chosen.has_value() &&
                      (!was.chosen || place_of(was) == place_of(shown->result));
    publish(task, shown, !same);
}

std::string Live::next_of(std::deque<std::string>& line, std::unique_lock<std::mutex>& lock) {
    while (!ending_) {
        auto soonest = Clock::time_point::max();
        std::erase_if(line, [&](const std::string& job) { return known(job) == nullptr; });
        for (auto job = line.begin(); job != line.end(); ++job) {
            const auto from = &line == &behind_ ? jobs_.at(*job).quiet : Clock::time_point::min();
            if (from <= Clock::now()) {
                const auto name = *job;
                line.erase(job);
                return name;
            }
            soonest = std::min(soonest, from);
        }
        if (soonest == Clock::time_point::max())
            wake_.wait(lock);
        else
            wake_.wait_until(lock, soonest);
    }
    return {};
}

}  // namespace bw::serve
