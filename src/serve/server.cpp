// SPDX-License-Identifier: MIT
#include "serve/server.h"

#include <fmt/format.h>
#include <malloc.h>
#include <semaphore.h>
#include <signal.h>
#include <sys/time.h>
#include <unistd.h>

#include <atomic>
#include <system_error>

#include "serve/job_api.h"
#include "serve/page.h"
#include "serve/routes.h"

namespace bw::serve {

struct Service::Inside {
    Inside(std::unique_ptr<jobs::Store> opened, const Options& wanted, const catalogue::Catalogue& catalogue)
        : options(wanted),
          store(std::move(opened)),
          live(catalogue),
          api(*store, live, catalogue, wanted.examples, wanted.version),
          page(wanted.page),
          routes(api, page) {}

    Options options;
    std::string jobs;
    std::unique_ptr<jobs::Store> store;
    Live live;
    JobApi api;
    Page page;
    Routes routes;
    std::unique_ptr<Connections> http;
};

Service::Service() = default;
Service::~Service() { stop(); }
int Service::port() const { return inside_->http->port(); }
const std::string& Service::jobs_file() const { return inside_->jobs; }

std::string Service::remark() const {
    const auto most = inside_->http->most();
    if (most >= inside_->options.limits.connections) return {};
    return fmt::format("only {} connections at once, since this program may open few files (ulimit -n)", most);
}

Result<std::unique_ptr<Service>> Service::start(const Options& options, const catalogue::Catalogue& catalogue) {
    auto file = options.jobs.empty() ? jobs::usual_file() : Result<std::string>(options.jobs);
    if (!file) return tl::unexpected(file.error());
    auto store = jobs::Store::open(*file);
    if (!store) return tl::unexpected(store.error());
    std::unique_ptr<Service> service(new Service);
    try {
        service->inside_ = std::make_unique<Inside>(std::move(*store), options, catalogue);
        auto& in = *service->inside_;
        in.jobs = *file;
        auto http = Connections::open(in.routes, options.port, options.limits);
        if (!http) return tl::unexpected(http.error());
        in.http = std::move(*http);
    } catch (const std::system_error&) {
        return fail("no thread could be started: this user or this program may run no more of them",
                    "other programs ended, or a higher limit (ulimit -u)");
    }
    return service;
}

void Service::stop() {
    if (!inside_ || !inside_->http) return;
    inside_->http->finish();
    inside_->live.stop();  // its listeners' streams end with it
    inside_->http->stop();
}

namespace {

constexpr int grace = 700000;  ///< microseconds, for answers under way

sem_t told_to_end;
std::atomic<bool> told_before = false;

/// The first signal ends the program in order, for which there is a time; the next one at once.
void on_end(int signal) {
    if (told_before.exchange(true)) ::_exit(128 + signal);
    ::sem_post(&told_to_end);
}

void end_on(std::initializer_list<int> signals) {
    ::sem_init(&told_to_end, 0, 0);
    for (const int signal : signals) {
        struct sigaction before {
        }, action{};
        ::sigaction(signal, nullptr, &before);
        if (signal == SIGHUP && before.sa_handler == SIG_IGN) continue;  // nohup
        action.sa_handler = on_end;
        ::sigaction(signal, &action, nullptr);
    }
}

/// Every edit that was answered is on the disk: what is still being worked out need not be waited for.
void end_at_the_latest_after(int microseconds) {
    ::signal(SIGALRM, [](int) { ::_exit(0); });
    const itimerval once{{0, 0}, {0, microseconds}};
    ::setitimer(ITIMER_REAL, &once, nullptr);
}

}  // namespace

Result<void> serve(const Options& options, const catalogue::Catalogue& catalogue,
                   const std::function<void(const Started&)>& started) {
    ::signal(SIGPIPE, SIG_IGN);
    ::signal(SIGXFSZ, SIG_IGN);              // a file that may not grow is told as a full disk is
    ::mallopt(M_TRIM_THRESHOLD, 512 << 20);  // a plant's memory is wanted again at the next edit
    ::mallopt(M_MMAP_THRESHOLD, 64 << 20);
    auto service = Service::start(options, catalogue);
    if (!service) return tl::unexpected(service.error());
    end_on({SIGINT, SIGTERM, SIGHUP});
    started({fmt::format("http://127.0.0.1:{}/", (*service)->port()), (*service)->jobs_file(), (*service)->remark()});
    while (::sem_wait(&told_to_end) != 0) {
    }
    end_at_the_latest_after(grace);
    (*service)->stop();
    return {};
}

}  // namespace bw::serve
