// SPDX-License-Identifier: MIT
#include "serve/live.h"

#include <algorithm>
#include <system_error>

#include "serve/live_shared.h"

namespace bw::serve {
namespace {

constexpr std::size_t most_listeners = 96;
constexpr std::size_t most_unfollowed = 12;  ///< jobs whose plants are kept though nobody follows them

}  // namespace

std::string failure(int revision, const Error& why) {
    auto says = why.what;
    if (!why.expected.empty()) says += "; expected " + why.expected;
    return one_line({{"revision", revision}, {"says", says}});
}

Live::Live(const catalogue::Catalogue& catalogue) : catalogue_(catalogue) {
    try {
        for (int i = 0; i < cores(); ++i) threads_.emplace_back([this] { work(false); });
        threads_.emplace_back([this] { work(true); });
    } catch (const std::system_error&) {
        stop();
        throw;
    }
}

Live::~Live() { stop(); }

void Live::stop() {
    {
        const std::lock_guard lock(mutex_);
        ending_ = true;
        for (auto& [id, live] : jobs_) {
            live.turn = ++turns_;
            for (const auto& listener : live.listeners) listener->end();
        }
    }
    wake_.notify_all();
    for (auto& thread : threads_)
        if (thread.joinable()) thread.join();
}

void Live::queue(std::deque<std::string>& line, const std::string& job) {
    if (std::find(line.begin(), line.end(), job) == line.end()) line.push_back(job);
    wake_.notify_all();
}

void Live::put(LiveJob& live, int revision, SurveyPtr survey, const Error& why) {
    live.turn = ++turns_;
    live.revision = revision;
    if (live.survey && live.survey->preferences.place && survey && !survey->preferences.place)
        live.at_rest = false;  // a choice is asked for
    live.survey = std::move(survey);
    live.failed = live.survey ? std::string() : failure(revision, why);
    live.stored.reset();
}

Live::LiveJob& Live::used(const std::string& job) {
    auto& live = jobs_[job];
    live.used = ++uses_;
    return live;
}

Live::LiveJob* Live::known(const std::string& job) {
    const auto found = jobs_.find(job);
    return found == jobs_.end() ? nullptr : &found->second;
}

void Live::soon_at(const std::string& job, int revision, SurveyPtr survey) {
    const std::lock_guard lock(mutex_);
    const auto found = jobs_.find(job);
    if (found == jobs_.end() || found->second.listeners.empty()) return;
    auto& live = found->second;
    LiveJob::Stored stored{live.revision, live.survey, live.at_rest, live.failed};
    put(live, revision, std::move(survey));
    live.stored = std::move(stored);
    queue(ahead_, job);
}

void Live::not_stored(const std::string& job) {
    const std::lock_guard lock(mutex_);
    const auto found = jobs_.find(job);
    if (found == jobs_.end() || !found->second.stored) return;
    auto& live = found->second;
    live.turn = ++turns_;
    live.revision = live.stored->revision, live.survey = live.stored->survey;
    live.at_rest = live.stored->at_rest, live.failed = live.stored->failed;
    live.stored.reset();
    const bool there = live.shown && live.shown->revision == live.revision;
    queue(there ? behind_ : ahead_, job);  // what was under way for it was dropped
}

void Live::now_at(const std::string& job, int revision, SurveyPtr survey, const std::string& told, const Error& why) {
    const std::lock_guard lock(mutex_);
    auto& live = used(job);
    for (const auto& listener : live.listeners) listener->send({"job", told});
    if (live.stored && live.revision == revision && live.survey == survey) {
        live.stored.reset();
        wake_.notify_all();
        return;
    }
    if (live.revision == revision && live.survey && !live.stored) return;
    put(live, revision, std::move(survey), why);
    wake_.notify_all();
    for (const auto& listener : live.listeners)
        if (!live.survey) listener->send({"failed", live.failed});
    if (live.survey && !live.listeners.empty()) queue(ahead_, job);
    forget_old();
}

void Live::tell(const std::string& job, const std::string& event, const std::string& data) {
    const std::lock_guard lock(mutex_);
    const auto found = jobs_.find(job);
    if (found == jobs_.end()) return;
    for (const auto& listener : found->second.listeners) listener->send({event, data});
}

ListenerPtr Live::listen(const std::string& job, int revision, const SurveyPtr& survey, units::System system,
                         const Error& why) {
    auto listener = std::make_shared<Listener>(system);
    ShownPtr there;
    {
        const std::lock_guard lock(mutex_);
        if (listeners_ >= most_listeners || ending_) return nullptr;
        auto& live = used(job);
        if (live.revision != revision || !live.survey || !survey) {
            put(live, revision, survey, why);
            wake_.notify_all();
        }
        ++listeners_;
        live.listeners.insert(listener);
        if (!live.failed.empty())
            listener->send({"failed", live.failed});
        else if (live.shown && live.shown->revision == revision)
            there = live.shown;
        else
            queue(ahead_, job);
        if (there && !there->settled) queue(behind_, job);
        forget_old();
    }
    if (!there) return listener;
    auto message = view_message(*there, system);
    const std::lock_guard lock(mutex_);
    if (const auto* live = known(job); live != nullptr && live->shown == there)
        listener->send(std::move(message));  // else something newer was sent meanwhile
    return listener;
}

void Live::leave(const std::string& job, const ListenerPtr& listener) {
    const std::lock_guard lock(mutex_);
    const auto found = jobs_.find(job);
    if (found == jobs_.end() || found->second.listeners.erase(listener) == 0) return;
    --listeners_;
    if (found->second.listeners.empty()) found->second.laid = std::make_shared<piping::PlantCache>();
}

/// What nobody follows goes, that looked at longest ago first: memory holds only what is looked at.
void Live::forget_old() {
    std::vector<std::pair<std::uint64_t, std::string>> unfollowed;
    for (const auto& [job, live] : jobs_)
        if (live.listeners.empty() && !live.stored) unfollowed.emplace_back(live.used, job);
    std::sort(unfollowed.begin(), unfollowed.end());
    for (std::size_t i = 0; i + most_unfollowed < unfollowed.size(); ++i) jobs_.erase(unfollowed[i].second);
}

bool Live::present(const Task& task) const {
    const auto found = jobs_.find(task.job);
    return !ending_ && found != jobs_.end() && found->second.turn == task.turn;
}

bool Live::stands(const Task& task) {
    const std::lock_guard lock(mutex_);
    return present(task);
}

bool Live::stands_stored(const Task& task, std::unique_lock<std::mutex>& lock) {
    wake_.wait(lock, [&] { return !present(task) || !jobs_.at(task.job).stored; });
    return present(task);
}

bool Live::followed(const std::string& job) {
    const std::lock_guard lock(mutex_);
    const auto* live = known(job);
    return live != nullptr && !live->listeners.empty();
}

}  // namespace bw::serve
