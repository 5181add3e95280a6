// SPDX-License-Identifier: MIT
// Very many callers, slow ones, and ones that never read.
#include <sys/resource.h>

#include "kit.h"

namespace bw::test {
namespace {

using Clock = std::chrono::steady_clock;

class Crowd : public Served {
protected:
    void SetUp() override {
        Served::SetUp();
        rlimit files{};
        ::getrlimit(RLIMIT_NOFILE, &files);
        files.rlim_cur = files.rlim_max;  // both ends are in this process
        ::setrlimit(RLIMIT_NOFILE, &files);
    }
    /// The longest of a few ordinary requests and an edit, in milliseconds.
    long longest(const std::string& id, int& revision) {
        long most = 0;
        const auto timed = [&](const auto& ask) {
            const auto begin = Clock::now();
            EXPECT_EQ(ask().status, 200);
            most = std::max<long>(most,
                                  std::chrono::duration_cast<std::chrono::milliseconds>(Clock::now() - begin).count());
        };
        for (int i = 0; i < 5; ++i) {
            timed([&] { return get("/api/jobs/" + id); });
            timed([&] { return get("/"); });
            timed([&] { return edit(id, revision, {"preferences", "labour-rate"}, 90 + revision); });
            ++revision;
        }
        return most;
    }
};

TEST_F(Crowd, FiveThousandConnectionsAndFiveHundredSlowOnesLeaveThePageUsable) {
    const auto id = fresh();
    int revision = 1;
    std::vector<Raw> lines;
    lines.reserve(6000);
    const auto most_of = [&](int more, const std::function<std::string(int)>& begin) {
        long most = 0;
        for (int i = 0; i < more; ++i) {
            lines.emplace_back(service->port()).send(begin(i));
            if (i % 1000 == 999) most = std::max(most, longest(id, revision));
        }
        return std::max(most, longest(id, revision));
    };
    // silent ones, and ones that begin a request
    EXPECT_LT(most_of(5000, [](int i) { return i % 2 == 0 ? "" : "GET / HT"; }), 500);
    // ones that send a head and leave the body
    const auto head =
        "POST /api/jobs HTTP/1.1\r\n" + ours() + "Content-Type: application/json\r\nContent-Length: 1000000\r\n\r\n{";
    EXPECT_LT(most_of(250, [&](int) { return head; }), 500);
    // ones that go on and on with a header
    const auto from = lines.size();
    EXPECT_LT(most_of(250, [&](int) { return "GET / HTTP/1.1\r\n"; }), 500);
    for (int turn = 0; turn < 3; ++turn) {
        for (auto at = from; at < lines.size(); ++at) lines[at].send("X-Slow: 1\r\n");
        EXPECT_LT(longest(id, revision), 500);
    }
    const auto open = std::count_if(lines.begin(), lines.end(), [](const Raw& line) { return line.still_open(); });
    EXPECT_GT(open, 100);
    EXPECT_LT(open, 1100);
}

class Slow : public Served {
protected:
    void SetUp() override {
        limits.request = limits.answer = std::chrono::seconds(2);
        limits.idle = std::chrono::seconds(4);
        Served::SetUp();
    }
};

/// A request must arrive whole within its time, whatever trickles in.
TEST_F(Slow, WhoeverTricklesIsCutOff) {
    Raw silent(service->port()), trickle(service->port()), body(service->port()), kept(service->port());
    const auto begin = Clock::now();
    body.send("POST /api/jobs HTTP/1.1\r\n" + ours() + "Content-Type: application/json\r\nContent-Length: 99\r\n\r\n");
    trickle.send("GET / HTTP/1.1\r\n");
    kept.send("GET /api/words HTTP/1.1\r\n" + ours() + "\r\n");
    (void)kept.answer(100);
    bool trickle_open = true, body_open = true;
    while (Clock::now() - begin < std::chrono::seconds(8) && (trickle_open || body_open)) {
        std::this_thread::sleep_for(std::chrono::milliseconds(200));
        trickle.send("X: 1\r\n"), body.send(" ");
        trickle_open = trickle.still_open(), body_open = body.still_open();
    }
    EXPECT_FALSE(trickle_open);
    EXPECT_FALSE(body_open);
    EXPECT_GT(Clock::now() - begin, std::chrono::milliseconds(1500));
    EXPECT_LT(Clock::now() - begin, std::chrono::milliseconds(3500));
    EXPECT_TRUE(silent.still_open());
    EXPECT_TRUE(kept.still_open());
    std::this_thread::sleep_until(begin + std::chrono::seconds(6));
    EXPECT_FALSE(silent.still_open());
    EXPECT_FALSE(kept.still_open());
}

/// Both ends of every connection are in this process.
std::ptrdiff_t open_files() {
    return std::distance(std::filesystem::directory_iterator("/proc/self/fd"), std::filesystem::directory_iterator());
}

/// Who follows a job and never reads is dropped; who reads is not.
TEST_F(Slow, WhoFollowsAndNeverReadsIsDropped) {
    const auto id = fresh("example:wash-house");
    Events page(service->port(), id);
    page.view(1);
    constexpr int many = 12;
    const auto before = open_files();
    std::vector<Raw> deaf;
    for (int i = 0; i < many; ++i) {
        deaf.emplace_back(service->port(), 4096);
        deaf.back().send("GET /api/jobs/" + id + "/events HTTP/1.1\r\n" + ours() + "\r\n");
        EXPECT_EQ(deaf.back().begin(12), "HTTP/1.1 200");
    }
    EXPECT_GE(open_files(), before + 2 * many - 4);
    // an edit's own connection may still be on its way out
    const auto cut_off = [&] { return open_files() <= before + many + 4; };
    for (int revision = 1; revision < 300 && !cut_off(); ++revision) {
        ASSERT_EQ(edit(id, revision, {"building", "fixtures", "shower-public"}, 3 + revision % 6).status, 200);
        page.view(revision + 1);
    }
    EXPECT_TRUE(cut_off());
    EXPECT_FALSE(page.ended(0));
}

/// An answer that nobody takes does not keep its connection.
TEST_F(Slow, WhoAsksAndNeverReadsIsDropped) {
    const auto id = fresh("example:wash-house");
    get("/api/jobs/" + id + "/view");
    constexpr int many = 8;
    const auto before = open_files();
    std::vector<Raw> deaf;
    for (int k = 0; k < many; ++k) {
        deaf.emplace_back(service->port(), 4096);
        for (int i = 0; i < 40; ++i) deaf.back().send("GET /api/jobs/" + id + "/view HTTP/1.1\r\n" + ours() + "\r\n");
    }
    // The server's ends are counted: whether the deaf side hears of its end depends on what still lies unread.
    const auto within = [](std::chrono::seconds limit, const auto& so) {
        for (const auto begin = Clock::now(); !so() && Clock::now() - begin < limit;)
            std::this_thread::sleep_for(std::chrono::milliseconds(20));
        return so();
    };
    ASSERT_TRUE(within(std::chrono::seconds(5), [&] { return open_files() >= before + 2 * many - 2; }));
    EXPECT_TRUE(within(std::chrono::seconds(20), [&] { return open_files() <= before + many + 1; }));
}

class Few : public Served {
protected:
    void SetUp() override {
        limits.connections = 4;
        Served::SetUp();
    }
};

TEST_F(Few, WhereAllAreAtWorkOneMoreIsToldSo) {
    const auto id = fresh();
    std::vector<Raw> following;
    for (int i = 0; i < 4; ++i) {
        following.emplace_back(service->port()).send("GET /api/jobs/" + id + "/events HTTP/1.1\r\n" + ours() + "\r\n");
        EXPECT_EQ(following.back().begin(12), "HTTP/1.1 200");
    }
    const auto one_more = get("/api/jobs");
    EXPECT_EQ(one_more.status, 503);
    EXPECT_EQ(one_more.says(), "too many ask at once");
    EXPECT_EQ(one_more.header("X-Content-Type-Options"), "nosniff");
    following.pop_back();
    std::this_thread::sleep_for(std::chrono::milliseconds(300));
    EXPECT_EQ(get("/api/jobs").status, 200);
}

TEST_F(Crowd, ThePlaceOfAPageThatIsGoneIsFreeAgain) {
    const auto id = fresh();
    for (int round = 0; round < 3; ++round) {
        std::vector<Raw> lines;
        for (int i = 0; i < 90; ++i)
            lines.emplace_back(service->port()).send("GET /api/jobs/" + id + "/events HTTP/1.1\r\n" + ours() + "\r\n");
        for (const auto& line : lines) EXPECT_EQ(line.begin(12), "HTTP/1.1 200") << round;
        lines.clear();
        std::this_thread::sleep_for(std::chrono::milliseconds(300));
    }
}

}  // namespace
}  // namespace bw::test
