// SPDX-License-Identifier: MIT
// The program itself: started, told to end, killed.
#include <signal.h>
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
    void begin(int wanted = 0) {
        const auto out = (folder / "out").string(), err = (folder / "err").string(),
                   jobs = (folder / "jobs.db").string();
        fs::remove(out);
        child = ::fork();
        if (child == 0) {
            if (std::freopen(out.c_str(), "w", stdout) == nullptr || std::freopen(err.c_str(), "w", stderr) == nullptr)
                ::_exit(3);
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
};

TEST_F(Process, KilledDuringThreeHundredSavesNoneIsLost) {
    std::mt19937 chance(std::random_device{}());
    begin();
    ASSERT_GT(child, 0) << said("err");
    auto client = std::make_unique<httplib::Client>("127.0.0.1", port);
    const auto made = Json::parse(client->Post("/api/jobs", R"({"from":"starter"})", "application/json")->body);
    const auto at = "/api/jobs/" + made["id"].get<std::string>();
    int kept = 1, kills = 0;
    while (kept < 301) {
        // a killer strikes at any moment, in the middle of a save or between two
        std::thread killer([this, after = 300 + chance() % 4000] {
            std::this_thread::sleep_for(std::chrono::milliseconds(after));
            ::kill(child, SIGKILL);
        });
        client->set_keep_alive(true), client->set_tcp_nodelay(true);
        for (bool alive = true; alive && kept < 301;) {
            const Json edits{{{"path", {"preferences", "labour-rate"}}, {"value", 20 + kept}}};
            const auto reply = client->Patch(at, Json{{"revision", kept}, {"edits", edits}}.dump(), "application/json");
            alive = static_cast<bool>(reply);
            if (!alive) break;
            ASSERT_EQ(reply->status, 200) << reply->body;
            kept = Json::parse(reply->body)["revision"];
        }
        killer.join();
        ::waitpid(child, nullptr, 0);
        child = -1, ++kills;
        begin();
        ASSERT_GT(child, 0) << said("err");
        client = std::make_unique<httplib::Client>("127.0.0.1", port);
        const auto job = Json::parse(client->Get(at)->body);
        ASSERT_GE(job["revision"], kept);      // what was answered is there
        ASSERT_LE(job["revision"], kept + 1);  // and at most what was asked last
        kept = job["revision"];
        ASSERT_EQ(job["survey"]["preferences"]["labour-rate"], kept == 1 ? Json() : Json(20 + kept - 1));
    }
    EXPECT_GE(kills, 1);
    for (int i = kept; i > 1; --i) ASSERT_EQ(client->Post(at + "/undo", "", "application/json")->status, 200);
}

TEST_F(Process, CtrlCEndsItAtOnceWithAStreamOpen) {
    begin();
    ASSERT_GT(child, 0) << said("err");
    httplib::Client client("127.0.0.1", port);
    const auto made = Json::parse(client.Post("/api/jobs", R"({"from":"starter"})", "application/json")->body);
    Events page(port, made["id"]);
    page.view(1);
    const auto begin = std::chrono::steady_clock::now();
    const int how = end(SIGINT);
    EXPECT_TRUE(WIFEXITED(how) && WEXITSTATUS(how) == 0);
    EXPECT_LT(std::chrono::steady_clock::now() - begin, std::chrono::seconds(3));
    EXPECT_TRUE(page.ended(3));
    EXPECT_EQ(said("err"), "");
}

TEST_F(Process, ATakenPortIsSaidSo) {
    httplib::Server other;
    const int taken = other.bind_to_any_port("127.0.0.1");
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
