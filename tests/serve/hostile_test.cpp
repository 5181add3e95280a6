// SPDX-License-Identifier: MIT
// Callers who are no page of ours, or none at all.
#include "kit.h"

namespace bw::test {
namespace {

class Hostile : public Served {
protected:
    std::string get_as(const std::string& path, const std::string& headers) {
        return raw("GET " + path + " HTTP/1.1\r\nConnection: close\r\n" + headers + "\r\n");
    }
};

TEST_F(Hostile, ForeignNamesAreNotAnswered) {
    const auto port = std::to_string(service->port());
    for (const auto& host :
         std::vector<std::string>{"evil.example", "evil.example:" + port, "127.0.0.1.evil.example:" + port,
                                  "127.0.0.1:1", std::string("127.0.0.1"), "0.0.0.0:" + port})
        EXPECT_NE(get_as("/api/jobs", "Host: " + host + "\r\n").find(" 421 "), std::string::npos) << host;
    EXPECT_NE(get_as("/api/jobs", "").find(" 421 "), std::string::npos);
    EXPECT_NE(get_as("/api/jobs", ours() + "Host: evil.example\r\n").find(" 421 "), std::string::npos);
    for (const auto& host : {"127.0.0.1:" + port, "localhost:" + port, "[::1]:" + port})
        EXPECT_NE(get_as("/api/jobs", "Host: " + host + "\r\n").find(" 200 "), std::string::npos) << host;
}

TEST_F(Hostile, AnotherSitesPageChangesAndReadsNothing) {
    const auto port = std::to_string(service->port());
    const auto post = [&](const std::string& headers) {
        return raw("POST /api/jobs HTTP/1.1\r\nConnection: close\r\nContent-Length: 2\r\n" + ours() + headers +
                   "\r\n{}");
    };
    for (const auto& headers : {std::string("Content-Type: application/json\r\nOrigin: http://evil.example\r\n"),
                                std::string("Content-Type: application/json\r\nOrigin: null\r\n"),
                                "Content-Type: application/json\r\nOrigin: https://127.0.0.1:" + port + "\r\n",
                                std::string("Content-Type: application/json\r\nSec-Fetch-Site: cross-site\r\n"),
                                std::string("Content-Type: application/json\r\nSec-Fetch-Site: same-site\r\n")})
        EXPECT_NE(post(headers).find(" 403 "), std::string::npos) << headers;
    EXPECT_NE(post("Content-Type: text/plain\r\n").find(" 415 "), std::string::npos);
    EXPECT_NE(post("Content-Type: application/x-www-form-urlencoded\r\n").find(" 415 "), std::string::npos);
    EXPECT_NE(get_as("/api/jobs", ours() + "Sec-Fetch-Site: cross-site\r\n").find(" 403 "), std::string::npos);
    EXPECT_EQ(get("/api/jobs").json()["jobs"].size(), 0u);
    EXPECT_NE(post("Content-Type: application/json\r\nSec-Fetch-Site: same-origin\r\nOrigin: http://localhost:" + port +
                   "\r\n")
                  .find(" 201 "),
              std::string::npos);
}

TEST_F(Hostile, EveryAnswerCarriesItsShields) {
    for (const auto* path : {"/", "/api/jobs", "/nothing", "/api/nothing", "/api/jobs/x/events"}) {
        const auto reply = get(path);
        EXPECT_TRUE(reply.headers.find("Content-Security-Policy")->second.starts_with("default-src 'none'")) << path;
        EXPECT_EQ(reply.headers.find("X-Content-Type-Options")->second, "nosniff");
        EXPECT_EQ(reply.headers.count("Access-Control-Allow-Origin"), 0u);
        EXPECT_EQ(reply.headers.count("Server"), 0u);
    }
}

TEST_F(Hostile, PathsLeadNowhereElse) {
    for (const auto* path :
         {"/../etc/passwd", "/%2e%2e/%2e%2e/etc/passwd", "/assets/..%2f..%2fetc/passwd", "//etc/passwd",
          "/api/jobs/../../etc", "/api/jobs/%00", "/a\\b", "/api/jobs/x%0d%0aSet-Cookie:a=b", "/api/jobs/%c0%ae%c0%ae",
          "/api/jobs/';DROP TABLE jobs", "/api/jobs/a/b/c/d/e/f"}) {
        const auto answer = get_as(path, ours());
        EXPECT_TRUE(answer.starts_with("HTTP/1.1 40")) << path << answer.substr(0, 60);
        EXPECT_EQ(answer.find("root:"), std::string::npos);
        EXPECT_EQ(answer.find("\r\nSet-Cookie"), std::string::npos);
    }
    EXPECT_TRUE(get_as("/" + std::string(2000, 'a'), ours()).starts_with("HTTP/1.1 404"));
    EXPECT_TRUE(get_as("/" + std::string(20000, 'a'), ours()).find(" 200 ") == std::string::npos);
    EXPECT_EQ(get("/api/jobs").status, 200);
}

TEST_F(Hostile, OddBodiesAreRefusedAndHarmNothing) {
    const auto id = fresh();
    const auto at = "/api/jobs/" + id;
    const auto send = [&](const std::string& body) { return client().Patch(at, body, "application/json"); };
    for (const auto& body :
         {std::string(), std::string("null"), std::string("[]"), std::string("{"), std::string("{}"),
          std::string("\xff\xfe{}"), std::string(500000, '['),
          "{\"revision\":1,\"edits\":" + std::string(100000, '[') + std::string(100000, ']') + "}",
          std::string(R"({"revision":"1","edits":[]})"),
          std::string(R"({"revision":1,"edits":[{"path":["a"],"value":1e999}]})"),
          std::string(R"({"revision":1e300,"edits":[]})"), std::string("{\"revision\":1,\"edits\":7}")}) {
        const auto reply = send(body);
        EXPECT_TRUE(reply.status == 400 || reply.status == 409 || reply.status == 422)
            << body.substr(0, 60) << " " << reply.status;
        EXPECT_FALSE(reply.says().empty());
    }
    const auto large = client().Post("/api/jobs", std::string(2u << 20, ' '), "application/json");
    EXPECT_TRUE(large.status == 413 || large.status == 0) << large.status;  // or closed on the way
    EXPECT_TRUE(raw("PATCH " + at + " HTTP/1.1\r\n" + ours() +
                    "Content-Type: application/json\r\nContent-Length: 99999999999\r\n\r\n{")
                    .find(" 200 ") == std::string::npos);
    EXPECT_TRUE(
        raw("PATCH " + at + " HTTP/1.1\r\n" + ours() + "Content-Type: application/json\r\nContent-Length: -5\r\n\r\n{}")
            .find(" 200 ") == std::string::npos);
    EXPECT_TRUE(raw("\x16\x03\x01\x02\x00 no http at all\r\n\r\n").find(" 200 ") == std::string::npos);
    EXPECT_EQ(get(at).json()["newest"], 1);
}

TEST_F(Hostile, ScriptTextComesBackAsTextAlone) {
    const auto made = post("/api/jobs", {{"from", "starter"}, {"name", "<script>alert(1)</script>"}});
    ASSERT_EQ(made.status, 201);
    EXPECT_EQ(made.json()["name"], "<script>alert(1)</script>");
    EXPECT_EQ(get("/api/jobs").headers.find("Content-Type")->second, "application/json");
    const auto lost = get("/api/jobs/%3Cscript%3E");
    EXPECT_EQ(lost.status, 404);
    EXPECT_EQ(lost.body.find("script"), std::string::npos);
}

TEST_F(Hostile, TooManyPagesAreToldSo) {
    const auto id = fresh();
    std::vector<Raw> lines;
    int refused = 0;
    for (int i = 0; i < 120; ++i) {
        auto& line = lines.emplace_back(service->port());
        line.send("GET /api/jobs/" + id + "/events HTTP/1.1\r\n" + ours() + "\r\n");
        refused += line.begin(12) == "HTTP/1.1 503";
    }
    EXPECT_GE(refused, 20);
    EXPECT_LE(refused, 30);
    EXPECT_EQ(get("/api/jobs/" + id).status, 200);
}

}  // namespace
}  // namespace bw::test
