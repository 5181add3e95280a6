// SPDX-License-Identifier: MIT
#pragma once
// Recomputation while people edit: the latest revision of a job wins, what is stale is dropped, and the wider choice is
// made behind the view with the layout kept.

#include <chrono>
#include <condition_variable>
#include <deque>
#include <map>
#include <mutex>
#include <semaphore>
#include <set>
#include <thread>

#include "serve/listener.h"

namespace bw::serve {

using SurveyPtr = std::shared_ptr<const survey::Survey>;

/// One layout of one model.
struct Place {
    std::string heater, layout;
    bool operator==(const Place&) const = default;
};

class Live {
public:
    explicit Live(const catalogue::Catalogue& catalogue);
    ~Live();
    Live(const Live&) = delete;
    Live& operator=(const Live&) = delete;

    /// The job is to stand at this revision once it is stored: work on it begins, and nothing of it is told before
    /// `now_at` says that it does, or else `not_stored`.
    void soon_at(const std::string& job, int revision, SurveyPtr survey);
    void not_stored(const std::string& job);
    /// The job stands at this revision now; its listeners get what follows. `told` is sent to them first, as `job`.
    /// Without a survey its text does not read, and `why` is told as the failure.
    void now_at(const std::string& job, int revision, SurveyPtr survey, const std::string& told, const Error& why = {});
    /// Sent to the job's listeners, whatever it is about.
    void tell(const std::string& job, const std::string& event, const std::string& data);
    /// A new listener of a job at this revision; nothing where there are too many already. Without a survey as above.
    [[nodiscard]] ListenerPtr listen(const std::string& job, int revision, const SurveyPtr& survey,
                                     units::System system, const Error& why = {});
    void leave(const std::string& job, const ListenerPtr& listener);

    /// What is shown of this revision, worked out now where it is not there.
    [[nodiscard]] Result<ShownPtr> shown(const std::string& job, int revision, const SurveyPtr& survey);
    /// Another candidate of it.
    [[nodiscard]] Result<ShownPtr> candidate(const std::string& job, int revision, const SurveyPtr& survey,
                                             const Place& place);
    /// The same, and from now on it is what is shown of the job, to everybody who follows it.
    [[nodiscard]] Result<ShownPtr> take(const std::string& job, int revision, const SurveyPtr& survey,
                                        const Place& place);
    /// The wider choice of the present revision is given up; the next edit begins it anew.
    void rest(const std::string& job);
    /// A survey that is not stored, with the layout kept where one is named and still stands.
    [[nodiscard]] Result<ShownPtr> trial(const survey::Survey& survey, const std::optional<Place>& keep);

    /// Ends every listener and all work.
    void stop();

private:
    struct LiveJob {
        int revision = 0;        ///< 0: nothing is known of it yet
        std::uint64_t turn = 0;  ///< another with every change; no two jobs ever have the same
        std::uint64_t used = 0;  ///< by which those not looked at for longest are known
        SurveyPtr survey;        ///< null where the text does not read
        /// Where it stands while what is above is being stored.
        struct Stored {
            int revision = 0;
            SurveyPtr survey;
            bool at_rest = false;
            std::string failed;
        };
        std::optional<Stored> stored;
        std::optional<Place> kept;
        std::shared_ptr<piping::PlantCache> laid = std::make_shared<piping::PlantCache>();
        bool at_rest = false;  ///< the wider choice was shown once: what is shown moves no more unasked
        ShownPtr shown;
        std::string failed;                             ///< why this revision has no view
        std::chrono::steady_clock::time_point quiet{};  ///< when the wider choice may begin
        std::set<ListenerPtr> listeners;
    };
    struct Task {
        std::string job;
        std::uint64_t turn = 0;
        int revision = 0;
        SurveyPtr survey;
        std::optional<Place> kept;
        std::shared_ptr<piping::PlantCache> laid{};
    };

    void work(bool behind);
    std::optional<Task> take(bool behind);
    /// The first job in line whose time has come; waits for one. Empty at the end.
    std::string next_of(std::deque<std::string>& line, std::unique_lock<std::mutex>& lock);
    /// Lets views go first, for a while.
    void step_back();
    /// One task, whatever comes of it.
    void attempt(const Task& task, bool behind);
    void fail(const Task& task, const Error& why);
    void narrow(const Task& task);
    void widen(const Task& task);
    /// Whether the job is still at what the task is about; the mutex is held.
    [[nodiscard]] bool present(const Task& task) const;
    bool stands(const Task& task);
    /// The same, once what it is about is stored; `lock` holds the mutex.
    bool stands_stored(const Task& task, std::unique_lock<std::mutex>& lock);
    /// Puts the job at a revision; what was worked out for another is stale.
    void put(LiveJob& live, int revision, SurveyPtr survey, const Error& why = {});
    LiveJob& used(const std::string& job);
    LiveJob* known(const std::string& job);
    /// Whether anybody still has the job open.
    bool followed(const std::string& job);
    /// Result with the layout kept where it still stands, else the short choice.
    Result<design::Result> one(const survey::Survey& survey, const std::optional<Place>& keep, piping::PlantCache* laid,
                               const std::function<bool(int)>& go_on);
    ShownPtr made(int revision, design::Result result, bool settled);
    [[nodiscard]] Message view_message(const Shown& shown, units::System system) const;
    void publish(const Task& task, const ShownPtr& shown, bool as_view);
    void queue(std::deque<std::string>& line, const std::string& job);
    void forget_old();

    const catalogue::Catalogue& catalogue_;
    std::mutex mutex_;
    std::condition_variable wake_;
    std::map<std::string, LiveJob> jobs_;
    std::deque<std::string> ahead_, behind_;               ///< jobs that wait for their view, and for the wider choice
    std::deque<std::pair<std::string, ShownPtr>> recent_;  ///< candidates by job, heater, layout and revision
    std::uint64_t turns_ = 0, uses_ = 0;
    std::size_t listeners_ = 0;
    int viewing_ = 0;  ///< views being worked out
    bool ending_ = false;
    std::counting_semaphore<> asked_{4};  ///< plants worked out at once for those who wait
    std::vector<std::thread> threads_;
};

}  // namespace bw::serve
