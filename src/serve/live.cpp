// SPDX-License-Identifier: MIT
#include "serve/live.h"

#include <fmt/format.h>
#include <sched.h>
#include <sys/resource.h>
#include <sys/syscall.h>
#include <unistd.h>

#include <algorithm>
#include <system_error>

#include "layout/place.h"

namespace bw::serve {
namespace {

using reason::Json;
using Clock = std::chrono::steady_clock;

constexpr std::size_t most_listeners = 96, most_recent = 24, most_messages = 64;
constexpr std::size_t most_unfollowed = 12;  ///< jobs whose plants are kept though nobody follows them
constexpr auto progress_every = std::chrono::milliseconds(150);
/// Whoever types on does not want the wider choice yet; and it lets views by, but not for ever.
constexpr auto quiet_time = std::chrono::milliseconds(250), longest_step_back = std::chrono::milliseconds(100);

/// A place among those who may work at once.
class Turn {
public:
    explicit Turn(std::counting_semaphore<>& places) : places_(places) { places_.acquire(); }
    Turn(const Turn&) = delete;
    Turn& operator=(const Turn&) = delete;
    ~Turn() { places_.release(); }

private:
    std::counting_semaphore<>& places_;
};

int cores() { return std::clamp(static_cast<int>(std::thread::hardware_concurrency()), 1, 8); }

/// The wider choice steps back wherever a view is wanted.
void make_room_for_others() { ::setpriority(PRIO_PROCESS, static_cast<id_t>(::syscall(SYS_gettid)), 15); }

Place place_of(const design::Result& result) { return {result.capacity.heater, result.chosen->layout.id}; }

/// A plant that stays what is shown, beside all the others it might have been.
design::Result beside(const design::Result& shown, design::Result whole) {
    design::Result out = shown;
    out.weighed = whole.weighed;
    out.candidates = std::move(whole.candidates);
    for (auto& c : out.candidates) c.chosen = false;
    if (!shown.chosen) return out;
    const auto here = place_of(shown);
    const auto same = [&](const design::Candidate& c) { return c.heater == here.heater && c.layout == here.layout; };
    const auto found = std::find_if(out.candidates.begin(), out.candidates.end(), same);
    const auto own = std::find_if(shown.candidates.begin(), shown.candidates.end(), same);
    if (found != out.candidates.end())
        found->chosen = true;
    else if (own != shown.candidates.end())
        out.candidates.insert(out.candidates.begin(), *own);
    return out;
}

std::string failure(int revision, const Error& why) {
    auto says = why.what;
    if (!why.expected.empty()) says += "; expected " + why.expected;
    return one_line({{"revision", revision}, {"says", says}});
}

}  // namespace

void Listener::on_ready(std::function<void()> ready) {
    const std::lock_guard lock(mutex_);
    ready_ = std::move(ready);
}

void Listener::send(Message message) {
    std::function<void()> ready;
    {
        const std::lock_guard lock(mutex_);
        if (message.view || message.event == "failed")
            std::erase_if(messages_, [](const Message& m) { return m.event != "job"; });
        if (message.event == "working") std::erase_if(messages_, [](const Message& m) { return m.event == "working"; });
        if (messages_.size() >= most_messages) messages_.pop_front();
        messages_.push_back(std::move(message));
        ready = ready_;
    }
    wake_.notify_one();
    if (ready) ready();
}

void Listener::end() {
    std::function<void()> ready;
    {
        const std::lock_guard lock(mutex_);
        ended_ = true;
        ready = ready_;
    }
    wake_.notify_all();
    if (ready) ready();
}

std::optional<std::string> Listener::next(std::chrono::milliseconds wait) {
    std::unique_lock lock(mutex_);
    wake_.wait_for(lock, wait, [this] { return ended_ || !messages_.empty(); });
    if (ended_) return std::nullopt;
    if (messages_.empty()) return std::string();
    auto message = std::move(messages_.front());
    messages_.pop_front();
    const auto before = message.view ? std::exchange(sent_, message.view) : nullptr;
    lock.unlock();
    if (message.view) {
        message.event = before ? "change" : "view";
        message.data = before ? change(*before, *message.view) : full(*message.view);
    }
    return "event: " + message.event + "\ndata: " + message.data + "\n\n";
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
        for (auto& [id, desk] : desks_) {
            desk.turn = ++turns_;
            for (const auto& listener : desk.listeners) listener->end();
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

void Live::put(Desk& desk, int revision, SurveyPtr survey, const Error& why) {
    desk.turn = ++turns_;
    desk.revision = revision;
    if (desk.survey && desk.survey->wishes.place && survey && !survey->wishes.place)
        desk.at_rest = false;  // a choice is asked for
    desk.survey = std::move(survey);
    desk.failed = desk.survey ? std::string() : failure(revision, why);
    desk.stored.reset();
}

Live::Desk& Live::used(const std::string& job) {
    auto& desk = desks_[job];
    desk.used = ++uses_;
    return desk;
}

Live::Desk* Live::known(const std::string& job) {
    const auto found = desks_.find(job);
    return found == desks_.end() ? nullptr : &found->second;
}

void Live::soon_at(const std::string& job, int revision, SurveyPtr survey) {
    const std::lock_guard lock(mutex_);
    const auto found = desks_.find(job);
    if (found == desks_.end() || found->second.listeners.empty()) return;
    auto& desk = found->second;
    Desk::Stored stored{desk.revision, desk.survey, desk.at_rest, desk.failed};
    put(desk, revision, std::move(survey));
    desk.stored = std::move(stored);
    queue(ahead_, job);
}

void Live::not_stored(const std::string& job) {
    const std::lock_guard lock(mutex_);
    const auto found = desks_.find(job);
    if (found == desks_.end() || !found->second.stored) return;
    auto& desk = found->second;
    desk.turn = ++turns_;
    desk.revision = desk.stored->revision, desk.survey = desk.stored->survey;
    desk.at_rest = desk.stored->at_rest, desk.failed = desk.stored->failed;
    desk.stored.reset();
    const bool there = desk.shown && desk.shown->revision == desk.revision;
    queue(there ? behind_ : ahead_, job);  // what was under way for it was dropped
}

void Live::now_at(const std::string& job, int revision, SurveyPtr survey, const std::string& told, const Error& why) {
    const std::lock_guard lock(mutex_);
    auto& desk = used(job);
    for (const auto& listener : desk.listeners) listener->send({"job", told});
    if (desk.stored && desk.revision == revision && desk.survey == survey) {
        desk.stored.reset();
        wake_.notify_all();
        return;
    }
    if (desk.revision == revision && desk.survey && !desk.stored) return;
    put(desk, revision, std::move(survey), why);
    wake_.notify_all();
    for (const auto& listener : desk.listeners)
        if (!desk.survey) listener->send({"failed", desk.failed});
    if (desk.survey && !desk.listeners.empty()) queue(ahead_, job);
    forget_old();
}

void Live::tell(const std::string& job, const std::string& event, const std::string& data) {
    const std::lock_guard lock(mutex_);
    const auto found = desks_.find(job);
    if (found == desks_.end()) return;
    for (const auto& listener : found->second.listeners) listener->send({event, data});
}

ListenerPtr Live::listen(const std::string& job, int revision, const SurveyPtr& survey, units::System system,
                         const Error& why) {
    auto listener = std::make_shared<Listener>(system);
    ShownPtr there;
    {
        const std::lock_guard lock(mutex_);
        if (listeners_ >= most_listeners || ending_) return nullptr;
        auto& desk = used(job);
        if (desk.revision != revision || !desk.survey || !survey) {
            put(desk, revision, survey, why);
            wake_.notify_all();
        }
        ++listeners_;
        desk.listeners.insert(listener);
        if (!desk.failed.empty())
            listener->send({"failed", desk.failed});
        else if (desk.shown && desk.shown->revision == revision)
            there = desk.shown;
        else
            queue(ahead_, job);
        if (there && !there->settled) queue(behind_, job);
        forget_old();
    }
    if (!there) return listener;
    auto message = view_message(*there, system);
    const std::lock_guard lock(mutex_);
    if (const auto* desk = known(job); desk != nullptr && desk->shown == there)
        listener->send(std::move(message));  // else something newer was sent meanwhile
    return listener;
}

void Live::leave(const std::string& job, const ListenerPtr& listener) {
    const std::lock_guard lock(mutex_);
    const auto found = desks_.find(job);
    if (found == desks_.end() || found->second.listeners.erase(listener) == 0) return;
    --listeners_;
    if (found->second.listeners.empty()) found->second.laid = std::make_shared<piping::PlantCache>();
}

/// What nobody follows goes, that looked at longest ago first: memory holds only what is looked at.
void Live::forget_old() {
    std::vector<std::pair<std::uint64_t, std::string>> unfollowed;
    for (const auto& [job, desk] : desks_)
        if (desk.listeners.empty() && !desk.stored) unfollowed.emplace_back(desk.used, job);
    std::sort(unfollowed.begin(), unfollowed.end());
    for (std::size_t i = 0; i + most_unfollowed < unfollowed.size(); ++i) desks_.erase(unfollowed[i].second);
}

bool Live::present(const Task& task) const {
    const auto found = desks_.find(task.job);
    return !ending_ && found != desks_.end() && found->second.turn == task.turn;
}

bool Live::stands(const Task& task) {
    const std::lock_guard lock(mutex_);
    return present(task);
}

bool Live::stands_stored(const Task& task, std::unique_lock<std::mutex>& lock) {
    wake_.wait(lock, [&] { return !present(task) || !desks_.at(task.job).stored; });
    return present(task);
}

bool Live::followed(const std::string& job) {
    const std::lock_guard lock(mutex_);
    const auto* desk = known(job);
    return desk != nullptr && !desk->listeners.empty();
}

std::string Live::next_of(std::deque<std::string>& line, std::unique_lock<std::mutex>& lock) {
    while (!ending_) {
        auto soonest = Clock::time_point::max();
        std::erase_if(line, [&](const std::string& job) { return known(job) == nullptr; });
        for (auto job = line.begin(); job != line.end(); ++job) {
            const auto from = &line == &behind_ ? desks_.at(*job).quiet : Clock::time_point::min();
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

std::optional<Live::Task> Live::take(bool behind) {
    std::unique_lock lock(mutex_);
    Task task;
    task.job = next_of(behind ? behind_ : ahead_, lock);
    if (ending_) return std::nullopt;
    const auto& desk = desks_.at(task.job);
    task.turn = desk.turn, task.revision = desk.revision, task.survey = desk.survey, task.kept = desk.kept;
    task.laid = desk.laid;
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
    auto& desk = desks_.at(task.job);
    desk.failed = failure(task.revision, why);
    for (const auto& listener : desk.listeners) listener->send({"failed", desk.failed});
}

Result<design::Result> Live::one(const survey::Survey& survey, const std::optional<Place>& keep,
                                 piping::PlantCache* laid, const std::function<bool(int)>& go_on) {
    const bool wished = keep && (!survey.wishes.heater || *survey.wishes.heater == keep->heater) &&
                        (!survey.wishes.place || layout::covers(*survey.wishes.place, keep->layout));
    if (wished)
        if (auto kept = design::run_layout(survey, catalogue_, keep->heater, keep->layout, cores(), laid)) return kept;
    design::Effort effort;
    effort.threads = cores();
    effort.go_on = go_on;
    return design::run(survey, catalogue_, effort);
}

ShownPtr Live::made(int revision, design::Result result, bool settled) {
    auto shown = std::make_shared<Shown>();
    shown->revision = revision;
    shown->result = std::move(result);
    shown->settled = settled;
    if (shown->result.chosen) shown->solved = design::solved(shown->result);
    return shown;
}

void Live::narrow(const Task& task) {
    auto result = one(*task.survey, task.kept, task.laid.get(), [&](int) { return stands(task); });
    if (!result) return fail(task, result.error());
    publish(task, made(task.revision, std::move(*result), false), true);
}

Message Live::view_message(const Shown& shown, units::System system) const {
    return {"view", "", std::make_shared<const View>(parts_of(shown, catalogue_, system))};
}

/// Renders outside of the lock, then sends unless something newer has come.
void Live::publish(const Task& task, const ShownPtr& shown, bool as_view) {
    const auto message = [&](units::System system) {
        return as_view ? view_message(*shown, system) : Message{"wider", wider(*shown, system)};
    };
    std::set<units::System> systems;
    {
        const std::lock_guard lock(mutex_);
        if (const auto* desk = known(task.job))
            for (const auto& listener : desk->listeners) systems.insert(listener->system());
    }
    ShownPtr before;  // let go outside of the lock
    std::map<units::System, Message> messages;
    for (const auto system : systems) messages.emplace(system, message(system));
    std::unique_lock lock(mutex_);
    if (!stands_stored(task, lock)) return;
    auto& desk = desks_.at(task.job);
    before = std::exchange(desk.shown, shown);
    desk.quiet = Clock::now() + quiet_time;
    if (shown->result.chosen) desk.kept = place_of(shown->result);
    desk.at_rest |= shown->settled;
    for (const auto& listener : desk.listeners) {
        const auto system = listener->system();
        auto made = messages.find(system);
        if (made == messages.end()) made = messages.emplace(system, message(system)).first;  // it came meanwhile
        listener->send(made->second);
    }
    if (!shown->settled && !desk.listeners.empty()) queue(behind_, task.job);
}

void Live::widen(const Task& task) {
    ShownPtr before;
    bool stays = task.survey->wishes.place.has_value();
    {
        const std::lock_guard lock(mutex_);
        const auto* desk = known(task.job);
        if (desk == nullptr || desk->listeners.empty()) return;
        before = desk->shown;
        stays |= desk->at_rest && before && before->result.chosen;
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
    free.wishes.place.reset();  // what else there is, where the survey keeps to one place
    auto result = design::run(free, catalogue_, effort);
    if (!result) return;  // stopped, or failed as the view did
    if (stays) result = beside(before->result, std::move(*result));
    const auto shown = made(task.revision, std::move(*result), true);
    const auto& was = before->result;
    const bool same = was.chosen.has_value() == shown->result.chosen.has_value() &&
                      (!was.chosen || place_of(was) == place_of(shown->result));
    publish(task, shown, !same);
}

Result<ShownPtr> Live::shown(const std::string& job, int revision, const SurveyPtr& survey) {
    std::optional<Place> kept;
    std::shared_ptr<piping::PlantCache> laid;
    {
        const std::lock_guard lock(mutex_);
        if (auto* desk = known(job)) {
            desk->used = ++uses_;
            if (desk->shown && desk->shown->revision == revision) return desk->shown;
            kept = desk->kept;
            laid = desk->laid;
        }
    }
    const Turn turn(asked_);
    auto result = one(*survey, kept, laid.get(), {});
    if (!result) return tl::unexpected(result.error());
    auto shown = made(revision, std::move(*result), false);
    const std::lock_guard lock(mutex_);
    auto& desk = used(job);
    if (desk.revision == 0) put(desk, revision, survey);
    if (desk.revision == revision && !(desk.shown && desk.shown->revision == revision)) desk.shown = shown;
    forget_old();
    return shown;
}

Result<ShownPtr> Live::candidate(const std::string& job, int revision, const SurveyPtr& survey, const Place& place) {
    const auto name = fmt::format("{}/{}/{}/{}", job, revision, place.heater, place.layout);
    {
        const std::lock_guard lock(mutex_);
        const auto found = desks_.find(job);
        if (found != desks_.end() && found->second.shown && found->second.shown->revision == revision &&
            found->second.shown->result.chosen && place_of(found->second.shown->result) == place)
            return found->second.shown;
        for (const auto& [known, shown] : recent_)
            if (known == name) return shown;
    }
    const Turn turn(asked_);
    auto result = design::run_layout(*survey, catalogue_, place.heater, place.layout, cores());
    if (!result) return tl::unexpected(result.error());
    auto shown = made(revision, std::move(*result), false);
    const std::lock_guard lock(mutex_);
    recent_.emplace_back(name, shown);
    if (recent_.size() > most_recent) recent_.pop_front();
    return shown;
}

Result<ShownPtr> Live::take(const std::string& job, int revision, const SurveyPtr& survey, const Place& place) {
    const auto wanted = candidate(job, revision, survey, place);
    if (!wanted) return wanted;
    ShownPtr before;
    Task task;
    {
        const std::lock_guard lock(mutex_);
        auto* desk = known(job);
        if (desk == nullptr || desk->revision != revision || !desk->shown || desk->shown->revision != revision)
            return units::fail("the job has changed meanwhile", "a layout of its present revision");
        before = desk->shown;
        desk->turn = ++turns_;  // what was being worked out is of another plant
        task = {job, desk->turn, revision, survey, place};
    }
    auto shown = made(revision, beside((*wanted)->result, before->result), before->settled);
    publish(task, shown, true);
    return shown;
}

void Live::rest(const std::string& job) {
    const std::lock_guard lock(mutex_);
    const auto found = desks_.find(job);
    if (found == desks_.end()) return;
    auto& desk = found->second;
    if (!desk.shown || desk.shown->settled || desk.shown->revision != desk.revision) return;
    desk.turn = ++turns_;
    std::erase(behind_, job);
    const auto told = one_line({{"revision", desk.revision}, {"stage", "stopped"}});
    for (const auto& listener : desk.listeners) listener->send({"working", told});
}

Result<ShownPtr> Live::trial(const survey::Survey& survey, const std::optional<Place>& keep) {
    const Turn turn(asked_);
    auto result = one(survey, keep, nullptr, {});
    if (!result) return tl::unexpected(result.error());
    return made(0, std::move(*result), false);
}

}  // namespace bw::serve
