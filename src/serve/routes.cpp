// SPDX-License-Identifier: MIT
#include "serve/routes.h"

#include <charconv>

#include "serve/gate.h"
#include "text/split.h"

namespace bw::serve {
namespace {

std::optional<int> number_of(const std::string& text) {
    int value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc() || end != text.data() + text.size()) return std::nullopt;
    return value;
}

tl::expected<Query, Answer> query_of(const Request& request) {
    const auto of = [&](std::string_view name) {
        const auto found = request.query.find(name);
        return found == request.query.end() ? std::nullopt : std::optional(found->second);
    };
    Query query;
    if (of("units") == "si") query.system = units::System::si;
    if (const auto heater = of("heater"), layout = of("layout"); heater && layout)
        query.place = Place{*heater, *layout};
    query.paper = of("paper").value_or("").substr(0, 16);
    if (const auto revision = of("revision")) {
        query.revision = number_of(*revision);
        if (!query.revision)
            return tl::unexpected(refusal(400, "revision is not the number of one", "a whole number, as revision=3"));
    }
    return query;
}

std::vector<std::string> parts_of(const Request& request) {
    return text::split(std::string_view(request.path).substr(1), '/');
}

bool of_events(const std::vector<std::string>& parts) {
    return parts.size() == 4 && parts[0] == "api" && parts[1] == "jobs" && parts[3] == "events";
}

}  // namespace

std::optional<Answer> Routes::refused(const Request& request, int port) const { return serve::refused(request, port); }

bool Routes::lengthy(const Request& request) const {
    const auto parts = parts_of(request);
    if (parts.size() < 4 || parts[0] != "api") return false;
    const auto& what = parts[3];
    return what == "view" || what == "checks" || what == "try" || what == "take" || what == "documents";
}

Answer Routes::of_job(const Request& request, const Parts& parts) {
    const auto& id = parts[2];
    const auto& method = request.method;
    const bool get = request.reads(), post = method == "POST";
    const auto read = query_of(request);
    if (!read) return read.error();
    const auto& query = *read;
    if (parts.size() == 3) {
        if (get) return api_.job(id);
        if (method == "PATCH") return api_.patch(id, request.body);
        if (method == "DELETE") return api_.remove(id);
        return refusal(405, "this is not done here", "GET, PATCH or DELETE");
    }
    const auto& what = parts[3];
    if (parts.size() == 4) {
        if (post && what == "undo") return api_.undo(id);
        if (post && what == "redo") return api_.redo(id);
        if (post && what == "restore") return api_.restore(id);
        if (post && what == "try") return api_.trial(id, request.body, query);
        if (post && what == "take") return api_.take(id, query);
        if (post && what == "rest") return api_.rest(id);
        if (get && what == "survey.toml") return api_.survey_text(id, query);
        if (method == "PUT" && what == "survey.toml") return api_.replace_text(id, request.body);
        if (get && what == "view") return api_.view(id, query);
        if (get && what == "documents") return api_.documents(id, query);
    }
    if (parts.size() == 5) {
        if (get && what == "checks") return api_.check(id, parts[4], query);
        if (get && what == "documents") return api_.document(id, parts[4], query);
    }
    return refusal(404, "there is nothing at this address");
}

Answer Routes::api(const Request& request, const Parts& parts) {
    if (parts.size() == 2 && parts[1] == "words" && request.reads()) return api_.words();
    if (parts.size() < 2 || parts[1] != "jobs" || parts.size() > 5)
        return refusal(404, "there is nothing at this address");
    if (parts.size() > 2) return of_job(request, parts);
    if (request.reads()) return api_.list();
    if (request.method == "POST") return api_.create(request.body);
    return refusal(405, "this is not done here", "GET or POST");
}

Answer Routes::asked(const Request& request, const Parts& parts) {
    if (request.path.starts_with("/api/")) return api(request, parts);
    if (!request.reads()) return refusal(405, "this is not done here", "GET");
    return page_.file(request.path, request.encodings.find("gzip") != std::string::npos);
}

namespace {

/// A job's listener, as long as somebody reads it.
class Following : public Feed {
public:
    Following(JobApi& api, std::string job, ListenerPtr listener)
        : api_(api), job_(std::move(job)), listener_(std::move(listener)) {}
    ~Following() override {
        listener_->on_ready({});
        api_.leave(job_, listener_);
    }
    Following(const Following&) = delete;
    Following& operator=(const Following&) = delete;
    void on_ready(std::function<void()> ready) override { listener_->on_ready(std::move(ready)); }
    std::optional<std::string> next() override { return listener_->next(std::chrono::milliseconds(0)); }

private:
    JobApi& api_;
    std::string job_;
    ListenerPtr listener_;
};

}  // namespace

Outcome Routes::events(const Request& request, const std::string& job) {
    const auto query = query_of(request);
    if (!query) return {query.error()};
    auto listener = api_.listen(job, query->system);
    if (!listener) return {std::move(listener.error())};
    return {{}, std::make_shared<Following>(api_, job, std::move(*listener))};
}

Outcome Routes::answer(const Request& request) {
    const auto parts = parts_of(request);
    if (of_events(parts) && request.reads()) return events(request, parts[2]);
    auto out = asked(request, parts);
    if (!out.tag.empty() && out.tag == request.tag) out.status = 304, out.body.clear(), out.encoding.clear();
    return {std::move(out)};
}

}  // namespace bw::serve
