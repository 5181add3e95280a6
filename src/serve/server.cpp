// SPDX-License-Identifier: MIT
#include "serve/server.h"

#include <fmt/format.h>
#include <malloc.h>
#include <pthread.h>
#include <signal.h>

#include <charconv>
#include <thread>

#include "serve/connections.h"
#include "serve/desk.h"
#include "serve/gate.h"
#include "serve/page.h"
#include "text/split.h"

namespace bw::serve {
namespace {

using httplib::Request;
using httplib::Response;

constexpr std::size_t largest_body = 1u << 20;
constexpr auto breath = std::chrono::seconds(1);
constexpr int breaths_a_word = 10;                           ///< between comments that keep a quiet stream open
constexpr std::string_view first_words = "retry: 1000\n\n";  // the page's pause before it calls again

constexpr auto policy =
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; font-src 'self'; connect-src "
    "'self'; "
    "base-uri 'none'; form-action 'none'; frame-ancestors 'none'";

void set_safety(Response& response) {
    response.set_header("Content-Security-Policy", policy);
    response.set_header("X-Content-Type-Options", "nosniff");
    response.set_header("Referrer-Policy", "no-referrer");
    response.set_header("Cross-Origin-Opener-Policy", "same-origin");
    response.set_header("Cross-Origin-Resource-Policy", "same-origin");
}

/// By a provider, since the library would pack a plain body on every request.
void send(Response& response, Answer answer) {
    response.status = answer.status;
    set_safety(response);
    if (!response.has_header("Cache-Control"))
        response.set_header("Cache-Control", answer.tag.empty() ? "no-store" : "no-cache");
    if (!answer.tag.empty()) response.set_header("ETag", answer.tag);
    if (!answer.encoding.empty())
        response.set_header("Content-Encoding", answer.encoding), response.set_header("Vary", "Accept-Encoding");
    if (!answer.file.empty())
        response.set_header("Content-Disposition", fmt::format("attachment; filename=\"{}\"", answer.file));
    if (answer.body.empty()) return;
    auto body = std::make_shared<std::string>(std::move(answer.body));
    response.set_content_provider(body->size(), answer.type,
                                  [body](std::size_t from, std::size_t length, httplib::DataSink& sink) {
                                      return sink.write(body->data() + from, length);
                                  });
}

Caller caller_of(const Request& request) {
    return {.method = request.method,
            .path = request.path,
            .host = request.get_header_value("Host"),
            .origin = request.get_header_value("Origin"),
            .site = request.get_header_value("Sec-Fetch-Site"),
            .type = request.get_header_value("Content-Type"),
            .hosts = request.get_header_value_count("Host"),
            .body = request.has_header("Content-Length") ? request.get_header_value("Content-Length") != "0"
                                                         : request.has_header("Transfer-Encoding")};
}

std::optional<int> number_of(const std::string& text) {
    int value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc() || end != text.data() + text.size()) return std::nullopt;
    return value;
}

Query query_of(const Request& request) {
    Query query;
    if (request.get_param_value("units") == "si") query.system = units::System::si;
    if (request.has_param("layout") && request.has_param("heater"))
        query.place = Place{request.get_param_value("heater"), request.get_param_value("layout")};
    if (request.has_param("revision")) query.revision = number_of(request.get_param_value("revision"));
    query.paper = request.get_param_value("paper").substr(0, 16);
    return query;
}

std::vector<std::string> parts_of(const Request& request) {
    return text::split(std::string_view(request.path).substr(1), '/');
}

}  // namespace

struct Service::Inside {
    Inside(std::unique_ptr<jobs::Store> opened, const Options& wanted, const catalogue::Catalogue& catalogue)
        : options(wanted),
          store(std::move(opened)),
          live(catalogue),
          desk(*store, live, catalogue, wanted.examples, wanted.version),
          page(wanted.page) {}

    Options options;
    std::string jobs;
    std::unique_ptr<jobs::Store> store;
    Live live;
    Desk desk;
    Page page;
    Connections http;
    std::thread listening;
    int port = 0;
    bool stopped = false;

    /// What is asked of one job: /api/jobs/ID/WHAT…
    Answer of_job(const Request& request, const std::vector<std::string>& parts);
    Answer api(const Request& request);
    Answer asked(const Request& request);
    void events(const Request& request, Response& response, const std::string& job);
    void set_up();
};

Answer Service::Inside::of_job(const Request& request, const std::vector<std::string>& parts) {
    const auto& id = parts[2];
    const auto& method = request.method;
    const bool get = method == "GET" || method == "HEAD", post = method == "POST";
    const auto query = query_of(request);
    if (parts.size() == 3) {
        if (get) return desk.job(id);
        if (method == "PATCH") return desk.patch(id, request.body);
        if (method == "DELETE") return desk.remove(id);
        return refusal(405, "this is not done here", "GET, PATCH or DELETE");
    }
    const auto& what = parts[3];
    if (parts.size() == 4) {
        if (post && what == "undo") return desk.undo(id);
        if (post && what == "redo") return desk.redo(id);
        if (post && what == "restore") return desk.restore(id);
        if (post && what == "try") return desk.trial(id, request.body, query);
        if (post && what == "take") return desk.take(id, query);
        if (post && what == "rest") return desk.rest(id);
        if (get && what == "survey.toml") return desk.survey_text(id, query);
        if (method == "PUT" && what == "survey.toml") return desk.replace_text(id, request.body);
        if (get && what == "view") return desk.view(id, query);
        if (get && what == "documents") return desk.documents(id, query);
    }
    if (parts.size() == 5) {
        if (get && what == "checks") return desk.check(id, parts[4], query);
        if (get && what == "documents") return desk.document(id, parts[4], query);
    }
    return refusal(404, "there is nothing at this address");
}

Answer Service::Inside::api(const Request& request) {
    const auto parts = parts_of(request);
    if (parts.size() == 2 && parts[1] == "words" && request.method == "GET") return desk.words();
    if (parts.size() < 2 || parts[1] != "jobs" || parts.size() > 5)
        return refusal(404, "there is nothing at this address");
    if (parts.size() > 2) return of_job(request, parts);
    if (request.method == "GET") return desk.list();
    if (request.method == "POST") return desk.create(request.body);
    return refusal(405, "this is not done here", "GET or POST");
}

Answer Service::Inside::asked(const Request& request) {
    if (request.path.starts_with("/api/")) return api(request);
    if (request.method != "GET" && request.method != "HEAD") return refusal(405, "this is not done here", "GET");
    return page.file(request.path, request.get_header_value("Accept-Encoding").find("gzip") != std::string::npos);
}

void Service::Inside::events(const Request& request, Response& response, const std::string& job) {
    auto listener = desk.listen(job, query_of(request).system);
    if (!listener) return send(response, std::move(listener.error()));
    set_safety(response);
    response.set_header("Cache-Control", "no-store");
    response.set_header("X-Accel-Buffering", "no");
    response.set_chunked_content_provider(
        "text/event-stream",
        [listener = *listener, quiet = 0](std::size_t sent, httplib::DataSink& sink) mutable {
            if (sent == 0) return sink.write(first_words.data(), first_words.size());
            const auto message = listener->next(breath);
            if (!message) {
                sink.done();
                return true;
            }
            if (!sink.is_writable()) return false;  // the page is gone
            if (!message->empty()) return sink.write(message->data(), message->size());
            quiet = (quiet + 1) % breaths_a_word;
            return quiet != 0 || sink.write(":\n\n", 3);
        },
        [this, job, listener = *listener](bool) { desk.leave(job, listener); });
}

void Service::Inside::set_up() {
    http.set_tcp_nodelay(true);
    http.set_socket_options([](socket_t socket) {  // the library's own would share the port with any other program
        const int yes = 1;
        ::setsockopt(socket, SOL_SOCKET, SO_REUSEADDR, &yes, sizeof yes);
    });
    http.set_payload_max_length(largest_body);
    http.set_keep_alive_timeout(30);  // what the answers promise; the connections' own limits hold
    http.set_keep_alive_max_count(100000);
    http.set_pre_routing_handler([this](const Request& request, Response& response) {
        if (auto no = refused(caller_of(request), port)) {
            response.set_header("Connection", "close");
            send(response, std::move(*no));
            return httplib::Server::HandlerResponse::Handled;
        }
        return httplib::Server::HandlerResponse::Unhandled;
    });
    const auto handler = [this](const Request& request, Response& response) {
        const auto parts = parts_of(request);
        if (parts.size() == 4 && parts[0] == "api" && parts[1] == "jobs" && parts[3] == "events" &&
            request.method == "GET")
            return events(request, response, parts[2]);
        auto answer = asked(request);
        if (!answer.tag.empty() && answer.tag == request.get_header_value("If-None-Match"))
            answer.status = 304, answer.body.clear(), answer.encoding.clear();
        send(response, std::move(answer));
    };
    const auto* any = ".*";
    http.Get(any, handler).Post(any, handler).Put(any, handler).Patch(any, handler).Delete(any, handler);
    http.set_exception_handler([](const Request&, Response& response, std::exception_ptr) {
        send(response, refusal(500, "the program met an error of its own; nothing was changed by this request",
                               "the same again, and if it stays, the survey sent to whoever keeps the program"));
    });
    http.set_error_handler([](const Request&, Response& response) {
        if (!response.body.empty() || response.content_length_ > 0 || response.status == 204 || response.status == 304)
            return;
        send(response, refusal(response.status, response.status == 413   ? "the request is larger than a survey can be"
                                                : response.status == 404 ? "there is nothing at this address"
                                                                         : "the request is not understood"));
    });
}

Service::Service() = default;
Service::~Service() { stop(); }
int Service::port() const { return inside_->port; }
const std::string& Service::jobs_file() const { return inside_->jobs; }

Result<std::unique_ptr<Service>> Service::start(const Options& options, const catalogue::Catalogue& catalogue) {
    auto file = options.jobs.empty() ? jobs::usual_file() : Result<std::string>(options.jobs);
    if (!file) return tl::unexpected(file.error());
    auto store = jobs::Store::open(*file);
    if (!store) return tl::unexpected(store.error());
    std::unique_ptr<Service> service(new Service);
    service->inside_ = std::make_unique<Inside>(std::move(*store), options, catalogue);
    auto& in = *service->inside_;
    in.jobs = *file;
    in.set_up();
    in.port = options.port == 0                                 ? in.http.bind_to_any_port("127.0.0.1")
              : in.http.bind_to_port("127.0.0.1", options.port) ? options.port
                                                                : -1;
    if (in.port <= 0)
        return fail(
            fmt::format("port {} is taken: another program, perhaps this one, answers there", options.port),
            fmt::format("--port with another number, or http://127.0.0.1:{}/ opened in a browser", options.port));
    in.http.lengthen_queue();
    in.listening = std::thread([&in] { in.http.listen_after_bind(); });
    return service;
}

void Service::stop() {
    if (!inside_ || inside_->stopped) return;
    inside_->stopped = true;
    inside_->live.stop();  // its listeners' streams end with it
    if (inside_->listening.joinable()) {
        while (!inside_->http.is_running()) std::this_thread::sleep_for(std::chrono::milliseconds(1));
        inside_->http.stop();
        inside_->listening.join();
    }
}

Result<void> serve(const Options& options, const catalogue::Catalogue& catalogue,
                   const std::function<void(const std::string&, const std::string&)>& started) {
    // taken by this thread alone; those started from here inherit the mask
    sigset_t ends;
    sigemptyset(&ends);
    for (const int signal : {SIGINT, SIGTERM, SIGHUP}) sigaddset(&ends, signal);
    pthread_sigmask(SIG_BLOCK, &ends, nullptr);
    ::signal(SIGPIPE, SIG_IGN);
    ::mallopt(M_TRIM_THRESHOLD, 512 << 20);  // a plant's memory is wanted again at the next edit
    ::mallopt(M_MMAP_THRESHOLD, 64 << 20);
    auto service = Service::start(options, catalogue);
    if (!service) return tl::unexpected(service.error());
    started(fmt::format("http://127.0.0.1:{}/", (*service)->port()), (*service)->jobs_file());
    int signal = 0;
    sigwait(&ends, &signal);
    (*service)->stop();
    return {};
}

}  // namespace bw::serve
