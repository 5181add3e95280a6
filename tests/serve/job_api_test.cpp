// SPDX-License-Identifier: MIT
// The api asked directly, without a connection: odd texts, and stores that something befell.
#include "serve/job_api.h"

#include <fmt/format.h>
#include <soci/soci.h>
#include <soci/sqlite3/soci-sqlite3.h>

#include <chrono>

#include "jobs/edit.h"
#include "kit.h"

namespace bw::test {
namespace {

using serve::Answer;
using serve::Query;

class JobApi : public testing::Test {
protected:
    std::filesystem::path folder =
        std::filesystem::temp_directory_path() / ("bankwright-api-" + std::to_string(::getpid()));
    std::string file = (folder / "jobs.db").string();
    std::unique_ptr<jobs::Store> store;
    serve::Live live{demo_catalogue()};
    std::unique_ptr<serve::JobApi> api;

    void SetUp() override {
        std::filesystem::remove_all(folder);
        std::filesystem::create_directories(folder);
        auto opened = jobs::Store::open(file);
        ASSERT_TRUE(opened) << (opened ? "" : opened.error().what);
        store = std::move(*opened);
        api = std::make_unique<serve::JobApi>(*store, live, demo_catalogue(), std::span<const text::EmbeddedFile>(),
                                             "test");
    }
    void TearDown() override {
        live.stop();
        api.reset(), store.reset();
        std::filesystem::remove_all(folder);
    }

    static Json json(const Answer& answer) { return Json::parse(answer.body, nullptr, false); }
    static std::string says(const Answer& answer) {
        const auto read = json(answer);
        return read.is_object() && read.contains("error") ? read["error"]["says"].get<std::string>() : "";
    }
    std::string fresh() { return json(api->create("{}"))["id"]; }
    /// A revision's text as no program of ours would have stored it.
    void put_text(const std::string& id, const std::string& text) {
        soci::session other(soci::sqlite3, "db=" + file);
        other << "UPDATE revisions SET text = :t WHERE job = :j AND number = (SELECT revision FROM jobs WHERE id = :i)",
            soci::use(text), soci::use(id), soci::use(id);
    }
};

std::string many(const std::string& part, std::size_t times) {
    std::string out;
    for (std::size_t i = 0; i < times; ++i) out += part;
    return out;
}

TEST_F(JobApi, TextsThatAreNoTomlAreRefusedSoon) {
    const auto id = fresh();
    for (const auto& text :
         {std::string("a = [}"), std::string("a = [ }"), std::string("a = {]}"), std::string("a = [1 2]"),
          many("[", 40000), "x = " + many("[", 40000), "x = " + many("{a=", 20000), "[" + many("a.", 120000) + "a]\n",
          many("a.", 120000) + "a = 1\n", many("[[", 100000), many("a = [}\n", 30000), many("\"", 100001),
          many("[a.b]\n", 40000)}) {
        const auto begin = std::chrono::steady_clock::now();
        const auto answer = api->replace_text(id, text);
        EXPECT_EQ(answer.status, 422) << text.substr(0, 20);
        EXPECT_FALSE(says(answer).empty());
        EXPECT_LT(std::chrono::steady_clock::now() - begin, std::chrono::seconds(6)) << text.substr(0, 20);
        EXPECT_EQ(api->create(Json{{"toml", text}}.dump()).status, 422);
    }
    std::string dotted;  // the parser looks through all such tables for each
    for (int i = 0; dotted.size() < jobs::largest_text - 40; ++i) dotted += fmt::format("a{0}.x=1\na{0}.y=1\n", i);
    const auto begin = std::chrono::steady_clock::now();
    EXPECT_EQ(api->replace_text(id, dotted).status, 422);
    EXPECT_LT(std::chrono::steady_clock::now() - begin, std::chrono::seconds(6));
    EXPECT_EQ(api->replace_text(id, dotted + dotted).status, 413);
    EXPECT_EQ(api->create(Json{{"toml", dotted + dotted}}.dump()).status, 413);
}

TEST_F(JobApi, ARequestOfTooManyKeysIsRefusedSoon) {
    const auto id = fresh();
    std::string keys;
    for (int i = 0; i < 70000; ++i) keys += (i > 0 ? ",\"k" : "\"k") + std::to_string(i) + "\":1";
    const auto begin = std::chrono::steady_clock::now();
    for (const auto& body : {"{" + keys + "}", R"({"revision":1,"edits":[{"path":["job"],"value":{)" + keys + "}}]}"}) {
        const auto answer = api->patch(id, body);
        EXPECT_EQ(answer.status, 400);
        EXPECT_FALSE(says(answer).empty());
    }
    EXPECT_LT(std::chrono::steady_clock::now() - begin, std::chrono::seconds(6));
}

TEST_F(JobApi, AStoredTextThatNoLongerReadsCanBeSeenAndReplaced) {
    for (const std::string damaged : {"[job\n", "nothing = 1\n", "a = 1979-05-27\n", "[job]\ntitle = \"\xff\"\n"}) {
        const auto id = fresh();
        const auto sound = api->survey_text(id, {}).body;
        ASSERT_EQ(api->replace_text(id, sound + "# second\n").status, 200);
        put_text(id, damaged);
        const auto job = api->job(id);
        EXPECT_EQ(job.status, 200) << damaged;
        EXPECT_EQ(json(job)["revision"], 2);
        EXPECT_FALSE(says(job).empty()) << "the page is told why";
        EXPECT_TRUE(json(job)["survey"].is_object());
        EXPECT_EQ(api->survey_text(id, {}).body, damaged);
        EXPECT_EQ(api->patch(id, R"({"name":"other"})").status, 200) << damaged;
        EXPECT_EQ(api->patch(id, R"({"revision":2,"edits":[{"path":["job","title"],"value":"x"}]})").status, 422);
        EXPECT_EQ(api->view(id, {}).status, 422);

        const auto listener = api->listen(id, units::System::us);
        ASSERT_TRUE(listener) << damaged;
        const auto told = (*listener)->next(std::chrono::seconds(5));
        ASSERT_TRUE(told);
        EXPECT_TRUE(told->starts_with("event: failed\n")) << told->substr(0, 200);
        EXPECT_NE(told->find("the stored survey does not read, line "), std::string::npos) << told->substr(0, 200);
        EXPECT_NE(told->find("\"revision\":2"), std::string::npos) << told->substr(0, 200);

        EXPECT_EQ(api->undo(id).status, 200);
        EXPECT_EQ(says(api->job(id)), "");
        EXPECT_EQ(api->redo(id).status, 200) << damaged;
        EXPECT_EQ(json(api->job(id))["revision"], 2);
        EXPECT_EQ(api->replace_text(id, sound).status, 200);
        EXPECT_EQ(json(api->job(id))["revision"], 3);
        EXPECT_EQ(says(api->job(id)), "");
        bool viewed = false;
        for (int i = 0; i < 60 && !viewed; ++i) {
            const auto next = (*listener)->next(std::chrono::seconds(1));
            viewed = next && (next->starts_with("event: view") || next->starts_with("event: change")) &&
                     next->find("\"revision\":3") != std::string::npos;
        }
        EXPECT_TRUE(viewed) << "the stream goes on with what replaced it";
        api->leave(id, *listener);
        EXPECT_EQ(api->remove(id).status, 204);
        EXPECT_EQ(api->restore(id).status, 200);
    }
}

TEST_F(JobApi, ANameHoldsNoControlCharacters) {
    const auto id = fresh();
    const auto named = [&](const std::string& name) {
        const auto answer = api->patch(id, Json{{"name", name}}.dump());
        return answer.status == 200 ? json(answer)["name"].get<std::string>() : std::to_string(answer.status);
    };
    EXPECT_EQ(named("\x1b]0;x\x07 wash\x7f\nhouse\xc2\x9b"), "]0;x wash house");
    EXPECT_EQ(named("\x01\x02"), "422");
    EXPECT_EQ(named(many("ü", 300)), many("ü", 200));
    const auto titled = api->create(Json{
        {"toml", [&] {
             auto text = survey::starter();
             return text.replace(text.find("New job"), 7, "a\\u001b[31mb");
         }()}}.dump());
    EXPECT_EQ(titled.status, 422) << titled.body;
}

TEST_F(JobApi, ARevisionThatIsNoneIsRefused) {
    const auto id = fresh();
    for (const auto* revision : {"4294967297", "-1", "\"1\"", "1.5", "99999999999999999999", "null"}) {
        const auto answer = api->trial(
            id,
            fmt::format(R"({{"revision":{},"edits":[{{"path":["supply","pressure"],"value":"65 psi"}}]}})", revision),
            {});
        EXPECT_EQ(answer.status, 400) << revision << answer.body.substr(0, 100);
    }
    EXPECT_EQ(api->trial(id, R"({"revision":7,"edits":[{"path":["supply","pressure"],"value":"65 psi"}]})", {}).status,
              404);
}

/// An answer's survey is the one of the revision it names, while another window edits.
TEST_F(JobApi, ARenamesAnswerHoldsTheRevisionItNames) {
    const auto id = fresh();
    std::atomic<bool> ending = false;
    std::thread editor([&] {
        for (int i = 1; !ending; ++i) {
            const auto answer = api->patch(
                id, Json{{"revision", i}, {"edits", {{{"path", {"preferences", "labour-rate"}}, {"value", 100 + i}}}}}
                        .dump());
            ASSERT_EQ(answer.status, 200) << answer.body.substr(0, 300);
        }
    });
    for (int i = 0; i < 100; ++i) {
        const auto job = json(api->patch(id, R"({"name":"x"})"));
        const int revision = job["revision"];
        if (revision == 1) continue;
        EXPECT_EQ(job["survey"].value("/preferences/labour-rate"_json_pointer, 0), 99 + revision);
    }
    ending = true;
    editor.join();
}

TEST_F(JobApi, WhatWasOnlyLookedAtIsForgotten) {
    std::weak_ptr<const serve::Shown> first;
    const auto survey = std::make_shared<const survey::Survey>(*survey::parse(survey::starter(), {}));
    for (int i = 0; i < 20; ++i) {
        const auto seen = live.shown("job" + std::to_string(i), 1, survey);
        ASSERT_TRUE(seen);
        if (i == 0) first = *seen;
        EXPECT_EQ(*live.shown("job" + std::to_string(i), 1, survey), *seen) << "the latest is kept";
    }
    EXPECT_TRUE(first.expired());
}

TEST_F(JobApi, AnotherProgramsLockHoldsNoReader) {
    const auto id = fresh();
    const auto other_job = fresh();
    soci::session other(soci::sqlite3, "db=" + file);
    other << "BEGIN IMMEDIATE";
    std::vector<std::thread> writers;
    std::atomic<int> refused = 0;
    const auto begin = std::chrono::steady_clock::now();
    const auto since = [&] { return std::chrono::steady_clock::now() - begin; };
    for (int i = 0; i < 5; ++i)
        writers.emplace_back([&] {
            const auto answer =
                api->patch(id, R"({"revision":1,"edits":[{"path":["supply","pressure"],"value":"65 psi"}]})");
            EXPECT_NE(says(answer).find("nothing was saved"), std::string::npos) << answer.body;
            refused += answer.status == 503;
        });
    std::this_thread::sleep_for(std::chrono::milliseconds(200));
    for (const auto& job : {id, other_job}) {
        EXPECT_EQ(api->job(job).status, 200);
        EXPECT_EQ(api->list().status, 200);
        const auto listener = api->listen(job, units::System::us);
        EXPECT_TRUE(listener);
        if (listener) api->leave(job, *listener);
    }
    EXPECT_LT(since(), std::chrono::seconds(2)) << "readers wait for nobody";
    for (auto& writer : writers) writer.join();
    EXPECT_LT(since(), std::chrono::seconds(6)) << "writers wait beside one another";
    EXPECT_EQ(refused, 5);
    other << "ROLLBACK";
    EXPECT_EQ(api->patch(id, R"({"revision":1,"edits":[{"path":["supply","pressure"],"value":"65 psi"}]})").status,
              200);
}

}  // namespace
}  // namespace bw::test
