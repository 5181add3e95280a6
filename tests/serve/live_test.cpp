// SPDX-License-Identifier: MIT
// What an open page is sent while the survey changes.
#include <soci/soci.h>
#include <soci/sqlite3/soci-sqlite3.h>

#include "kit.h"

namespace bw::test {
namespace {

class Live : public Served {};

TEST_F(Live, AnEditIsFollowedByItsViewAndTheWiderChoice) {
    const auto id = fresh("example:wash-house");
    Events page(service->port(), id);
    const auto first = page.view(1);
    page.await([](const auto& e) { return (e.name == "wider" || e.name == "view") && e.data["settled"] == true; });
    ASSERT_EQ(edit(id, 1, {"preferences", "labour-rate"}, 140).status, 200);
    const auto second = page.view(2);
    EXPECT_GT(second["price"]["total"]["value"], first["price"]["total"]["value"]);
    const auto settled = page.await([](const auto& e) {
        return e.data["revision"] == 2 && e.data.contains("settled") && e.data["settled"] == true;
    });
    // the choice is the one the whole search makes
    int chosen = 0;
    for (const auto& c : settled.data["candidates"]) chosen += c["chosen"] == true;
    EXPECT_EQ(chosen, 1);
    EXPECT_GT(settled.data["candidates"].size(), 3u);
}

/// Edits that move nothing, that resize, that make fewer heaters, and back.
TEST_F(Live, WhatIsOtherPutIntoTheViewBeforeGivesTheWholeView) {
    const auto id = fresh("example:wash-house");
    Events page(service->port(), id);
    page.view(1);
    const std::vector<std::pair<Json, Json>> edits{{Json::array({"preferences", "labour-rate"}), 140},
                                                   {Json::array({"supply", "pressure"}), "52 psi"},
                                                   {Json::array({"building", "fixtures", "shower-public"}), 3},
                                                   {Json::array({"supply", "pressure"}), "60 psi"}};
    int revision = 1;
    for (const auto& [path, value] : edits) {
        ASSERT_EQ(edit(id, revision, path, value).status, 200);
        const auto event =
            page.await([&](const auto& e) { return e.name == "view" && e.data["revision"] == revision + 1; });
        ++revision;
        EXPECT_TRUE(event.from_change);
        auto view = event.data;
        auto asked = Json::parse(get("/api/jobs/" + id + "/view").body);
        for (auto* each : {&view, &asked}) each->erase("settled"), each->erase("candidates");
        EXPECT_TRUE(view == asked) << Json::diff(asked, view).dump().substr(0, 600);
    }
}

TEST_F(Live, TheLatestRevisionWinsAndNothingStaleFollows) {
    const auto id = fresh("example:wash-house");
    Events page(service->port(), id);
    page.view(1);
    constexpr int edits = 12;
    for (int i = 1; i <= edits; ++i) ASSERT_EQ(edit(id, i, {"preferences", "labour-rate"}, 90 + i).status, 200);
    page.view(edits + 1);
    page.await([](const auto& e) {
        return e.data["revision"] == edits + 1 && e.data.contains("settled") && e.data["settled"] == true;
    });
    int newest = 0, views = 0;
    for (const auto& event : page.all()) {
        const int revision = event.data["revision"];
        if (event.name == "view" || event.name == "wider") {
            EXPECT_GE(revision, newest) << "a stale result was sent";
            ++views;
        }
        newest = std::max(newest, revision);
    }
    EXPECT_GE(views, 3);
}

/// Work on an edit begins before it is stored; what is not stored is never shown.
TEST_F(Live, OfAnEditThatCouldNotBeStoredNothingIsShown) {
    const auto id = fresh("example:wash-house");
    Events page(service->port(), id);
    page.await([](const auto& e) { return e.data.value("settled", false); });
    const auto first = get("/api/jobs/" + id + "/view").json();
    const auto labour = [&](int revision, int rate) {
        return edit(id, revision, {"preferences", "labour-rate"}, rate).status;
    };
    {
        soci::session other(soci::sqlite3, "db=" + (folder / "jobs.db").string());
        other << "BEGIN IMMEDIATE";
        EXPECT_EQ(labour(1, 900), 503);
        other << "ROLLBACK";
    }
    const auto file = folder / "jobs.db";
    std::filesystem::rename(file, folder / "away.db");
    EXPECT_EQ(labour(1, 900), 503);
    std::filesystem::rename(folder / "away.db", file);
    EXPECT_EQ(get("/api/jobs/" + id).json()["revision"], 1);
    const auto again = get("/api/jobs/" + id + "/view").json();
    EXPECT_EQ(again["price"], first["price"]);
    for (const auto& event : page.all()) EXPECT_EQ(event.data["revision"], 1) << event.name;
    ASSERT_EQ(labour(1, 85), 200);
    const auto second = page.view(2);
    EXPECT_LT(second["price"]["total"]["value"], 1.2 * first["price"]["total"]["value"].get<double>());
    EXPECT_EQ(labour(1, 86), 409);
    ASSERT_EQ(labour(2, 140), 200);
    EXPECT_GT(page.view(3)["price"]["total"]["value"], second["price"]["total"]["value"]);
}

TEST_F(Live, UndoShowsWhatWasThere) {
    const auto id = fresh("example:wash-house");
    Events page(service->port(), id);
    page.view(1);
    ASSERT_EQ(edit(id, 1, {"preferences", "labour-rate"}, 140).status, 200);
    page.view(2);
    ASSERT_EQ(post("/api/jobs/" + id + "/undo").status, 200);
    const auto views = [&] {
        int count = 0;
        for (const auto& e : page.all()) count += e.name == "view" && e.data["revision"] == 1;
        return count;
    };
    for (int i = 0; i < 200 && views() < 2; ++i) std::this_thread::sleep_for(std::chrono::milliseconds(50));
    EXPECT_GE(views(), 2);
}

TEST_F(Live, WhatStandsOnTheDeskMovesOnlyWhenAsked) {
    const auto id = fresh("example:wash-house");
    Events page(service->port(), id);
    const auto settled = [&](int revision) {
        return page.await([&](const auto& e) {
            return e.data["revision"] == revision && e.data.contains("settled") && e.data["settled"] == true;
        });
    };
    settled(1);
    ASSERT_EQ(edit(id, 1, {"preferences", "arrangement"}, "wall").status, 200);
    const auto wall = page.view(2)["layout"]["id"];
    EXPECT_TRUE(wall.get<std::string>().starts_with("wall"));
    settled(2);
    // a rack would cost less
    const auto free =
        patch("/api/jobs/" + id,
              {{"revision", 2}, {"edits", {{{"path", {"preferences", "arrangement"}}, {"remove", true}}}}});
    ASSERT_EQ(free.status, 200) << free.body;
    EXPECT_EQ(page.view(3)["layout"]["id"], wall);
    const auto choice = settled(3);
    EXPECT_EQ(choice.name, "wider");
    const auto best = choice.data["candidates"][0];
    EXPECT_EQ(best["chosen"], false);
    EXPECT_TRUE(best["layout"].get<std::string>().starts_with("rack"));

    const auto at = "/api/jobs/" + id + "/take?heater=" + best["heater"].get<std::string>() + "&layout=";
    EXPECT_EQ(post(at + "wall-9-at-1").status, 409);
    ASSERT_EQ(post(at + best["layout"].get<std::string>()).status, 204);
    const auto taken = page.await([&](const auto& e) {
        return e.name == "view" && e.data["revision"] == 3 && e.data["layout"]["id"] == best["layout"];
    });
    EXPECT_EQ(taken.data["candidates"][0]["chosen"], true);
    ASSERT_EQ(edit(id, 3, {"preferences", "labour-rate"}, 140).status, 200);
    EXPECT_EQ(page.view(4)["layout"]["id"], best["layout"]);
}

TEST_F(Live, AFamilyOfPlacesIsNotTakenForALongerOne) {
    const auto made = post("/api/jobs", {{"toml", example_text("examples/sports-hall.toml")}});
    ASSERT_EQ(made.status, 201) << made.body;
    const std::string id = made.json()["id"];
    Events page(service->port(), id);
    ASSERT_EQ(edit(id, 1, {"preferences", "place"}, "wall-1-3").status, 200);
    ASSERT_TRUE(page.view(2)["layout"]["id"].get<std::string>().starts_with("wall-1-3-at-"));
    ASSERT_EQ(edit(id, 2, {"preferences", "place"}, "wall-1").status, 200);
    EXPECT_TRUE(page.view(3)["layout"]["id"].get<std::string>().starts_with("wall-1-at-"));
}

TEST_F(Live, TheWiderChoiceIsGivenUpWhereAskedAndBegunByTheNextEdit) {
    const auto id = fresh("example:wash-house");
    Events page(service->port(), id);
    page.await([](const auto& e) { return e.name == "working" && e.data["stage"] == "wider"; });
    ASSERT_EQ(post("/api/jobs/" + id + "/rest").status, 204);
    page.await([](const auto& e) { return e.name == "working" && e.data["stage"] == "stopped"; });
    std::this_thread::sleep_for(std::chrono::seconds(1));
    for (const auto& e : page.all()) EXPECT_NE(e.data.value("settled", false), true) << e.name;
    EXPECT_EQ(page.all().back().data["stage"], "stopped");
    ASSERT_EQ(edit(id, 1, {"preferences", "labour-rate"}, 140).status, 200);
    page.await([](const auto& e) { return e.data["revision"] == 2 && e.data.value("settled", false); });
    EXPECT_EQ(post("/api/jobs/nobody/rest").status, 404);
}

TEST_F(Live, TwoWindowsFollowOneJobEachInItsUnits) {
    const auto id = fresh("example:wash-house");
    Events us(service->port(), id), si(service->port(), id, "si");
    EXPECT_EQ(us.view(1)["demand"]["peak"]["unit"], "gpm");
    EXPECT_EQ(si.view(1)["demand"]["peak"]["unit"], "L/s");
    ASSERT_EQ(edit(id, 1, {"preferences", "labour-rate"}, 140).status, 200);
    EXPECT_EQ(us.view(2)["units"], "us");
    EXPECT_EQ(si.view(2)["units"], "si");
    ASSERT_EQ(client().Delete("/api/jobs/" + id).status, 204);
    si.await([](const auto& e) { return e.name == "job" && e.data["deleted"] == true; });
}

TEST_F(Live, ARoomNothingFitsInSaysWhatIsShort) {
    const auto id = fresh("example:wash-house");
    Events page(service->port(), id);
    page.view(1);
    ASSERT_EQ(edit(id, 1, {"room", "ceiling"}, "6 ft").status / 100, 4);  // points of connection are above it
    const auto reply =
        patch("/api/jobs/" + id,
              {{"revision", 1}, {"edits", {{{"path", {"building", "fixtures", "shower-public"}}, {"value", 900}}}}});
    ASSERT_EQ(reply.status, 200) << reply.body.substr(0, 300);
    const auto event =
        page.await([](const auto& e) { return e.data["revision"] == 2 && (e.name == "view" || e.name == "failed"); });
    if (event.name == "view") {
        EXPECT_TRUE(event.data["layout"].is_null());
        EXPECT_FALSE(event.data["shortfalls"].empty());
        EXPECT_EQ(event.data["checks"][0]["id"], "layout.fit");
    } else {
        EXPECT_FALSE(event.data["says"].get<std::string>().empty());
    }
}

TEST_F(Live, TheServersEndEndsItsStreams) {
    const auto id = fresh("example:wash-house");
    Events page(service->port(), id);
    page.view(1);
    const auto begin = std::chrono::steady_clock::now();
    service->stop();
    EXPECT_TRUE(page.ended(5));
    EXPECT_LT(std::chrono::steady_clock::now() - begin, std::chrono::seconds(5));
}

}  // namespace
}  // namespace bw::test
