// SPDX-License-Identifier: MIT
#pragma once
// A server with a store of its own, and what a page does with it.

#include <arpa/inet.h>
#include <gtest/gtest.h>
#include <sys/socket.h>
#include <unistd.h>

#include <condition_variable>
#include <filesystem>
#include <map>
#include <mutex>
#include <set>
#include <thread>

#include "client.h"
#include "design/design.h"
#include "serve/server.h"
#include "survey/survey.h"
#include "text/toml.h"

namespace bw::test {

inline const catalogue::Catalogue& demo_catalogue() {
    static const auto loaded = *catalogue::load();
    return loaded;
}

inline std::string example_text(const std::string& path) {
    return *text::read_file(std::string(BANKWRIGHT_SOURCE) + "/" + path);
}

/// Reads a job's events as a page does.
class Events {
public:
    Events(int port, const std::string& job, const std::string& units = "us") : client_(port) {
        reader_ = std::thread([this, job, units] {
            client_.follow("/api/jobs/" + job + "/events?units=" + units, [this](std::string_view data) {
                take(data);
                return true;
            });
            const std::lock_guard lock(mutex_);
            ended_ = true;
            wake_.notify_all();
        });
    }
    ~Events() {
        client_.leave();
        reader_.join();
    }

    /// A `change` is given as the view it makes of the one before.
    struct Event {
        std::string name;
        Json data;
        bool from_change = false;
    };
    /// The first event from `from` on that satisfies; fails the test after `seconds`.
    template <class Wanted>
    Event await(Wanted wanted, int seconds = 60) {
        std::unique_lock lock(mutex_);
        std::size_t seen = 0;
        Event out;
        const bool there = wake_.wait_for(lock, std::chrono::seconds(seconds), [&] {
            for (; seen < events_.size(); ++seen)
                if (wanted(events_[seen])) {
                    out = events_[seen];
                    return true;
                }
            return ended_;
        });
        EXPECT_TRUE(there && !out.name.empty()) << "no such event came";
        return out;
    }
    Json view(int revision) {
        return await([&](const Event& e) { return e.name == "view" && e.data["revision"] == revision; }).data;
    }
    bool ended(int seconds) {
        std::unique_lock lock(mutex_);
        return wake_.wait_for(lock, std::chrono::seconds(seconds), [&] { return ended_; });
    }
    std::vector<Event> all() {
        const std::lock_guard lock(mutex_);
        return events_;
    }

private:
    void take(std::string_view data) {
        text_ += data;
        for (auto end = text_.find("\n\n"); end != std::string::npos; end = text_.find("\n\n")) {
            const auto block = text_.substr(0, end);
            text_.erase(0, end + 2);
            const auto name = block.find("event: "), body = block.find("\ndata: ");
            if (name != 0 || body == std::string::npos) continue;
            Event event{block.substr(7, body - 7), Json::parse(block.substr(body + 7))};
            if (event.name == "change") event = {"view", put_in(event.data), true};
            if (event.name == "view") base_ = event.data;
            const std::lock_guard lock(mutex_);
            events_.push_back(std::move(event));
            wake_.notify_all();
        }
    }
    Json put_in(const Json& change) const {
        EXPECT_EQ(change["since"], base_["revision"]);
        Json view = base_;
        for (const auto* key : {"revision", "settled"}) view[key] = change[key];
        for (const auto& [key, part] : change["parts"].items())
            if (part.is_null() && key != "layout")
                view.erase(key);
            else
                view[key] = part;
        std::map<std::string, Json> checks;
        Json order = Json::array();
        for (const auto& check : base_["checks"]) checks[check["id"]] = check, order.push_back(check["id"]);
        for (const auto& check : change["checks"]) checks[check["id"]] = check;
        view["checks"] = Json::array();
        for (const auto& id : change.value("order", order)) view["checks"].push_back(checks.at(id));
        return view;
    }

    Client client_;
    std::thread reader_;
    Json base_;
    std::mutex mutex_;
    std::condition_variable wake_;
    std::string text_;
    std::vector<Event> events_;
    bool ended_ = false;
};

/// A port of this computer that is taken.
class Listening {
public:
    explicit Listening(int port = 0) {
        address_.sin_family = AF_INET, address_.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
        address_.sin_port = htons(static_cast<std::uint16_t>(port));
        const int yes = 1;
        ::setsockopt(socket_, SOL_SOCKET, SO_REUSEADDR, &yes, sizeof yes);
        good_ =
            ::bind(socket_, reinterpret_cast<sockaddr*>(&address_), sizeof address_) == 0 && ::listen(socket_, 8) == 0;
    }
    ~Listening() { ::close(socket_); }
    Listening(const Listening&) = delete;
    Listening& operator=(const Listening&) = delete;
    [[nodiscard]] int port() const {
        auto address = address_;
        socklen_t size = sizeof address;
        ::getsockname(socket_, reinterpret_cast<sockaddr*>(&address), &size);
        return good_ ? ntohs(address.sin_port) : -1;
    }

private:
    int socket_ = ::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0);
    sockaddr_in address_{};
    bool good_ = false;
};

/// Short, and soon designed.
inline std::string small_survey() { return survey::starter(); }

class Served : public testing::Test {
protected:
    std::filesystem::path folder =
        std::filesystem::temp_directory_path() / ("bankwright-serve-" + std::to_string(::getpid()));
    std::string example = example_text("examples/wash-house.toml");
    std::vector<text::EmbeddedFile> examples{{"wash-house.toml", example}}, page_files;
    serve::Limits limits;
    std::unique_ptr<serve::Service> service;

    void SetUp() override {
        std::filesystem::remove_all(folder);
        std::filesystem::create_directories(folder);
        begin();
    }
    void TearDown() override {
        service.reset();
        std::filesystem::remove_all(folder);
    }
    void begin() {
        serve::Options options;
        options.port = 0;
        options.jobs = (folder / "jobs.db").string();
        options.version = "test";
        options.examples = examples;
        options.page = page_files;
        options.limits = limits;
        auto started = serve::Service::start(options, demo_catalogue());
        ASSERT_TRUE(started) << (started ? "" : units::describe(started.error()));
        service = std::move(*started);
    }

    [[nodiscard]] Client client() const { return Client(service->port()); }
    Reply get(const std::string& path) { return client().Get(path); }
    Reply post(const std::string& path, const Json& body = Json::object()) {
        return client().Post(path, body.dump(), "application/json");
    }
    Reply patch(const std::string& path, const Json& body) {
        return client().Patch(path, body.dump(), "application/json");
    }
    /// Sends bytes as they are; what comes back within a moment.
    std::string raw(std::string_view bytes) {
        Raw line(service->port());
        line.send(bytes);
        return line.answer();
    }
    [[nodiscard]] std::string ours() const { return "Host: 127.0.0.1:" + std::to_string(service->port()) + "\r\n"; }
    Reply edit(const std::string& job, int revision, const Json& path, const Json& value) {
        return patch("/api/jobs/" + job, {{"revision", revision}, {"edits", {{{"path", path}, {"value", value}}}}});
    }
    std::string fresh(const std::string& from = "starter") {
        const auto made = post("/api/jobs", {{"from", from}});
        EXPECT_EQ(made.status, 201) << made.body;
        return made.json()["id"];
    }
};

}  // namespace bw::test
