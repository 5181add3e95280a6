// SPDX-License-Identifier: MIT
#pragma once
// Everything that is asked of the jobs, by docs/api.md: reads and judges what comes in, keeps it, and has the result
// worked out.

#include <functional>
#include <mutex>
#include <span>

#include "jobs/store.h"
#include "serve/answer.h"
#include "serve/documents.h"
#include "serve/live.h"
#include "text/embedded.h"

namespace bw::serve {

/// What of a request's address matters.
struct Query {
    units::System system = units::System::us;
    std::optional<Place> place;
    std::optional<int> revision;
    std::string paper;
};

class JobApi {
public:
    JobApi(jobs::Store& store, Live& live, const catalogue::Catalogue& catalogue,
           std::span<const text::EmbeddedFile> examples, const std::string& version);

    [[nodiscard]] Answer list();
    [[nodiscard]] Answer create(const std::string& body);
    [[nodiscard]] Answer job(const std::string& id);
    [[nodiscard]] Answer patch(const std::string& id, const std::string& body);
    [[nodiscard]] Answer undo(const std::string& id);
    [[nodiscard]] Answer redo(const std::string& id);
    [[nodiscard]] Answer remove(const std::string& id);
    [[nodiscard]] Answer restore(const std::string& id);
    [[nodiscard]] Answer survey_text(const std::string& id, const Query& query);
    [[nodiscard]] Answer replace_text(const std::string& id, const std::string& text);
    [[nodiscard]] Answer view(const std::string& id, const Query& query);
    [[nodiscard]] Answer check(const std::string& id, const std::string& check, const Query& query);
    [[nodiscard]] Answer trial(const std::string& id, const std::string& body, const Query& query);
    [[nodiscard]] Answer take(const std::string& id, const Query& query);
    [[nodiscard]] Answer rest(const std::string& id);
    [[nodiscard]] Answer documents(const std::string& id, const Query& query);
    [[nodiscard]] Answer document(const std::string& id, const std::string& name, const Query& query);
    [[nodiscard]] Answer words() const { return words_; }

    /// A listener of the job's results, or the refusal.
    [[nodiscard]] tl::expected<ListenerPtr, Answer> listen(const std::string& id, units::System system);
    void leave(const std::string& id, const ListenerPtr& listener) { live_.leave(id, listener); }

private:
    struct Open {
        jobs::Job job;
        std::string text;
        SurveyPtr survey;  ///< null where the text does not read
        Error why;         ///< why it does not
    };
    tl::expected<jobs::Job, Answer> found(const std::string& id);
    /// The job at a revision, the present one where none is named, whether its text reads or not; a refusal where there
    /// is none.
    tl::expected<Open, Answer> stored(const std::string& id, const Query& query = {});
    /// The same, refused where it does not read.
    tl::expected<Open, Answer> open(const std::string& id, const Query& query = {});
    Answer whole(const Open& open, int status = 200);
    Answer stale(const std::string& id, const char* says, const char* expected);
    /// Stores a text on top of the open job, where it is a survey, and sets the work going.
    Answer keep(const jobs::Job& before, const std::string& text);
    Answer rename(const std::string& id, const std::string& name);
    using Move = std::function<Result<std::optional<jobs::Job>>(const jobs::Store::Held& held)>;
    Answer moved(const std::string& id, const Move& move, const char* nothing);
    tl::expected<ShownPtr, Answer> shown(const Open& open, const Query& query);
    Answer make_words(const std::string& version) const;
    tl::expected<std::string, Answer> first_text(const reason::Json& request, std::string& name);

    std::mutex order_;  ///< what is written and what is told of it go in one order; nobody waits for the file with it
    jobs::Store& store_;
    Live& live_;
    const catalogue::Catalogue& catalogue_;
    std::span<const text::EmbeddedFile> examples_;
    Documents documents_;
    Answer words_;  ///< the same for every job
};

}  // namespace bw::serve
