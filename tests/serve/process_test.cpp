// SPDX-License-Identifier: MIT
// The program itself: started, told to end, killed.
#include <signal.h>
#include <sys/resource.h>
#include <sys/wait.h>

#include <fstream>
#include <random>
#include <sstream>

#include "kit.h"

namespace bw::test {
namespace {

namespace fs = std::filesystem;

class Process : public testing::Test {
protected:
    fs::path folder = fs::temp_directory_path() / ("bankwright-process-" + std::to_string(::getpid()));
    pid_t child = -1;
    int port = 0;
    void SetUp() override { fs::create_directories(folder); }
    void TearDown() override {
        if (child > 0) end(SIGKILL);
        fs::remove_all(folder);
    }
    /// Starts `bankwright serve` and waits for its address; its messages go to files.
    void begin(
        int wanted = 0, const std::function<void()>& first = [] {}) {
        const auto out = (folder / "out").string(), err = (folder / "err").string(),
                   jobs = (folder / "jobs.db").string();
        fs::remove(out);
        child = ::fork();
        if (child == 0) {
            if (std::freopen(out.c_str(), "w", stdout) == nullptr || std::freopen(err.c_str(), "w", stderr) == nullptr)
                ::_exit(3);
            first();
            const auto program = std::string(BANKWRIGHT_BINARY) + "/bankwright", at = std::to_string(wanted);
            ::execl(program.c_str(), "bankwright", "serve", "--no-open", "--port", at.c_str(), "--jobs", jobs.c_str(),
                    static_cast<char*>(nullptr));
            ::_exit(4);
        }
        for (int i = 0; i < 200 && said("out").find('\n') == std::string::npos; ++i) {
            if (::waitpid(child, &status, WNOHANG) == child) {
                child = -1;
                return;
            }
            std::this_thread::sleep_for(std::chrono::milliseconds(50));
        }
        const auto line = said("out");
        port = std::stoi(line.substr(line.find("127.0.0.1:") + 10));
    }
    int end(int signal) {
        ::kill(child, signal);
        ::waitpid(child, &status, 0);
        child = -1;
        return status;
    }
    std::string said(const std::string& where) const {
        std::ifstream in(folder / where);
        std::stringstream text;
        text << in.rdbuf();
        return text.str();
    }
    int status = 0;
    /// Work for a while, asked for by many at once, that nobody waits for.
    std::vector<Raw> much_work() const {
        Client client(port);
        const auto text = Json{{"toml", example_text("examples/sports-hall.toml")}}.dump();
        const std::string id = client.Post("/api/jobs", text, "application/json").json()["id"];
        std::vector<Raw> lines;
        for (int i = 0; i < 24; ++i) {
            const auto body = Json{{"edits", {{{"path", {"preferences", "labour-rate"}}, {"value", 100 + i}}}}}.dump();
            lines.emplace_back(port).send("POST /api/jobs/" + id + "/try HTTP/1.1\r\nHost: 127.0.0.1:" +
                                          std::to_string(port) + "\r\nContent-Type: application/json\r\n" +
                                          "Content-Length: " + std::to_string(body.size()) + "\r\n\r\n" + body);
        }
        std::this_thread::sleep_for(std::chrono::milliseconds(300));
        return lines;
    }
    /// Milliseconds until it is gone, told by these signals, a moment apart.
    long ended_by(const std::vector<int>& signals) {
        const auto begin = std::chrono::steady_clock::now();
        for (const int signal : signals) {
            ::kill(child, signal);
            if (&signal != &signals.back()) std::this_thread::sleep_for(std::chrono::milliseconds(50));
        }
        ::waitpid(child, &status, 0);
        child = -1;
        return std::chrono::duration_cast<std::chrono::milliseconds>(std::chrono::steady_clock::now() - begin).count();
    }
};

void limit(int what, rlim_t most) {
    const rlimit both{most, most};
    if (::setrlimit(static_cast<__rlimit_resource>(what), &both) != 0) ::_exit(5);
}

TEST_F(Process, KilledDuringThreeHundredSavesNoneIsLost) {
    std::mt19937 chance(std::random_device{}());
    begin();
    ASSERT_GT(child, 0) << said("err");
    auto client = std::make_unique<Client>(port);
    const auto made = Json::parse(client->Post("/api/jobs", R"({"from":"starter"})", "application/json").body);
    const auto at = "/api/jobs/" + made["id"].get<std::string>();
    int kept = 1, kills = 0;
    while (kept < 301) {
        // a killer strikes at any moment, in the middle of a save or between two
        std::thread killer([this, after = 300 + chance() % 4000] {
            std::this_thread::sleep_for(std::chrono::milliseconds(after));
            ::kill(child, SIGKILL);
        });
        for (bool alive = true; alive && kept < 301;) {
            const Json edits{{{"path", {"preferences", "labour-rate"}}, {"value", 20 + kept}}};
            const auto reply = client->Patch(at, Json{{"revision", kept}, {"edits", edits}}.dump(), "application/json");
            alive = static_cast<bool>(reply);
            if (!alive) break;
            ASSERT_EQ(reply.status, 200) << reply.body;
            kept = Json::parse(reply.body)["revision"];
        }
        killer.join();
        ::waitpid(child, nullptr, 0);
        child = -1, ++kills;
        begin();
        ASSERT_GT(child, 0) << said("err");
        client = std::make_unique<Client>(port);
        const auto job = Json::parse(client->Get(at).body);
        ASSERT_GE(job["revision"], kept);      // what was answered is there
        ASSERT_LE(job["revision"], kept + 1);  // and at most what was asked last
        kept = job["revision"];
        ASSERT_EQ(job["survey"]["preferences"]["labour-rate"], kept == 1 ? Json() : Json(20 + kept - 1));
    }
    EXPECT_GE(kills, 1);
    for (int i = kept; i > 1; --i) ASSERT_EQ(client->Post(at + "/undo", "", "application/json").status, 200);
}

TEST_F(Process, CtrlCEndsItAtOnceWithAStreamOpen) {
    begin();
    ASSERT_GT(child, 0) << said("err");
    Client client(port);
    const auto made = Json::parse(client.Post("/api/jobs", R"({"from":"starter"})", "application/json").body);
    Events page(port, made["id"]);
    page.view(1);
    const auto begin = std::chrono::steady_clock::now();
    const int how = end(SIGINT);
    EXPECT_TRUE(WIFEXITED(how) && WEXITSTATUS(how) == 0);
    EXPECT_LT(std::chrono::steady_clock::now() - begin, std::chrono::seconds(3));
    EXPECT_TRUE(page.ended(3));
    EXPECT_EQ(said("err"), "");
}

TEST_F(Process, ItEndsWithinASecondWhateverItDoes) {
    for (const int signal : {SIGINT, SIGTERM, SIGHUP}) {
        begin();
        ASSERT_GT(child, 0) << said("err");
        const auto lines = much_work();
        EXPECT_LT(ended_by({signal}), 1200);
        EXPECT_TRUE(WIFEXITED(status) && WEXITSTATUS(status) == 0) << signal;
        EXPECT_EQ(said("err"), "");
    }
}

TEST_F(Process, ToldTwiceItEndsAtOnce) {
    begin();
    ASSERT_GT(child, 0) << said("err");
    const auto lines = much_work();
    EXPECT_LT(ended_by({SIGINT, SIGTERM}), 400);
    EXPECT_TRUE(WIFEXITED(status) && WEXITSTATUS(status) == 128 + SIGTERM);
}

TEST_F(Process, WithFewFilesItTellsSoAndStillAnswers) {
    begin(0, [] { limit(RLIMIT_NOFILE, 40); });
    ASSERT_GT(child, 0) << said("err");
    EXPECT_NE(said("err").find("connections at once"), std::string::npos) << said("err");
    std::vector<Raw> lines;
    for (int i = 0; i < 200; ++i) lines.emplace_back(port).send(i % 2 == 0 ? "GET / HT" : "");
    for (int i = 0; i < 5; ++i) {
        Client client(port);
        const auto begin = std::chrono::steady_clock::now();
        EXPECT_EQ(client.Get("/api/jobs").status, 200);
        EXPECT_EQ(client.Post("/api/jobs", R"({"from":"starter"})", "application/json").status, 201);
        EXPECT_LT(std::chrono::steady_clock::now() - begin, std::chrono::seconds(2));
    }
    const auto told = said("err");
    EXPECT_EQ(std::count(told.begin(), told.end(), '\n'), 1) << told;
    EXPECT_LT(ended_by({SIGTERM}), 1200);
}

TEST_F(Process, WithoutAThreadToBeHadItSaysSo) {
    begin(0, [] { limit(RLIMIT_STACK, rlim_t{1} << 47); });  // which every thread's would take
    ASSERT_EQ(child, -1);
    ASSERT_TRUE(WIFEXITED(status)) << "ended by signal " << WTERMSIG(status) << ": " << said("err");
    EXPECT_EQ(WEXITSTATUS(status), 1);
    EXPECT_NE(said("err").find("no thread could be started"), std::string::npos) << said("err");
}

/// Enough threads to start with, and then no more.
TEST_F(Process, WithFewThreadsItStillAnswers) {
    if (::geteuid() != 0) GTEST_SKIP() << "wants a user of its own, which only root can become";
    fs::permissions(folder, fs::perms::all);
    const auto threads = std::clamp(static_cast<int>(std::thread::hardware_concurrency()), 1, 8) + 5;
    for (int most = 1; most <= threads + 1; ++most) {
        fs::remove(folder / "jobs.db");
        begin(0, [most] {
            limit(RLIMIT_NPROC, static_cast<rlim_t>(most));
            if (::setgid(65534) != 0 || ::setuid(65534) != 0) ::_exit(6);
        });
        if (child < 0) {
            ASSERT_TRUE(WIFEXITED(status)) << most << ": ended by signal " << WTERMSIG(status) << ": " << said("err");
            EXPECT_EQ(WEXITSTATUS(status), 1);
            EXPECT_NE(said("err").find("no thread could be started"), std::string::npos) << said("err");
            EXPECT_LE(most, threads) << said("err");
            continue;
        }
        const auto lines = much_work();
        Client client(port);
        EXPECT_EQ(client.Get("/api/jobs").status, 200);
        EXPECT_EQ(client.Post("/api/jobs", R"({"from":"starter"})", "application/json").status, 201);
        std::this_thread::sleep_for(std::chrono::milliseconds(500));
        EXPECT_EQ(client.Get("/api/words").status, 200);
        EXPECT_LT(ended_by({SIGTERM}), 1200);
        EXPECT_TRUE(WIFEXITED(status) && WEXITSTATUS(status) == 0) << most << said("err");
    }
}

TEST_F(Process, ATakenPortIsSaidSo) {
    const Listening other;
    const int taken = other.port();
    begin(taken);
    ASSERT_EQ(child, -1);
    EXPECT_EQ(WEXITSTATUS(status), 1);
    EXPECT_NE(said("err").find("port " + std::to_string(taken) + " is taken"), std::string::npos) << said("err");
}

TEST_F(Process, AFileThatIsNoStoreIsSaidSo) {
    std::ofstream(folder / "jobs.db") << std::string(5000, 'x');
    begin();
    ASSERT_EQ(child, -1);
    EXPECT_EQ(WEXITSTATUS(status), 1);
    EXPECT_NE(said("err").find("no store of jobs"), std::string::npos) << said("err");
}

}  // namespace
}  // namespace bw::test
