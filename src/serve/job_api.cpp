// SPDX-License-Identifier: MIT
#include "serve/job_api.h"

#include <fmt/format.h>

#include "jobs/edit.h"
#include "serve/body.h"
#include "serve/job_json.h"
#include "serve/view_parts.h"

namespace bw::serve {
namespace {

using jobs::Job;
using reason::Json;

constexpr auto changed_meanwhile = "the job was changed meanwhile, in another window perhaps";
constexpr auto once_more = "the edit made again on what is there now";
constexpr auto deleted = "the job is deleted", restored_first = "the job restored first";
constexpr auto no_job = "there is no such job; it may be on another computer or in another file of jobs";

/// Trouble of the store: nothing was kept, and the page may try again.
Answer store_trouble(const Error& error) { return answer(503, {{"error", error_json(error)}}); }

/// A fault of the survey, with the path of what it is about.
Json judged_json(const Error& error, const std::string& text) {
    auto json = error_json(error);
    if (const auto path = jobs::path_at(text, error.place); !path.empty()) json["path"] = jobs::to_json(path);
    return json;
}
Answer judged(const Error& error, const std::string& text) {
    return answer(422, {{"error", judged_json(error, text)}});
}

/// The same of a text that is stored, for whoever has the job open.
Error unread(const Error& error) {
    if (error.what.empty()) return {};
    const auto line = error.place.line > 0 ? fmt::format(", line {}", error.place.line) : "";
    return {fmt::format("the stored survey does not read{}: {}", line, error.what),
            "undo, or a sound survey opened in its place",
            {}};
}

Answer too_large() {
    return refusal(413, "the survey is larger than any should be",
                   fmt::format("at most {} KiB", jobs::largest_text >> 10));
}

}  // namespace

JobApi::JobApi(jobs::Store& store, Live& live, const catalogue::Catalogue& catalogue,
               std::span<const text::EmbeddedFile> examples, const std::string& version)
    : store_(store),
      live_(live),
      catalogue_(catalogue),
      examples_(examples),
      documents_(catalogue),
      words_(make_words(version)) {}

tl::expected<Job, Answer> JobApi::found(const std::string& id) {
    auto job = store_.job(id);
    if (!job) return tl::unexpected(store_trouble(job.error()));
    if (!*job) return tl::unexpected(refusal(404, no_job));
    return std::move(**job);
}

tl::expected<JobApi::Open, Answer> JobApi::stored(const std::string& id, const Query& query) {
    auto job = found(id);
    if (!job) return tl::unexpected(job.error());
    if (query.revision) job->revision = *query.revision;
    auto text = store_.text(id, job->revision);
    if (!text) return tl::unexpected(store_trouble(text.error()));
    if (!*text) return tl::unexpected(refusal(404, "the job has no such revision"));
    Open out{std::move(*job), std::move(**text), nullptr, {}};
    if (auto survey = survey::parse(out.text, {}))
        out.survey = std::make_shared<const survey::Survey>(std::move(*survey));
    else
        out.why = std::move(survey.error());
    return out;
}

tl::expected<JobApi::Open, Answer> JobApi::open(const std::string& id, const Query& query) {
    auto there = stored(id, query);
    if (there && !there->survey) return tl::unexpected(judged(there->why, there->text));
    return there;
}

Answer JobApi::list() {
    const auto all = store_.list();
    if (!all) return store_trouble(all.error());
    Json json{{"jobs", Json::array()}, {"deleted", Json::array()}};
    for (const auto& job : all->jobs) json[job.deleted ? "deleted" : "jobs"].push_back(row_json(job));
    if (!all->whole)
        json["error"] = {{"says", "the file of jobs is damaged, so jobs may be missing from this list"},
                         {"expected", "a copy from a backup; the jobs that are listed can be downloaded"}};
    return answer(200, json);
}

/// A text that does not read is told of beside what can be told of the job, so that it can be replaced or undone.
Answer JobApi::whole(const Open& open, int status) {
    auto json = row_json(open.job);
    json.update(moved_json(open.job));
    const auto tree = jobs::tree(open.text, {});
    json["survey"] = tree ? *tree : Json::object();
    json["assumed"] = open.survey && tree ? assumed_json(*open.survey, *tree) : Json::array();
    if (!open.survey) json["error"] = judged_json(open.why, open.text);
    return answer(status, json);
}

/// The refusal of what does not fit the job as it is now, which goes with it.
Answer JobApi::stale(const std::string& id, const char* says, const char* expected) {
    const auto now = stored(id);
    if (!now) return now.error();
    return answer(409, {{"error", error_json({says, expected, {}})}, {"job", Json::parse(whole(*now).body)}});
}

Answer JobApi::job(const std::string& id) {
    const auto there = stored(id);
    return there ? whole(*there) : there.error();
}

tl::expected<std::string, Answer> JobApi::first_text(const Json& request, std::string& name) {
    if (request.contains("toml")) {
        if (!request["toml"].is_string())
            return tl::unexpected(refusal(400, "toml is not a text", "the survey's text"));
        return request["toml"].get<std::string>();
    }
    const auto from =
        request.contains("from") && request["from"].is_string() ? request["from"].get<std::string>() : "starter";
    if (from == "starter") return survey::starter();
    if (from.starts_with("example:"))
        for (const auto& example : examples_)
            if (example.name == from.substr(8) + ".toml") return std::string(example.text);
    if (from.starts_with("job:")) {
        auto other = open(from.substr(4));
        if (!other) return tl::unexpected(other.error());
        if (name.empty()) name = other->job.name + " (copy)";
        return std::move(other->text);
    }
    return tl::unexpected(
        refusal(404, "there is nothing of this name to begin with", "starter, example:NAME or job:ID"));
}

Answer JobApi::create(const std::string& body) {
    const auto request = object_of(body);
    if (!request) return request.error();
    auto name = name_in(*request);
    auto text = first_text(*request, name);
    if (!text) return text.error();
    if (text->size() > jobs::largest_text) return too_large();
    auto survey = survey::parse(*text, {});
    if (!survey) return judged(survey.error(), *text);
    if (name.empty()) name = survey->job;
    auto job = store_.create(name, *text);
    if (!job) return store_trouble(job.error());
    return whole({std::move(*job), std::move(*text), std::make_shared<const survey::Survey>(std::move(*survey)), {}},
                 201);
}

Answer JobApi::keep(const Job& before, const std::string& text) {
    auto survey = survey::parse(text, {});
    if (!survey) return judged(survey.error(), text);
    const auto judged_survey = std::make_shared<const survey::Survey>(std::move(*survey));
    std::unique_lock order(order_, std::defer_lock);
    auto job = store_.save(before.id, before.revision, text, [&] {
        order.lock();
        live_.soon_at(before.id, before.newest + 1, judged_survey);  // the disk takes as long as a fifth of the plant
    });
    if (order.owns_lock() && (!job || !*job)) live_.not_stored(before.id);
    if (!job) return store_trouble(job.error());
    if (!*job) return stale(before.id, changed_meanwhile, once_more);
    const Open now{std::move(**job), text, judged_survey, {}};
    live_.now_at(now.job.id, now.job.revision, now.survey, one_line(moved_json(now.job)));
    order.unlock();
    return whole(now);
}

Answer JobApi::rename(const std::string& id, const std::string& name) {
    if (name.empty()) return refusal(422, "the job wants a name");
    std::unique_lock order(order_, std::defer_lock);
    const auto job = store_.rename(id, name, [&] { order.lock(); });
    if (!job) return store_trouble(job.error());
    if (!*job) return refusal(404, no_job);
    live_.tell(id, "job", one_line(moved_json(**job)));
    const auto now = stored(id);
    order.unlock();
    return now ? whole(*now) : now.error();
}

Answer JobApi::patch(const std::string& id, const std::string& body) {
    const auto request = object_of(body);
    if (!request) return request.error();
    const auto job = found(id);
    if (!job) return job.error();
    if (job->deleted) return refusal(409, deleted, restored_first);
    if (request->contains("name") && !request->contains("edits")) return rename(id, name_in(*request));
    const auto before = open(id);
    if (!before) return before.error();
    if (!request->contains("revision") || !(*request)["revision"].is_number_integer() || !request->contains("edits"))
        return refusal(400, "the request is not understood", "revision and edits, or name");
    if ((*request)["revision"] != before->job.revision) return stale(id, changed_meanwhile, once_more);
    const auto edits = jobs::read_edits((*request)["edits"]);
    if (!edits) return answer(400, {{"error", error_json(edits.error())}});
    const auto text = jobs::apply(before->text, *edits);
    if (!text) return answer(422, {{"error", error_json(text.error())}});
    return keep(before->job, *text);
}

Answer JobApi::replace_text(const std::string& id, const std::string& text) {
    const auto before = found(id);
    if (!before) return before.error();
    if (before->deleted) return refusal(409, deleted, restored_first);
    if (text.size() > jobs::largest_text) return too_large();
    return keep(*before, text);
}

Answer JobApi::moved(const std::string& id, const Move& move, const char* nothing) {
    std::unique_lock order(order_, std::defer_lock);
    const auto job = move([&] { order.lock(); });
    if (!job) return store_trouble(job.error());
    if (!*job) return stale(id, nothing, "");
    const auto now = stored(id);
    if (!now) return now.error();
    live_.now_at(id, now->job.revision, now->survey, one_line(moved_json(now->job)), unread(now->why));
    order.unlock();
    return whole(*now);
}

Answer JobApi::undo(const std::string& id) {
    return moved(
        id, [&](const auto& held) { return store_.undo(id, held); }, "there is nothing to undo");
}
Answer JobApi::redo(const std::string& id) {
    return moved(
        id, [&](const auto& held) { return store_.redo(id, held); }, "there is nothing to do again");
}

Answer JobApi::remove(const std::string& id) {
    std::unique_lock order(order_, std::defer_lock);
    const auto job = store_.mark_deleted(id, true, [&] { order.lock(); });
    if (!job) return store_trouble(job.error());
    if (!*job) return refusal(404, no_job);
    live_.tell(id, "job", one_line(moved_json(**job)));
    return {.status = 204, .type = "", .body = "", .file = "", .encoding = "", .tag = ""};
}

Answer JobApi::restore(const std::string& id) {
    return moved(
        id, [&](const auto& held) { return store_.mark_deleted(id, false, held); }, no_job);
}

Answer JobApi::survey_text(const std::string& id, const Query& query) {
    const auto there = stored(id, query);
    if (!there) return there.error();
    return {.status = 200,
            .type = "application/toml",
            .body = there->text,
            .file = "survey.toml",
            .encoding = "",
            .tag = ""};
}

tl::expected<ShownPtr, Answer> JobApi::shown(const Open& open, const Query& query) {
    auto shown = query.place ? live_.candidate(open.job.id, open.job.revision, open.survey, *query.place)
                             : live_.shown(open.job.id, open.job.revision, open.survey);
    if (!shown) return tl::unexpected(answer(query.place ? 404 : 422, {{"error", error_json(shown.error())}}));
    return std::move(*shown);
}

Answer JobApi::view(const std::string& id, const Query& query) {
    const auto there = open(id, query);
    if (!there) return there.error();
    const auto seen = shown(*there, query);
    if (!seen) return seen.error();
    Answer out;
    out.body = full(parts_of(**seen, catalogue_, query.system));
    return out;
}

Answer JobApi::check(const std::string& id, const std::string& check, const Query& query) {
    const auto there = open(id, query);
    if (!there) return there.error();
    const auto seen = shown(*there, query);
    if (!seen) return seen.error();
    const auto json = check_whole(**seen, check, query.system);
    return json.is_null() ? refusal(404, "the plant has no such check") : answer(200, json);
}

Answer JobApi::trial(const std::string& id, const std::string& body, const Query& query) {
    const auto request = object_of(body);
    if (!request) return request.error();
    auto asked = query;
    if (request->contains("revision")) {
        asked.revision = revision_in((*request)["revision"]);
        if (!asked.revision) return refusal(400, "the revision is no number of one", "such as \"revision\": 7");
    }
    const auto before = open(id, asked);
    if (!before) return before.error();
    const auto edits = jobs::read_edits(request->contains("edits") ? (*request)["edits"] : Json());
    if (!edits) return answer(400, {{"error", error_json(edits.error())}});
    const auto text = jobs::apply(before->text, *edits);
    if (!text) return answer(422, {{"error", error_json(text.error())}});
    const auto survey = survey::parse(*text, {});
    if (!survey) return judged(survey.error(), *text);
    auto was = shown(*before, query);
    if (!was) return was.error();
    std::optional<Place> keep = query.place;
    if (!keep && (*was)->result.chosen) keep = Place{(*was)->result.capacity.heater, (*was)->result.chosen->layout.id};
    const auto then = live_.trial(*survey, keep);
    if (!then) return answer(422, {{"error", error_json(then.error())}});
    Answer out;
    out.body = R"({"view":)" + full(parts_of(**then, catalogue_, query.system)) + R"(,"changed":)" +
               one_line(changed(**was, **then, query.system)) + "}";
    return out;
}

Answer JobApi::take(const std::string& id, const Query& query) {
    const auto there = open(id);
    if (!there) return there.error();
    if (!query.place) return refusal(400, "no layout is named", "layout and heater in the address");
    const auto taken = live_.take(id, there->job.revision, there->survey, *query.place);
    if (!taken) return answer(409, {{"error", error_json(taken.error())}});
    return {.status = 204, .type = "", .body = "", .file = "", .encoding = "", .tag = ""};
}

Answer JobApi::rest(const std::string& id) {
    if (const auto job = found(id); !job) return job.error();
    live_.rest(id);
    return {.status = 204, .type = "", .body = "", .file = "", .encoding = "", .tag = ""};
}

Answer JobApi::documents(const std::string& id, const Query& query) {
    const auto there = open(id, query);
    if (!there) return there.error();
    const auto seen = shown(*there, query);
    if (!seen) return seen.error();
    Json list = Json::array();
    for (const auto& kind : document_kinds()) {
        Json row{{"name", kind.name}, {"says", kind.says}};
        if (kind.name == "survey.toml")
            row["size"] = there->text.size();
        else if (const auto size = documents_.size({id, std::string(kind.name), query.system, query.paper}, **seen))
            row["size"] = *size;
        list.push_back(std::move(row));
    }
    return answer(200, {{"revision", there->job.revision}, {"documents", std::move(list)}});
}

Answer JobApi::document(const std::string& id, const std::string& name, const Query& query) {
    const auto kinds = document_kinds();
    const auto kind = std::find_if(kinds.begin(), kinds.end(), [&](const DocumentKind& k) { return k.name == name; });
    if (kind == kinds.end()) return refusal(404, "there is no such document", "one of those listed");
    if (name == "survey.toml") return survey_text(id, query);
    const auto there = open(id, query);
    if (!there) return there.error();
    const auto seen = shown(*there, query);
    if (!seen) return seen.error();
    const auto bytes = documents_.make({id, name, query.system, query.paper}, *seen);
    if (!bytes) return answer(422, {{"error", error_json(bytes.error())}});
    return {.status = 200, .type = std::string(kind->type), .body = **bytes, .file = name, .encoding = "", .tag = ""};
}

tl::expected<ListenerPtr, Answer> JobApi::listen(const std::string& id, units::System system) {
    const std::lock_guard order(order_);
    const auto there = stored(id);
    if (!there) return tl::unexpected(there.error());
    auto listener = live_.listen(id, there->job.revision, there->survey, system, unread(there->why));
    if (!listener) return tl::unexpected(refusal(503, "too many pages are open at once", "some of them closed"));
    return listener;
}

Answer JobApi::make_words(const std::string& version) const {
    const auto system = units::System::us;
    Json heaters = Json::array(), examples = Json::array(), documents = Json::array();
    for (const auto& heater : catalogue_.heaters)
        heaters.push_back(Json{{"key", heater.key},
                               {"title", heater.title},
                               {"input", quantity(units::amount(heater.input_greatest), system)},
                               {"width", quantity(units::amount(heater.width), system)},
                               {"height", quantity(units::amount(heater.height), system)},
                               {"depth", quantity(units::amount(heater.depth), system)},
                               {"price", quantity(units::money(heater.price), system)}});
    for (const auto& example : examples_) {
        const auto survey = survey::parse(std::string(example.text), std::string(example.name));
        if (survey)
            examples.push_back(Json{{"name", example.name.substr(0, example.name.rfind('.'))}, {"title", survey->job}});
    }
    for (const auto& kind : document_kinds()) documents.push_back(Json{{"name", kind.name}, {"says", kind.says}});
    auto out = answer(200, Json{{"version", version},
                                {"format", "bankwright-api-1"},
                                {"schema", Json::parse(survey::schema())},
                                {"heaters", std::move(heaters)},
                                {"examples", std::move(examples)},
                                {"documents", std::move(documents)}});
    out.tag = fmt::format("\"{:x}\"", std::hash<std::string>{}(out.body));
    return out;
}

}  // namespace bw::serve
