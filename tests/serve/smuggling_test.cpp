// SPDX-License-Identifier: MIT
// Whatever follows a request that is refused or cannot be measured is never taken for a request: RFC 9112 (HTTP/1.1,
// June 2022), 6.1, 6.3 and 11.2.
#include "kit.h"

namespace bw::test {
namespace {

struct Form {
    std::string name, head, body = "INNER";
};

class Smuggling : public Served {
protected:
    [[nodiscard]] std::string inner() const {
        return "POST /api/jobs HTTP/1.1\r\n" + ours() +
               "Content-Type: application/json\r\nContent-Length: 18\r\n\r\n{\"from\":\"starter\"}";
    }
    /// OURS, INNER and SIZE of the form put in.
    [[nodiscard]] std::string bytes(const Form& form) const {
        const auto put = [](std::string text, const std::string& word, const std::string& by) {
            for (auto at = text.find(word); at != std::string::npos; at = text.find(word, at + by.size()))
                text.replace(at, word.size(), by);
            return text;
        };
        const auto body = put(form.body, "INNER", inner());
        return put(put(form.head, "OURS\r\n", ours()), "SIZE", std::to_string(body.size())) + "\r\n" + body;
    }
    static std::size_t answers(const std::string& text) {
        std::size_t count = 0;
        for (auto at = text.find("HTTP/1.1 "); at != std::string::npos; at = text.find("HTTP/1.1 ", at + 1)) ++count;
        return count;
    }
    /// One answer at most, a refusal, then the end; and the inner request was not run.
    void refused(const Form& form) {
        Raw line(service->port());
        line.send(bytes(form));
        const auto answer = line.answer(2500);
        EXPECT_TRUE(line.closed()) << form.name << ": left open after " << answer.substr(0, 60);
        EXPECT_LE(answers(answer), 1u) << form.name;
        EXPECT_TRUE(answer.starts_with("HTTP/1.1 4") || answer.starts_with("HTTP/1.1 5"))
            << form.name << ": " << answer.substr(0, 60);
        EXPECT_NE(answer.find("Content-Security-Policy: "), std::string::npos) << form.name;
        EXPECT_EQ(get("/api/jobs").json()["jobs"].size(), 0u) << form.name << " ran a second request";
        for (const auto& job : get("/api/jobs").json()["jobs"])
            client().Delete("/api/jobs/" + job["id"].get<std::string>());
    }
};

const std::string json = "Content-Type: application/json\r\n", size = "Content-Length: SIZE\r\n",
                  posted = "POST /api/jobs HTTP/1.1\r\nOURS\r\n", chunked = "Transfer-Encoding: chunked\r\n";

TEST_F(Smuggling, TheBodyOfWhatTheGateRefusesIsNoRequest) {
    const std::vector<Form> forms{
        {"403 by origin", posted + json + size + "Origin: http://evil.example\r\n"},
        {"403 by origin null", posted + json + size + "Origin: null\r\n"},
        {"403 by site", posted + json + size + "Sec-Fetch-Site: cross-site\r\n"},
        {"403 by site, a GET", "GET /api/jobs HTTP/1.1\r\nOURS\r\nSec-Fetch-Site: cross-site\r\n" + size},
        {"403 in chunks", posted + json + chunked + "Origin: http://evil.example\r\n", "0\r\n\r\nINNER"},
        {"415 a plain form's text", posted + "Content-Type: text/plain\r\n" + size},
        {"415 a form", posted + "Content-Type: application/x-www-form-urlencoded\r\n" + size},
        {"415 no type", posted + size},
        {"415 in chunks", posted + "Content-Type: text/plain\r\n" + chunked},
        {"421 another name", "POST /api/jobs HTTP/1.1\r\nHost: evil.example\r\n" + json + size},
        {"421 no name", "POST /api/jobs HTTP/1.1\r\n" + json + size},
        {"421 two names", posted + "OURS\r\n" + json + size},
        {"404 an odd path", "POST /api//jobs HTTP/1.1\r\nOURS\r\n" + json + size},
        {"404 a whole address", "POST http://127.0.0.1/api/jobs HTTP/1.1\r\nOURS\r\n" + json + size},
        {"405 an unknown method", "BREW /api/jobs HTTP/1.1\r\nOURS\r\n" + json + size},
        {"405 trace", "TRACE /api/jobs HTTP/1.1\r\nOURS\r\n" + json + size},
        {"405 connect", "CONNECT 127.0.0.1:80 HTTP/1.1\r\nOURS\r\n" + json + size},
        {"414 a long address", "POST /" + std::string(9000, 'a') + " HTTP/1.1\r\nOURS\r\n" + json + size},
        {"431 a long header", posted + "X-Long: " + std::string(20000, 'a') + "\r\n" + json + size},
        {"413 a long body", posted + json + "Content-Length: 99999999\r\n"},
        {"416 a range", "POST /nothing HTTP/1.1\r\nHost: evil.example\r\nRange: bytes=9-1\r\n" + json + size},
        {"417 an unknown wish", posted + json + size + "Expect: miracles\r\n"}};
    for (const auto& form : forms) refused(form);
}

TEST_F(Smuggling, WhatCarriesNoBodyIsRefusedWithOne) {
    for (const std::string method : {"GET", "HEAD", "OPTIONS", "DELETE"})
        for (const auto& path : {"/api/jobs", "/", "/api/jobs/nothing"}) {
            const auto head = method + " " + path + " HTTP/1.1\r\nOURS\r\n";
            refused({method + " with a length", head + size});
            refused({method + " with a length and a type", head + json + size});
            refused({method + " in chunks", head + json + chunked, "0\r\n\r\nINNER"});
        }
}

TEST_F(Smuggling, ABodyMeasuredTwiceOrOddlyIsRefused) {
    std::vector<Form> forms{
        {"length and chunks", posted + json + "Content-Length: 5\r\n" + chunked, "0\r\n\r\nINNER"},
        {"chunks and length", posted + json + chunked + "Content-Length: 5\r\n", "0\r\n\r\nINNER"},
        {"length 0 and chunks", posted + json + "Content-Length: 0\r\n" + chunked, "0\r\n\r\nINNER"},
        {"two lengths", posted + json + "Content-Length: 0\r\n" + size},
        {"two lengths, other way", posted + json + size + "Content-Length: 0\r\n"},
        {"twice the same length", posted + json + "Content-Length: 0\r\nContent-Length: 0\r\n"},
        {"chunks twice", posted + json + chunked + chunked, "0\r\n\r\nINNER"},
        {"chunks in HTTP/1.0", "POST /api/jobs HTTP/1.0\r\nOURS\r\n" + json + chunked, "0\r\n\r\nINNER"},
        {"no version", "POST /api/jobs\r\nOURS\r\n" + json + size},
        {"another version", "POST /api/jobs HTTP/2.0\r\nOURS\r\n" + json + size},
        {"a small version", "POST /api/jobs http/1.1\r\nOURS\r\n" + json + size},
        {"a long version", "POST /api/jobs HTTP/1.10\r\nOURS\r\n" + json + size},
        {"a tab in the first line", "POST\t/api/jobs HTTP/1.1\r\nOURS\r\n" + json + size},
        {"two blanks in the first line", "POST  /api/jobs HTTP/1.1\r\nOURS\r\n" + json + size},
        {"an empty line first", "\r\nPOST /nothing HTTP/1.1\r\nOURS\r\n" + json + size}};
    for (const auto& value : {"+SIZE", "-5", "0x0", "0x10", "SIZE, SIZE", "0, SIZE", "0 SIZE", "5 0", "1e1", "", " ",
                              "0;", "\"0\"", "00", "0.0", "18446744073709551616", "18446744073709551626"})
        forms.push_back({std::string("length ") + value, posted + json + "Content-Length: " + value + "\r\n"});
    for (const auto& value : {"identity", "xchunked", "chunkedx", "chunked, chunked", "chunked, identity",
                              "identity, chunked", "gzip, chunked", "chunked;q=1", "\"chunked\"", "chun ked",
                              "\x0b"
                              "chunked",
                              "", ",", "chunked,"})
        for (const auto& body : {"INNER", "0\r\n\r\nINNER"})
            forms.push_back(
                {std::string("encoding ") + value, posted + json + "Transfer-Encoding: " + value + "\r\n", body});
    for (const auto& form : forms) refused(form);
}

TEST_F(Smuggling, AHeaderThatOthersMayReadOtherwiseIsRefused) {
    const std::string nul(1, '\0');
    const std::vector<Form> forms{
        {"folded", posted + json + "X-A: 1\r\n Content-Length: 0\r\n" + size},
        {"folded by a tab", posted + json + "X-A: 1\r\n\t2\r\n" + size},
        {"a length folded", posted + json + "Content-Length:\r\n 0\r\n"},
        {"chunks folded", posted + json + "Transfer-Encoding:\r\n chunked\r\n", "0\r\n\r\nINNER"},
        {"a blank line of blanks", posted + json + " \r\n" + size},
        {"the first header folded", "POST /api/jobs HTTP/1.1\r\n X: y\r\nOURS\r\n" + json + size},
        {"a blank before the colon", posted + json + "Content-Length : 0\r\n"},
        {"a tab before the colon", posted + json + "Content-Length\t: 0\r\n"},
        {"chunks, a blank before the colon", posted + json + "Transfer-Encoding : chunked\r\n", "0\r\n\r\nINNER"},
        {"no colon", posted + json + "Content-Length 0\r\n"},
        {"no name", posted + json + ": 0\r\n"},
        {"a name in brackets", posted + json + "Content(Length): 0\r\n"},
        {"a bare line feed", posted + json + "X-A: 1\nContent-Length: 0\r\n"},
        {"bare line feeds throughout", "POST /api/jobs HTTP/1.1\nOURS\r\n" + json + size},
        {"a head ended by bare line feeds", "POST /nothing HTTP/1.1\r\nOURS\r\nContent-Length: 0\n\nINNER"},
        {"a bare carriage return", posted + json + "X-A: 1\rContent-Length: 0\r\n" + size},
        {"a carriage return too many", posted + json + "X-A: 1\r\r\n" + size},
        {"NUL in a value", posted + json + "X-A: 1" + nul + "2\r\n" + size},
        {"NUL in a name", posted + json + "X" + nul + ": 1\r\n" + size},
        {"NUL in a length", posted + json + "Content-Length: 0" + nul + "\r\n"},
        {"NUL in the address", "POST /api/jobs" + nul + " HTTP/1.1\r\nOURS\r\n" + json + size},
        {"a control character", posted + json + "X-A: 1\x01\r\n" + size},
        {"two types", posted + "Content-Type: text/plain\r\n" + json + size},
        {"two origins", posted + json + size + "Origin: http://127.0.0.1\r\nOrigin: http://evil.example\r\n"},
        {"many headers", [] {
             std::string head = posted;
             for (int i = 0; i < 300; ++i) head += "X-" + std::to_string(i) + ": 1\r\n";
             return head + json + size;
         }()}};
    for (const auto& form : forms) refused(form);
}

TEST_F(Smuggling, AChunkThatIsNoChunkIsRefused) {
    for (const auto& body : {"0x0\r\n\r\nINNER",
                             "-1\r\n\r\nINNER",
                             "+0\r\n\r\nINNER",
                             "g\r\n\r\nINNER",
                             "\r\n\r\nINNER",
                             " 0\r\n\r\nINNER",
                             "0\n\nINNER",
                             "0\r\nINNER",
                             "0\n\r\n\r\nINNER",
                             "2\r\n{}0\r\n\r\nINNER",
                             "2\r\n{}XX0\r\n\r\nINNER",
                             "2\r\n{}\n0\r\n\r\nINNER",
                             "2\n{}\r\n0\r\n\r\nINNER",
                             "ffffffffffffffff\r\nINNER",
                             "10000000000000000\r\nINNER",
                             "0\r\nX : 1\r\n\r\nINNER",
                             "0\r\n X: 1\r\n\r\nINNER",
                             "7fffffffffffffff\r\nINNER",
                             "2;a\nb\r\n{}\r\n0\r\n\r\nINNER",
                             "0_1\r\n{\r\n0\r\n\r\nINNER",
                             "0 1\r\n{\r\n0\r\n\r\nINNER"})
        refused({std::string("chunk ") + body, posted + json + chunked, body});
}

/// Chunks as RFC 9112, 7.1 has them are read; the connection ends with them, so that nothing can follow.
TEST_F(Smuggling, ABodyInChunksIsTheLastOfItsConnection) {
    const auto ask = [&](const std::string& value, const std::string& body) {
        Raw line(service->port());
        line.send(bytes({"", posted + json + "Transfer-Encoding: " + value + "\r\n", body}));
        const auto answer = line.answer(2500);
        EXPECT_TRUE(line.closed()) << body;
        EXPECT_EQ(answers(answer), 1u) << body;
        return answer;
    };
    int made = 0;
    for (const auto& value : {"chunked", "CHUNKED", "Chunked", " chunked "})
        for (const auto& body : {"12\r\n{\"from\":\"starter\"}\r\n0\r\n\r\nINNER",
                                 "12;name=value\r\n{\"from\":\"starter\"}\r\n0\r\n\r\nINNER",
                                 "1\r\n{\r\n00011\r\n\"from\":\"starter\"}\r\n0\r\nX-Trailer: 1\r\n\r\nINNER"}) {
            EXPECT_TRUE(ask(value, body).starts_with("HTTP/1.1 201")) << value << body;
            EXPECT_EQ(get("/api/jobs").json()["jobs"].size(), static_cast<std::size_t>(++made));
        }
}

/// One behind the other on one connection is what HTTP/1.1 allows: answered in order.
TEST_F(Smuggling, LawfulRequestsMayFollowEachOtherAtOnce) {
    Raw line(service->port());
    const auto list = "GET /api/jobs HTTP/1.1\r\n" + ours() + "\r\n";
    line.send(list + inner() + list + "POST /api/jobs HTTP/1.1\r\n" + ours() + json + "Content-Length: 2\r\n\r\n[]" +
              list + "GET /nothing HTTP/1.1\r\n" + ours() + "Connection: close\r\n\r\n" + inner());
    const auto answer = line.answer(3000);
    EXPECT_TRUE(line.closed());
    std::vector<std::string> statuses;
    for (auto at = answer.find("HTTP/1.1 "); at != std::string::npos; at = answer.find("HTTP/1.1 ", at + 1))
        statuses.push_back(answer.substr(at + 9, 3));
    EXPECT_EQ(statuses, (std::vector<std::string>{"200", "201", "200", "400", "200", "404"}));
    EXPECT_EQ(get("/api/jobs").json()["jobs"].size(), 1u);
}

TEST_F(Smuggling, OfABodyThatBreaksOffNothingIsDone) {
    for (const auto& head : {"Content-Length: 40\r\n", "Transfer-Encoding: chunked\r\n"}) {
        Raw line(service->port());
        line.send(bytes({"", posted + json + head, "12\r\n{\"from\":\"starter\"}"}));
        line.hang_up();
        (void)line.answer(2500);
        EXPECT_TRUE(line.closed());
    }
    EXPECT_EQ(get("/api/jobs").json()["jobs"].size(), 0u);
}

}  // namespace
}  // namespace bw::test
