// SPDX-License-Identifier: MIT
// The interface of docs/api.md, asked over a real connection.
#include <regex>
#include <set>

#include "jobs/edit.h"
#include "kit.h"
#include "reason/register/register.h"
#include "serve/remedies.h"

namespace bw::test {
namespace {

class Api : public Served {};

TEST_F(Api, AJobFromStarterToUndoneEdits) {
    EXPECT_EQ(get("/api/jobs").json(), (Json{{"jobs", Json::array()}, {"deleted", Json::array()}}));
    const auto id = fresh();
    auto job = get("/api/jobs/" + id).json();
    EXPECT_EQ(job["revision"], 1);
    EXPECT_EQ(job["survey"]["building"]["fixtures"]["shower-public"], 8);
    EXPECT_EQ(job["can-undo"], false);

    auto reply = edit(id, 1, {"building", "fixtures", "shower-public"}, 9);
    ASSERT_EQ(reply.status, 200) << reply.body;
    job = reply.json();
    EXPECT_EQ(job["revision"], 2);
    EXPECT_EQ(job["survey"]["building"]["fixtures"]["shower-public"], 9);
    EXPECT_EQ(post("/api/jobs/" + id + "/undo").json()["survey"]["building"]["fixtures"]["shower-public"], 8);
    EXPECT_EQ(post("/api/jobs/" + id + "/undo").status, 409);
    EXPECT_EQ(post("/api/jobs/" + id + "/redo").json()["revision"], 2);
    EXPECT_EQ(post("/api/jobs/" + id + "/redo").status, 409);

    const auto text = get("/api/jobs/" + id + "/survey.toml");
    EXPECT_NE(text.body.find("# A survey of a hot-water job"), std::string::npos);
    EXPECT_EQ(text.headers.find("Content-Disposition")->second, "attachment; filename=\"survey.toml\"");
}

TEST_F(Api, WhatTheSurveysReaderRefusesIsNotKept) {
    const auto id = fresh();
    const auto reply = edit(id, 1, {"supply", "pressure"}, "60 gpm");
    EXPECT_EQ(reply.status, 422);
    const auto error = reply.json()["error"];
    EXPECT_EQ(error["path"], (Json{"supply", "pressure"}));
    EXPECT_GT(error["line"], 10);
    // as `bankwright survey check` has it
    auto text = small_survey();
    text.replace(text.find("# pressure = \"60 psi\""), 21, "pressure = \"60 gpm\"");
    EXPECT_EQ(error["says"], survey::parse(text, {}).error().what);
    EXPECT_EQ(error["expected"], survey::parse(text, {}).error().expected);
    EXPECT_EQ(get("/api/jobs/" + id).json()["revision"], 1);

    for (const auto& value : std::vector<Json>{"", "<script>alert(1)</script>", std::string(100000, '9') + " psi", -1,
                                               true, Json::array(), Json::object(), "1e999 psi"}) {
        const auto refused = edit(id, 1, {"supply", "pressure"}, value);
        EXPECT_EQ(refused.status, 422) << value.dump().substr(0, 80) << refused.body.substr(0, 200);
        EXPECT_LT(refused.body.size(), 2000u);
    }
    EXPECT_EQ(get("/api/jobs/" + id).json()["newest"], 1);
}

TEST_F(Api, APlaceAfterLettersOfSeveralBytesIsStillFound) {
    const auto id = fresh();
    auto text = small_survey();
    const std::string ceiling = "ceiling = \"9 ft 6 in\"\n";
    ASSERT_NE(text.find(ceiling), std::string::npos);
    text.insert(text.find(ceiling) + ceiling.size(),
                "obstacle = [{ name = \"Säule \xE2\x80\x93 Südwand\", from = [\"1 ft\", \"1 ft\", \"0 ft\"], "
                "to = [\"2 ft\", \"2 gpm\", \"8 ft\"] }]\n");
    const auto reply = client().Put("/api/jobs/" + id + "/survey.toml", text, "application/toml");
    ASSERT_EQ(reply.status, 422) << reply.body.substr(0, 300);
    EXPECT_EQ(reply.json()["error"]["path"], (Json{"room", "obstacle", 0, "to", 1})) << reply.body;
}

TEST_F(Api, AnEditOfWhatHasChangedMeanwhileIsToldWhatIsThereNow) {
    const auto id = fresh();
    ASSERT_EQ(edit(id, 1, {"supply", "pressure"}, "65 psi").status, 200);
    const auto late = edit(id, 1, {"supply", "pressure"}, "70 psi");
    EXPECT_EQ(late.status, 409);
    EXPECT_EQ(late.json()["job"]["survey"]["supply"]["pressure"], "65 psi");
    EXPECT_EQ(late.json()["job"]["revision"], 2);
}

TEST_F(Api, EveryAssumptionThatCanBeConfirmedIs) {
    const auto id = fresh();
    auto job = get("/api/jobs/" + id).json();
    int confirmed = 0, kept = 0;
    while (true) {
        const auto next = std::find_if(job["assumed"].begin(), job["assumed"].end(),
                                       [](const Json& a) { return a.contains("confirm"); });
        if (next == job["assumed"].end()) break;
        const auto before = job["assumed"].size();
        const auto reply = patch("/api/jobs/" + id, {{"revision", job["revision"]}, {"edits", (*next)["confirm"]}});
        ASSERT_EQ(reply.status, 200) << next->dump() << reply.body;
        job = reply.json();
        ASSERT_LT(job["assumed"].size(), before) << reply.body.substr(0, 400);
        ++confirmed;
    }
    kept = static_cast<int>(job["assumed"].size());
    EXPECT_GT(confirmed, 25);
    EXPECT_LT(kept, 6) << job["assumed"].dump(1);
}

TEST_F(Api, CopiedDeletedAndRestored) {
    const auto id = fresh("example:wash-house");
    const auto copy = post("/api/jobs", {{"from", "job:" + id}});
    ASSERT_EQ(copy.status, 201);
    EXPECT_EQ(copy.json()["survey"], get("/api/jobs/" + id).json()["survey"]);
    EXPECT_EQ(client().Delete("/api/jobs/" + id).status, 204);
    EXPECT_EQ(get("/api/jobs").json()["jobs"].size(), 1u);
    EXPECT_EQ(get("/api/jobs").json()["deleted"][0]["id"], id);
    EXPECT_EQ(edit(id, 1, {"supply", "pressure"}, "65 psi").status, 409);
    EXPECT_EQ(post("/api/jobs/" + id + "/restore").json()["deleted"], false);
    EXPECT_EQ(get("/api/jobs").json()["jobs"].size(), 2u);
    EXPECT_EQ(patch("/api/jobs/" + id, {{"name", " The wash house "}}).json()["name"], "The wash house");
    EXPECT_EQ(patch("/api/jobs/" + id, {{"name", "  "}}).status, 422);
    EXPECT_EQ(post("/api/jobs", {{"from", "example:nothing"}}).status, 404);
    EXPECT_EQ(post("/api/jobs", {{"from", "job:nothing"}}).status, 404);
    EXPECT_EQ(get("/api/jobs/nothing").status, 404);
}

TEST_F(Api, AFileIsOpenedOrSaidToBeNone) {
    const auto made = post("/api/jobs", {{"toml", small_survey()}, {"name", "mine"}});
    ASSERT_EQ(made.status, 201);
    const std::string id = made.json()["id"];
    for (const std::string bad : {"", "[[[", "[job]\ntitle = 3", "\xff\xfe", "a = 1979-05-27", "x = [1,\n"}) {
        const auto put = client().Put("/api/jobs/" + id + "/survey.toml", bad, "application/toml");
        EXPECT_EQ(put.status, 422) << bad << put.body;
        EXPECT_FALSE(put.says().empty());
    }
    auto text = small_survey();
    text.replace(text.find("New job"), 7, "Another");
    EXPECT_EQ(
        client().Put("/api/jobs/" + id + "/survey.toml", text, "application/toml").json()["survey"]["job"]["title"],
        "Another");
    EXPECT_EQ(get("/api/jobs/" + id + "/survey.toml").body, text);
}

TEST_F(Api, AViewHoldsWhatTheResultHolds) {
    const auto id = fresh("example:wash-house");
    const auto view = get("/api/jobs/" + id + "/view").json();
    ASSERT_TRUE(view.is_object());
    const auto result = design::run_layout(*survey::parse(example, {}), demo_catalogue(), view["layout"]["heater"],
                                           view["layout"]["id"]);
    ASSERT_TRUE(result);
    const auto& plant = result->chosen->built.plant;
    ASSERT_EQ(view["pieces"]["rows"].size(), plant.pieces.size());
    EXPECT_EQ(view["pieces"]["rows"][0][0], plant.pieces[0].id);
    EXPECT_EQ(view["pieces"]["columns"].size(), view["pieces"]["rows"][0].size());
    ASSERT_EQ(view["checks"].size(), result->checks.size());
    EXPECT_EQ(view["tally"]["pass"], design::tally(result->checks).pass);
    EXPECT_NEAR(view["price"]["total"]["value"], result->chosen->estimate.total, 0.01);
    EXPECT_EQ(view["demand"]["day"]["hours"].size(), 24u);
    int flows = 0, explained = 0;
    const auto& states = view["states"];
    ASSERT_EQ(states["of"].size(), plant.pieces.size());
    for (const int at : states["of"])
        flows += at >= 0 && states["list"].at(static_cast<std::size_t>(at))[0].is_string();
    for (const int at : view["whys"]["of"])
        explained += at >= 0 && !view["whys"]["list"].at(static_cast<std::size_t>(at)).empty();
    EXPECT_GT(flows, 50);
    EXPECT_GT(explained, 50);

    // every solid of a piece is there, and none lies outside of the room by more than what goes through its walls
    std::set<int> drawn;
    const auto& boxes = view["geometry"]["boxes"];
    for (std::size_t i = 0; i < boxes.size(); i += 7) drawn.insert(boxes[i].get<int>());
    const auto& rods = view["geometry"]["rods"];
    for (std::size_t i = 0; i < rods.size(); i += 3 + 3 * rods[i + 2].get<std::size_t>()) {
        drawn.insert(rods[i].get<int>());
        EXPECT_GT(rods[i + 1], 0);
        EXPECT_GE(rods[i + 2], 2);
    }
    std::size_t solid = 0;
    for (const auto& piece : plant.pieces) solid += !piece.solids.empty() && piece.part != text::Part::connection;
    EXPECT_EQ(drawn.size(), solid);

    const auto si = get("/api/jobs/" + id + "/view?units=si").json();
    EXPECT_EQ(si["demand"]["peak"]["unit"], "L/s");
}

TEST_F(Api, ACheckIsOpenedToItsClause) {
    const auto id = fresh("example:wash-house");
    const auto view = get("/api/jobs/" + id + "/view").json();
    int worked = 0, sourced = 0;
    for (std::size_t i = 0; i < view["checks"].size(); i += 5) {
        const std::string name = view["checks"][i]["id"];
        const auto check = get("/api/jobs/" + id + "/checks/" + name).json();
        EXPECT_EQ(check["id"], name);
        EXPECT_EQ(check["status"], view["checks"][i]["status"]);
        worked += !check["derivation"].empty();
        sourced += !check["source"].empty();
    }
    EXPECT_GT(worked, 10);
    EXPECT_GT(sourced, 20);
    EXPECT_EQ(get("/api/jobs/" + id + "/checks/no.such.check").status, 404);
}

TEST_F(Api, ATrialStoresNothing) {
    const auto id = fresh("example:wash-house");
    const auto before = get("/api/jobs/" + id + "/view").json();
    const auto tried =
        post("/api/jobs/" + id + "/try", {{"edits", {{{"path", {"preferences", "labour-rate"}}, {"value", 200}}}}});
    ASSERT_EQ(tried.status, 200) << tried.body.substr(0, 300);
    const auto json = tried.json();
    EXPECT_GT(json["changed"]["by"]["value"], 0);
    EXPECT_NEAR(json["view"]["price"]["total"]["value"].get<double>() - before["price"]["total"]["value"].get<double>(),
                json["changed"]["by"]["value"], 0.02);
    EXPECT_TRUE(json["changed"]["checks"].empty());
    EXPECT_EQ(get("/api/jobs/" + id).json()["newest"], 1);
    EXPECT_EQ(
        post("/api/jobs/" + id + "/try", {{"edits", {{{"path", {"supply", "pressure"}}, {"value", "x"}}}}}).status,
        422);
}

TEST_F(Api, AFailingCheckIsMendedByWhatItOffers) {
    const auto id = fresh("example:wash-house");
    const auto mend = [&](const Json& path, const Json& value, const std::string& check) {
        const auto revision = get("/api/jobs/" + id).json()["revision"].get<int>();
        ASSERT_EQ(edit(id, revision, path, value).status, 200);
        const auto open = get("/api/jobs/" + id + "/checks/" + check);
        ASSERT_EQ(open.status, 200) << check << open.body;
        EXPECT_EQ(open.json()["status"], "fail") << check;
        ASSERT_FALSE(open.json()["remedies"].empty()) << check;
        const auto tried = post("/api/jobs/" + id + "/try", {{"edits", open.json()["remedies"][0]["edits"]}}).json();
        bool mended = false;
        for (const auto& row : tried["changed"]["checks"])
            mended = mended || (row["id"] == check && row["was"] == "fail" && row["now"] != "fail");
        EXPECT_TRUE(mended) << check << tried["changed"].dump();
        ASSERT_EQ(post("/api/jobs/" + id + "/undo").status, 200);
    };
    mend({"gas", "meter"}, "100 ft3/h", "gas.meter");
    mend({"supply", "hardness"}, "400 mg/L", "water.hardness");
    mend({"supply", "pressure"}, "20 psi", "water.pressure.left");
}

/// Every edit any remedy makes is one the survey takes.
TEST_F(Api, RemediesAreEditsOfTheSurvey) {
    std::string text = example;
    const std::vector<std::pair<Json, Json>> strange{
        {{"gas", "allowed-drop"}, "0.2 inH2O"}, {{"preferences", "arrangement"}, "wall"},
        {{"preferences", "vent"}, "common"},    {{"preferences", "spare"}, "none"},
        {{"preferences", "room-air"}, true},    {{"recirculation", "flow"}, "20 gpm"}};
    for (const auto& [path, value] : strange)
        text = *jobs::apply(text, *jobs::read_edits(Json::array({{{"path", path}, {"value", value}}})));
    const auto survey = survey::parse(text, {});
    ASSERT_TRUE(survey);
    std::set<reason::Remedy> made;
    for (const auto& [group, rows] : reason::check_register())
        for (const auto& row : rows) {
            reason::Check check;
            check.id = std::regex_replace(std::string(row.id), std::regex("<[^>]*>"), "1");
            check.status = reason::Status::fail, check.sense = reason::Sense::at_least;
            check.value = units::Amount{1, units::Kind::number}, check.limit = units::Amount{2, units::Kind::number};
            const auto remedies = serve::remedies(check, *survey);
            EXPECT_TRUE(row.remedy != reason::Remedy::none || remedies.empty()) << check.id;
            for (const auto& remedy : remedies) {
                const auto then = jobs::apply(text, remedy.edits);
                ASSERT_TRUE(then) << check.id << remedy.says << then.error().what;
                EXPECT_NE(*then, text) << remedy.says;
                EXPECT_TRUE(survey::parse(*then, {})) << check.id << ": " << remedy.says;
                made.insert(row.remedy);
            }
            check.status = reason::Status::pass;
            EXPECT_TRUE(serve::remedies(check, *survey).empty());
        }
    EXPECT_EQ(made.size(), 12u) << "every remedy but none has something to say of so strange a job";
}

TEST_F(Api, DocumentsAreMadeOnDemandAndKept) {
    const auto id = fresh("example:wash-house");
    const auto at = "/api/jobs/" + id + "/documents";
    auto list = get(at).json();
    EXPECT_EQ(list["documents"].size(), 9u);
    EXPECT_FALSE(list["documents"][0].contains("size"));
    const auto report = get(at + "/report.pdf");
    EXPECT_EQ(report.status, 200);
    EXPECT_TRUE(report.body.starts_with("%PDF"));
    EXPECT_EQ(get(at).json()["documents"][0]["size"], report.body.size());
    EXPECT_TRUE(get(at + "/parts.csv").body.starts_with("item,title,"));
    EXPECT_TRUE(get(at + "/plant.glb").body.starts_with("glTF"));
    EXPECT_EQ(Json::parse(get(at + "/result.json").body)["format"], "bankwright-result-1");
    EXPECT_EQ(get(at + "/survey.toml").body, example);
    EXPECT_EQ(get(at + "/nothing.pdf").status, 404);
    EXPECT_EQ(get(at + "/sheets.pdf?paper=napkin").status, 422);
}

TEST_F(Api, WordsServeEveryForm) {
    const auto words = get("/api/words").json();
    EXPECT_TRUE(words["schema"]["properties"].contains("supply"));
    EXPECT_EQ(words["heaters"].size(), demo_catalogue().heaters.size());
    EXPECT_EQ(words["examples"][0]["name"], "wash-house");
    const auto tag = get("/api/words").headers.find("ETag")->second;
    EXPECT_EQ(client().Get("/api/words", {{"If-None-Match", tag}}).status, 304);
}

}  // namespace
}  // namespace bw::test
