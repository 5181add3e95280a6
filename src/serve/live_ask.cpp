// SPDX-License-Identifier: MIT
// What is asked of a job at once: its view, another candidate, a survey that is not stored.
#include <fmt/format.h>

#include "layout/place.h"
#include "serve/live_shared.h"

namespace bw::serve {
namespace {

constexpr std::size_t most_recent = 24;

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

}  // namespace

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

Result<design::Result> Live::one(const survey::Survey& survey, const std::optional<Place>& keep,
                                 piping::PlantCache* laid, const std::function<bool(int)>& go_on) {
    const bool fits_preferences =
        keep && (!survey.preferences.heater || *survey.preferences.heater == keep->heater) &&
        (!survey.preferences.place || layout::covers(*survey.preferences.place, keep->layout));
    if (fits_preferences)
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

Message Live::view_message(const Shown& shown, units::System system) const {
    return {"view", "", std::make_shared<const View>(parts_of(shown, catalogue_, system))};
}

Result<ShownPtr> Live::shown(const std::string& job, int revision, const SurveyPtr& survey) {
    std::optional<Place> kept;
    std::shared_ptr<piping::PlantCache> laid;
    {
        const std::lock_guard lock(mutex_);
        if (auto* live = known(job)) {
            live->used = ++uses_;
            if (live->shown && live->shown->revision == revision) return live->shown;
            kept = live->kept;
            laid = live->laid;
        }
    }
    const Turn turn(asked_);
    auto result = one(*survey, kept, laid.get(), {});
    if (!result) return tl::unexpected(result.error());
    auto shown = made(revision, std::move(*result), false);
    const std::lock_guard lock(mutex_);
    auto& live = used(job);
    if (live.revision == 0) put(live, revision, survey);
    if (live.revision == revision && !(live.shown && live.shown->revision == revision)) live.shown = shown;
    forget_old();
    return shown;
}

Result<ShownPtr> Live::candidate(const std::string& job, int revision, const SurveyPtr& survey, const Place& place) {
    const auto name = fmt::format("{}/{}/{}/{}", job, revision, place.heater, place.layout);
    {
        const std::lock_guard lock(mutex_);
        const auto found = jobs_.find(job);
        if (found != jobs_.end() && found->second.shown && found->second.shown->revision == revision &&
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
        auto* live = known(job);
        if (live == nullptr || live->revision != revision || !live->shown || live->shown->revision != revision)
            return units::fail("the job has changed meanwhile", "a layout of its present revision");
        before = live->shown;
        live->turn = ++turns_;  // what was being worked out is of another plant
        task = {job, live->turn, revision, survey, place};
    }
    auto shown = made(revision, beside((*wanted)->result, before->result), before->settled);
    publish(task, shown, true);
    return shown;
}

void Live::rest(const std::string& job) {
    const std::lock_guard lock(mutex_);
    const auto found = jobs_.find(job);
    if (found == jobs_.end()) return;
    auto& live = found->second;
    if (!live.shown || live.shown->settled || live.shown->revision != live.revision) return;
    live.turn = ++turns_;
    std::erase(behind_, job);
    const auto told = one_line({{"revision", live.revision}, {"stage", "stopped"}});
    for (const auto& listener : live.listeners) listener->send({"working", told});
}

Result<ShownPtr> Live::trial(const survey::Survey& survey, const std::optional<Place>& keep) {
    const Turn turn(asked_);
    auto result = one(survey, keep, nullptr, {});
    if (!result) return tl::unexpected(result.error());
    return made(0, std::move(*result), false);
}

}  // namespace bw::serve
