// SPDX-License-Identifier: MIT
// HTTP as a browser or a download program relies on it: RFC 9110 and 9112 (June 2022).
#include <zlib.h>

#include "kit.h"
#include "serve/gate.h"

namespace bw::test {
namespace {

std::string packed(const std::string& text) {
    z_stream stream{};
    EXPECT_EQ(deflateInit2(&stream, 9, Z_DEFLATED, 15 + 16, 8, Z_DEFAULT_STRATEGY), Z_OK);
    std::string out(text.size() + 100, '\0');
    stream.next_in = reinterpret_cast<Bytef*>(const_cast<char*>(text.data()));
    stream.avail_in = static_cast<uInt>(text.size());
    stream.next_out = reinterpret_cast<Bytef*>(out.data()), stream.avail_out = static_cast<uInt>(out.size());
    EXPECT_EQ(deflate(&stream, Z_FINISH), Z_STREAM_END);
    out.resize(stream.total_out);
    deflateEnd(&stream);
    return out;
}

class Http : public Served {
protected:
    std::string text = "<!doctype html><title>A page</title>" + std::string(3000, 'x'), gzip = packed(text);
    void SetUp() override {
        page_files = {{"index.html.gz", gzip}};
        Served::SetUp();
    }
};

/// RFC 9110, 14.2: a server may ignore Range. All is sent, whatever is asked for, and nothing else ever.
TEST_F(Http, ARangeIsIgnoredWhateverItAsksFor) {
    const auto id = fresh("example:wash-house");
    const std::vector<std::string> paths{"/",
                                         "/api/jobs",
                                         "/api/words",
                                         "/api/jobs/" + id + "/survey.toml",
                                         "/api/jobs/" + id + "/documents/parts.csv",
                                         "/nothing"};
    for (const auto& path : paths) {
        const auto whole = get(path);
        ASSERT_NE(whole.status, 0) << path;
        EXPECT_EQ(whole.header("Accept-Ranges"), "none") << path;
        for (const auto& range : {"bytes=0-0",
                                  "bytes=0-9",
                                  "bytes=5-",
                                  "bytes=-5",
                                  "bytes=-0",
                                  "bytes=0-9999999999",
                                  "bytes=639-",
                                  "bytes=100000-200000",
                                  "bytes=9999999999-",
                                  "bytes=-9999999999",
                                  "bytes=9-1",
                                  "bytes=0-1,3-4",
                                  "bytes=0-,0-,0-,0-,0-",
                                  "bytes=",
                                  "bytes",
                                  "bytes=a-b",
                                  "bytes=--1",
                                  "bytes=0x0-0x9",
                                  "bytes= 0 - 9",
                                  "bytes=18446744073709551615-",
                                  "bytes=1-18446744073709551616",
                                  "lines=1-2",
                                  ""}) {
            const auto part = client().Get(path, {{"Range", range}});
            EXPECT_EQ(part.status, whole.status) << path << " " << range;
            EXPECT_EQ(part.body, whole.body) << path << " " << range;
            EXPECT_EQ(part.header("Content-Range"), "") << path << " " << range;
        }
        EXPECT_EQ(client().Get(path, {{"Range", "bytes=0-9"}, {"If-Range", "\"x\""}}).body, whole.body) << path;
    }
    for (const auto& range : {"bytes=0-9999999999", "bytes=100000-200000", "bytes=9999999999-"}) {
        const auto answer = raw("GET / HTTP/1.1\r\nHost: evil.example\r\nRange: " + std::string(range) + "\r\n\r\n");
        EXPECT_TRUE(answer.starts_with("HTTP/1.1 421")) << answer.substr(0, 60);
        EXPECT_LT(answer.size(), 1500u);
    }
}

/// RFC 9110, 9.3.2.
TEST_F(Http, HeadTellsWhatGetWould) {
    const auto id = fresh("example:wash-house");
    const auto job = "/api/jobs/" + id;
    for (const auto& path : std::vector<std::string>{"/", "/api/words", "/api/jobs", job, job + "/survey.toml",
                                                     job + "/documents", job + "/view", job + "/checks/gas.meter",
                                                     job + "/documents/parts.csv", "/api/jobs/nobody", "/nothing"}) {
        get(path);  // where it is worked out, it is there afterwards
        const auto whole = get(path), head = client().Head(path);
        EXPECT_EQ(head.status, whole.status) << path;
        EXPECT_EQ(head.body, "") << path;
        for (const auto* name : {"Content-Length", "Content-Type", "ETag", "Cache-Control", "Content-Disposition",
                                 "Content-Encoding", "Content-Security-Policy"})
            EXPECT_EQ(head.header(name), whole.header(name)) << path << " " << name;
    }
    const auto events = raw("HEAD /api/jobs/" + id + "/events HTTP/1.1\r\n" + ours() + "\r\n");
    EXPECT_TRUE(events.starts_with("HTTP/1.1 200")) << events;
    EXPECT_NE(events.find("text/event-stream"), std::string::npos);
    EXPECT_TRUE(events.ends_with("\r\n\r\n"));
    EXPECT_TRUE(raw("HEAD /api/jobs/nobody/events HTTP/1.1\r\n" + ours() + "\r\n").starts_with("HTTP/1.1 404"));
}

TEST_F(Http, ARevisionThatIsNoNumberIsRefused) {
    const auto id = fresh();
    for (const std::string what : {"/view", "/survey.toml", "/documents", "/checks/gas.meter"}) {
        for (const auto& value : {"abc", "", "1a", "1.0", "2147483648", "4294967297", "99999999999999999999", "%31x"}) {
            const auto reply = get("/api/jobs/" + id + what + "?revision=" + value);
            EXPECT_EQ(reply.status, 400) << what << " " << value;
            EXPECT_NE(reply.says().find("revision"), std::string::npos) << reply.body;
        }
        EXPECT_EQ(get("/api/jobs/" + id + what + "?revision=7").status, 404) << what;
    }
    EXPECT_EQ(get("/api/jobs/" + id + "/survey.toml?revision=%31").status, 200);
}

TEST_F(Http, ThePageTravelsPackedOrPlainAndIsKeptByItsTag) {
    const auto plain = get("/");
    EXPECT_EQ(plain.body, text);
    EXPECT_EQ(plain.header("Content-Type"), "text/html; charset=utf-8");
    const auto tight = client().Get("/", {{"Accept-Encoding", "gzip, deflate, br"}});
    EXPECT_EQ(tight.body, gzip);
    EXPECT_EQ(tight.header("Content-Encoding"), "gzip");
    EXPECT_EQ(tight.header("Vary"), "Accept-Encoding");
    EXPECT_EQ(tight.header("Cache-Control"), "no-cache");
    const auto tag = tight.header("ETag");
    ASSERT_FALSE(tag.empty());
    const auto same = client().Get("/", {{"If-None-Match", tag}});
    EXPECT_EQ(same.status, 304);
    EXPECT_EQ(same.body, "");
    EXPECT_EQ(same.header("ETag"), tag);
    EXPECT_EQ(client().Get("/", {{"If-None-Match", "\"other\""}}).status, 200);
    EXPECT_EQ(get("/api/jobs").header("Cache-Control"), "no-store");
}

TEST_F(Http, ManyRequestsGoOverOneConnectionUntilItIsAskedToClose) {
    Raw line(service->port());
    for (int i = 0; i < 50; ++i) {
        line.send("GET /api/jobs HTTP/1.1\r\n" + ours() + "\r\n");
        ASSERT_TRUE(line.begin(12) == "HTTP/1.1 200") << i;
        (void)line.answer(30);
        ASSERT_FALSE(line.closed());
    }
    line.send("GET /api/jobs HTTP/1.1\r\nConnection: close\r\n" + ours() + "\r\n");
    EXPECT_NE(line.answer(2000).find("Connection: close"), std::string::npos);
    EXPECT_TRUE(line.closed());
    Raw old(service->port());
    old.send("GET /api/jobs HTTP/1.0\r\n" + ours() + "\r\n");
    EXPECT_NE(old.answer(2000).find(" 200 "), std::string::npos);
    EXPECT_TRUE(old.closed());
}

/// RFC 9110, 10.1.1.
TEST_F(Http, WhoeverAsksBeforeSendingABodyIsToldToGoOn) {
    const std::string body = R"({"from":"starter"})";
    const auto ask = [&](const std::string& more) {
        Raw line(service->port());
        line.send("POST /api/jobs HTTP/1.1\r\n" + ours() + more +
                  "Expect: 100-continue\r\nContent-Length: " + std::to_string(body.size()) + "\r\n\r\n");
        const auto first = line.begin(12);
        if (first == "HTTP/1.1 100") line.send(body);
        return first + line.answer(2000);
    };
    const auto made = ask("Content-Type: application/json\r\n");
    EXPECT_TRUE(made.starts_with("HTTP/1.1 100 Continue\r\n\r\nHTTP/1.1 201 ")) << made.substr(0, 80);
    EXPECT_TRUE(ask("Content-Type: text/plain\r\n").starts_with("HTTP/1.1 415"));
}

/// A large body refused: the answer arrives before the connection ends, though the body is still on its way.
TEST_F(Http, ABodyTooLargeIsToldSo) {
    const auto large = client().Post("/api/jobs", std::string(3u << 20, ' '), "application/json");
    EXPECT_EQ(large.status, 413);
    EXPECT_EQ(large.says(), "the request is larger than a survey can be");
    const auto most = client().Post("/api/jobs", std::string((1u << 20) - 2, ' ') + "{}", "application/json");
    EXPECT_EQ(most.status, 201);
}

/// Browsers leave out the port that the scheme has by itself.
TEST(Gate, ANameWithoutItsPortIsOursOnPort80Alone) {
    const auto asked = [](const std::string& host, const std::string& origin, int port) {
        serve::Request request;
        request.method = "POST", request.path = "/api/jobs", request.host = host, request.origin = origin;
        const auto no = serve::refused(request, port);
        return no ? no->status : 200;
    };
    for (const std::string name : {"127.0.0.1", "localhost", "[::1]"}) {
        EXPECT_EQ(asked(name, "", 80), 200);
        EXPECT_EQ(asked(name, "http://" + name, 80), 200);
        EXPECT_EQ(asked(name + ":80", "http://" + name + ":80", 80), 200);
        EXPECT_EQ(asked(name, "", 8317), 421);
        EXPECT_EQ(asked(name + ":8317", "http://" + name, 8317), 403);
        EXPECT_EQ(asked(name + ":", "", 80), 421);
        EXPECT_EQ(asked(name, "https://" + name, 80), 403);
    }
    EXPECT_EQ(asked("evil.example", "", 80), 421);
    EXPECT_EQ(asked("127.0.0.1", "http://evil.example", 80), 403);
}

}  // namespace
}  // namespace bw::test
