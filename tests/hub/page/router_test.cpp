// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "hub/page/router.h"

#include "hub/page/page_site.h"
#include "hub/page/some_accounts.h"
#include "ledger/body.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <map>
#include <utility>

using namespace loopside;
using namespace loopside::page;
using loopside::test::PageSite;
using loopside::test::personOf;
using loopside::test::SomeAccounts;

namespace {

constexpr const char* press = "Press hydraulic unit";

class SetClock final : public Clock
{
public:
    [[nodiscard]] Stamp now() override { return stamp; }
    Stamp stamp;
};

/// A page over the demo shift, and a browser that keeps its cookie.
class Browser
{
public:
    Browser()
    {
        site.demoShift();
        clock.stamp = site.after(1);
        clock.stamp.monoNs = 1'000'000'000;
        renew();
    }

    void renew() { known = std::make_shared<const Known>(site.known()); }

    Answer ask(const std::string& method, const std::string& path, const std::string& body = {}, bool isOurs = true)
    {
        Ask ask{method, path, {{"language", "en"}}, {}, body, "10.0.0.7"};
        if (!cookie.empty()) {
            ask.headers["cookie"] = cookie;
        }
        if (isOurs) {
            ask.headers["x-loopside"] = "page";
        }
        ask.headers["content-type"] = path.ends_with(".csv") ? "text/csv" : "application/json";
        for (const auto& [name, value] : instead) {
            ask.headers[name] = value;
        }
        Answer answer = router.answer(ask);
        const std::string set = answer.header("Set-Cookie");
        cookie = set.empty() ? cookie : set.substr(0, set.find(';'));
        return answer;
    }

    Json json(const std::string& path) { return Json::parse(ask("GET", "/page/api/" + path).body); }

    Answer signIn(const std::string& name, const std::string& password = "four plain words here")
    {
        return ask("POST", "/page/api/sign-in", Json{{"name", name}, {"password", password}}.dump());
    }

    /// Changes the password of who is signed in.
    Answer change(const std::string& old, const std::string& wanted)
    {
        return ask("POST", "/page/api/password", Json{{"old", old}, {"wanted", wanted}}.dump());
    }

    void later(std::int64_t ms)
    {
        clock.stamp.wallMs += ms;
        clock.stamp.monoNs += static_cast<std::uint64_t>(ms) * 1'000'000;
    }

    PageSite site;
    SomeAccounts some;
    SetClock clock;
    std::string cookie;
    std::map<std::string, std::string> instead = {}; ///< Headers of the next requests, in place of others.
    std::vector<std::string> tries = {};             ///< As the log has them.
    std::shared_ptr<const Known> known;
    std::vector<std::pair<std::vector<run::RecordPut>, Id>> committed;
    bool mayCommit = true;
    Router router{{[this] { return known; },
                   [this](const run::PutRecords& put, const Id& person) -> Done {
                       if (!mayCommit) {
                           return fail(Errc::Io, "the disk is full");
                       }
                       committed.emplace_back(put.records, person);
                       return {};
                   },
                   some.accounts, clock, pageFiles(),
                   [this](const Id& entry) -> Result<std::optional<std::string>> {
                       const auto file = files.find(entry);
                       return file == files.end() ? std::nullopt : std::optional(file->second);
                   },
                   [this](const Id& entry) -> Result<bool> {
                       return isFolderHere ? Result<bool>(files.contains(entry)) : fail(Errc::Unavailable, "gone");
                   },
                   [](const Id&) -> Done { return {}; },
                   [this](const TryTold& tried) {
                       tries.push_back(std::string(tried.outcome) + " | " + tried.name + " | " + tried.address);
                   }}};
    bool isFolderHere = true;
    std::map<Id, std::string> files = {}; ///< By the entry that adds one.
};

/// A picture or a sound of the run on the press.
run::AttachmentAdded attachment(run::AttachmentKind kind, const std::string& type, char digit)
{
    return {kind, {}, std::string(64, digit), 7, type, "gauge 2 <b>"};
}

} // namespace

TEST_CASE("pictures and sounds of a run are shown once they were handed over, and never once they were withdrawn")
{
    Browser browser;
    browser.site.say(press, attachment(run::AttachmentKind::Photo, "image/png", 'a'))
        .say(press, attachment(run::AttachmentKind::Sound, "audio/ogg", 'b'));
    browser.renew();
    browser.signIn("tomasz");
    const std::string id = browser.json("today")["rows"][0]["id"].get<std::string>();
    const Json files = browser.json("runs/" + id)["files"];
    REQUIRE(files.size() == 2);
    CHECK(files[0]["kind"] == "photo");
    CHECK(files[1]["kind"] == "sound");
    CHECK(files[0]["text"].get<std::string>().find("gauge 2 <b>") != std::string::npos);
    const std::string path = "/page/api/" + files[0]["path"].get<std::string>();
    CHECK(browser.ask("GET", path).status == 404); // it is still on its way
    const Id entry = idFromText(path.substr(path.rfind('/') + 1)).value();
    browser.files[entry] = std::string(32, 's') + "picture";
    CHECK(files[0]["isHere"] == false);
    CHECK(browser.json("runs/" + id)["files"][0]["isHere"] == true);
    CHECK(browser.json("runs/" + id)["files"][1]["isHere"] == false);
    const Answer shown = browser.ask("GET", path);
    CHECK(shown.status == 200);
    CHECK(shown.body == "picture");
    CHECK(shown.header("Content-Type") == "image/png");
    CHECK(shown.header("Cache-Control") == "no-store");
    CHECK(browser.ask("GET", "/page/api/runs/" + toText(personOf(1)) + "/files/" + toText(entry)).status == 404);
    CHECK(browser.ask("GET", path + "x").status == 404);
    CHECK(browser.ask("POST", path).status == 404);
    const std::string cookie = std::exchange(browser.cookie, "");
    CHECK(browser.ask("GET", path).status == 401); // to nobody who is not signed in
    browser.cookie = cookie;

    browser.site.say(press, run::AttachmentWithdrawn{entry, "a face is on it"});
    browser.renew();
    CHECK(browser.json("runs/" + id)["files"].size() == 1);
    CHECK(browser.ask("GET", path).status == 404);
}

TEST_CASE("a record is offered once its file was handed over, and until then told as not here")
{
    Browser browser;
    browser.site.say(press, attachment(run::AttachmentKind::Document, "application/pdf", 'c'));
    browser.renew();
    browser.signIn("tomasz");
    const std::string id = browser.json("today")["rows"][0]["id"].get<std::string>();
    const auto record = [&] { return browser.json("runs/" + id)["files"][0]; };
    CHECK(record()["kind"] == "document");
    CHECK(record()["isHere"] == false);
    const std::string path = "/page/api/" + record()["path"].get<std::string>();
    CHECK(browser.ask("GET", path).status == 404);
    browser.files[idFromText(path.substr(path.rfind('/') + 1)).value()] = std::string(32, 's') + "%PDF-";
    CHECK(record()["isHere"] == true);
    const Answer file = browser.ask("GET", path);
    CHECK(file.status == 200);
    CHECK(file.body == "%PDF-");
    CHECK(file.header("Content-Disposition").starts_with("attachment"));
    browser.isFolderHere = false; // nothing is said of files that nobody can look for now
    CHECK(browser.ask("GET", "/page/api/runs/" + id).status == 503);
}

TEST_CASE("the page and its files are there for anybody, each with a strict policy")
{
    Browser browser;
    for (const auto& [path, file] : pageFiles()) {
        const Answer answer = browser.ask("GET", path);
        CAPTURE(path);
        CHECK(answer.status == 200);
        CHECK(answer.header("Content-Type") == file.type);
        CHECK(answer.header("Content-Security-Policy").find("default-src 'none'") == 0);
        CHECK(answer.header("Content-Security-Policy").find("unsafe") == std::string::npos);
        CHECK(answer.header("X-Content-Type-Options") == "nosniff");
    }
    CHECK(browser.ask("GET", "/").body == browser.ask("GET", "/page/").body);
    CHECK(browser.ask("GET", "/page/../secret").status == 404);
    CHECK(browser.ask("GET", "/page/b612.otf").status == 404);
    const auto files = pageFilesWithFace("regular", "bold");
    CHECK(files.at("/page/b612-bold.otf").bytes == "bold");
    CHECK(files.at("/page/face.css").bytes.find("/page/b612-bold.otf") != std::string::npos);
    CHECK(browser.ask("POST", "/page/page.css").status == 405);
}

TEST_CASE("no file of the page has script or style within HTML, nor names another host")
{
    for (const auto& [path, file] : pageFiles()) {
        CAPTURE(path);
        if (path != "/page/uplot.js") {
            CHECK(file.bytes.find("innerHTML") == std::string::npos);
        }
        if (path == "/page/") {
            CHECK(file.bytes.find(" style=") == std::string::npos);
            CHECK(file.bytes.find("<style") == std::string::npos);
            CHECK(file.bytes.find("<script>") == std::string::npos);
            CHECK(file.bytes.find("http") == std::string::npos);
        }
    }
}

TEST_CASE("every label that the page asks for has words")
{
    Browser browser;
    const Json labels = browser.json("words")["labels"];
    for (const auto& [path, file] : pageFiles()) {
        const std::string& text = file.bytes;
        for (std::string_view begin : {"label(\"", "data-label=\""}) {
            for (auto at = text.find(begin); path != "/page/uplot.js" && at != std::string::npos;
                 at = text.find(begin, at + 1)) {
                const auto from = at + begin.size();
                const std::string name = text.substr(from, text.find('"', from) - from);
                CAPTURE(path, name);
                CHECK((labels.contains(name) || name == "none-"));
            }
        }
    }
}

TEST_CASE("nobody sees anything of the site without signing in")
{
    Browser browser;
    for (const char* path :
         {"today", "tanks", "stages", "alerts", "missing", "elements", "verify", "runs/x", "sessions"}) {
        CAPTURE(path);
        CHECK(browser.ask("GET", std::string("/page/api/") + path).status == 401);
    }
    CHECK(browser.ask("GET", "/page/api/me").body == "{}");
    CHECK(browser.ask("POST", "/page/api/jobs", "{}").status == 401);
    browser.cookie = "__Host-loopside=" + std::string(43, 'A');
    CHECK(browser.ask("GET", "/page/api/today").status == 401);
}

TEST_CASE("who signed in sees each view and a run, and nothing more after signing out")
{
    Browser browser;
    const Answer signedIn = browser.signIn("tomasz");
    REQUIRE(signedIn.status == 200);
    CHECK(Json::parse(signedIn.body)["mayPlan"] == false);
    CHECK(signedIn.body.find("four plain") == std::string::npos);
    for (const char* view : {"today", "tanks", "stages", "alerts", "missing", "elements"}) {
        CAPTURE(view);
        CHECK(browser.json(view)["rows"].is_array());
        CHECK(browser.json(view)["site"] == "Brackwater Mill (invented)");
    }
    const std::string id = browser.json("today")["rows"][0]["id"].get<std::string>();
    CHECK(browser.json("runs/" + id)["name"] == press);
    const Answer csv = browser.ask("GET", "/page/api/runs/" + id + ".csv");
    CHECK(csv.header("Content-Type").starts_with("text/csv"));
    CHECK(csv.header("Content-Disposition") == "attachment; filename=\"run-" + id + ".csv\"");
    CHECK(csv.body.starts_with("run_time,"));
    CHECK(browser.ask("GET", "/page/api/runs/" + toText(personOf(1))).status == 404);
    CHECK(browser.ask("GET", "/page/api/nothing").status == 404);

    const std::string cookie = browser.cookie;
    CHECK(browser.ask("POST", "/page/api/sign-out").status == 200);
    browser.cookie = cookie;
    CHECK(browser.ask("GET", "/page/api/today").status == 401);
}

TEST_CASE("somebody changes their own password, and all their other sessions end")
{
    Browser browser;
    browser.signIn("ines");
    const std::string elsewhere = browser.cookie;
    browser.cookie.clear();
    browser.signIn("ines");
    const std::string before = browser.cookie;
    const Answer changed = browser.change("four plain words here", "quite another four words");
    CHECK(changed.status == 200);
    CHECK(browser.cookie != before);
    CHECK(browser.ask("GET", "/page/api/today").status == 200);
    for (const std::string& old : {before, elsewhere}) {
        browser.cookie = old;
        CHECK(browser.ask("GET", "/page/api/today").status == 401);
    }
    CHECK(browser.signIn("ines").status == 403);
    CHECK(browser.signIn("ines", "quite another four words").status == 200);
    const auto audit = browser.some.store.audit(1);
    REQUIRE(audit->size() == 1);
    CHECK(audit->front().what == "password set");
    CHECK(audit->front().by == personOf(1));
}

TEST_CASE("a password is not changed without the present one, nor to one that is easily guessed, short or the same")
{
    Browser browser;
    CHECK(browser.change("four plain words here", "quite another four words").status == 401);
    browser.signIn("ines");
    const std::string old = "four plain words here";
    const auto refusal = [&](const std::string& present, const std::string& wanted, int status) {
        const Answer answer = browser.change(present, wanted);
        CAPTURE(wanted);
        CHECK(answer.status == status);
        return Json::parse(answer.body)["refused"].get<std::string>();
    };
    CHECK(refusal(old, old, 422).find("is the old one") != std::string::npos);
    CHECK(refusal(old, "too short", 422).find("12 to 128 signs") != std::string::npos);
    CHECK(refusal(old, std::string(129, 'x'), 422).find("12 to 128 signs") != std::string::npos);
    CHECK(refusal(old, "Password2026!", 422).find("first that somebody would try") != std::string::npos);
    CHECK(refusal("not mine", "quite another four words", 403).find("not right") != std::string::npos);
    for (const char* body : {"", "[]", R"({"old": "x"})", R"({"old": "x", "wanted": "y", "name": "ruth"})"}) {
        CHECK(browser.ask("POST", "/page/api/password", body).status == 400);
    }
    CHECK(browser.ask("GET", "/page/api/today").status == 200);
    browser.cookie.clear();
    CHECK(browser.signIn("ines").status == 200);
}

TEST_CASE("who has a session of somebody cannot try their password quickly")
{
    Browser browser;
    browser.signIn("ines");
    for (int i = 0; i < 4; ++i) {
        CHECK(browser.change("not mine", "quite another four words").status == 403);
    }
    browser.later(10);
    browser.change("not mine", "quite another four words");
    const Answer waits = browser.change("four plain words here", "quite another four words");
    CHECK(waits.status == 429);
    CHECK_FALSE(waits.header("Retry-After").empty());
    browser.later(20 * 60'000);
    CHECK(browser.change("four plain words here", "quite another four words").status == 200);
}

TEST_CASE("somebody sees where they are signed in, and ends one of these sessions or all others")
{
    Browser browser;
    std::vector<std::string> cookies;
    for (int i = 0; i < 3; ++i) {
        browser.cookie.clear();
        browser.signIn("ines");
        cookies.push_back(browser.cookie);
        browser.later(60'000);
    }
    const std::string foreign = [&] {
        browser.cookie.clear();
        browser.signIn("tomasz");
        return std::exchange(browser.cookie, cookies[0]);
    }();
    const Json rows = browser.json("sessions")["rows"];
    REQUIRE(rows.size() == 3);
    CHECK(std::ranges::count_if(rows, [](const Json& row) { return row["isThis"].get<bool>(); }) == 1);
    const auto isIn = [&](const std::string& cookie) {
        const std::string mine = std::exchange(browser.cookie, cookie);
        const bool isSignedIn = browser.ask("GET", "/page/api/today").status == 200;
        browser.cookie = mine;
        return isSignedIn;
    };
    browser.cookie = cookies[1];
    std::string mark;
    const Json seen = browser.json("sessions")["rows"];
    for (const Json& row : seen) {
        mark = row["isThis"].get<bool>() ? row["session"].get<std::string>() : mark;
    }
    browser.cookie = foreign; // somebody else's session is not theirs to end
    CHECK(browser.ask("POST", "/page/api/sessions/end", Json{{"session", mark}}.dump()).status == 200);
    CHECK(isIn(cookies[1]));
    browser.cookie = cookies[0];
    CHECK(browser.ask("POST", "/page/api/sessions/end", Json{{"session", mark}}.dump()).status == 200);
    CHECK_FALSE(isIn(cookies[1]));
    CHECK(isIn(cookies[2]));
    CHECK(browser.ask("POST", "/page/api/sessions/end", R"({"all": "x"})").status == 400);
    CHECK(browser.ask("POST", "/page/api/sessions/end", "{}").status == 200);
    CHECK_FALSE(isIn(cookies[2]));
    CHECK(isIn(cookies[0]));
    CHECK(isIn(foreign));
}

TEST_CASE("what the page asks by itself keeps nobody signed in")
{
    constexpr std::int64_t tenMinutes = 600'000;
    Browser browser;
    browser.signIn("ines");
    for (int i = 0; i < 4; ++i) {
        browser.later(tenMinutes); // somebody works: each is a use
        CHECK(browser.ask("GET", "/page/api/today").status == 200);
    }
    browser.instead = {{"x-loopside-by-itself", "1"}};
    for (int i = 0; i < 2; ++i) {
        browser.later(tenMinutes);
        CHECK(browser.ask("GET", "/page/api/today").status == 200);
    }
    browser.later(tenMinutes);
    CHECK(browser.ask("GET", "/page/api/today").status == 401);
}

TEST_CASE("each try to sign in is told to the log, without a name that nobody has")
{
    Browser browser;
    browser.signIn("Ines", "wrong");
    browser.signIn("a password typed in the wrong place", "x");
    browser.signIn("ines");
    browser.change("wrong", "quite another four words");
    CHECK(browser.tries
          == std::vector<std::string>{"wrong | ines | 10.0.0.7", "wrong |  | 10.0.0.7", "signed in | ines | 10.0.0.7",
                                      "password wrong | ines | 10.0.0.7"});
    for (int i = 0; i < 4; ++i) {
        browser.signIn("ruth", "wrong");
    }
    CHECK(browser.signIn("ruth").status == 429);
    CHECK(browser.tries.back() == "has to wait | ruth | 10.0.0.7");
}

TEST_CASE("what is sent as another type than it has to be is not read")
{
    Browser browser;
    browser.signIn("ines");
    for (const char* type :
         {"", "text/plain", "application/x-www-form-urlencoded", "multipart/form-data; boundary=x"}) {
        CAPTURE(type);
        browser.instead = {{"content-type", type}};
        CHECK(browser.ask("POST", "/page/api/jobs", "{}").status == 415);
        CHECK(browser.ask("POST", "/page/api/jobs.csv", "order\n").status == 415);
    }
    browser.instead = {{"content-type", "application/json; charset=utf-8"}};
    CHECK(browser.ask("POST", "/page/api/jobs", "{}").status == 422);
    CHECK(browser.committed.empty());
}

TEST_CASE("nothing of the site is kept by a browser or by anything in between")
{
    Browser browser;
    browser.signIn("ines");
    const std::string id = browser.json("today")["rows"][0]["id"].get<std::string>();
    for (const std::string path : {"today", "tanks", "verify", "me", "sessions", "words"}) {
        CAPTURE(path);
        CHECK(browser.ask("GET", "/page/api/" + path).header("Cache-Control") == "no-store");
    }
    CHECK(browser.ask("GET", "/page/api/runs/" + id).header("Cache-Control") == "no-store");
    CHECK(browser.ask("GET", "/page/api/runs/" + id + ".csv").header("Cache-Control") == "no-store");
}

TEST_CASE("a form of another site changes nothing")
{
    Browser browser;
    CHECK(browser.ask("POST", "/page/api/sign-in", "{}", false).status == 403);
    browser.signIn("ines");
    CHECK(browser.ask("POST", "/page/api/jobs", R"({"order": "WO-1", "tank": "Winder gearbox"})", false).status == 403);
    CHECK(browser.ask("DELETE", "/page/api/jobs").status == 405);
    CHECK(browser.committed.empty());
}

TEST_CASE(
    "wrong passwords make everybody at that address and of that name wait, and a right one is not heard meanwhile")
{
    Browser browser;
    for (int i = 0; i < 4; ++i) {
        CHECK(browser.signIn("ines", "a wrong password").status == 403);
    }
    const Answer answer = browser.signIn("ines");
    CHECK(answer.status == 429);
    CHECK(answer.header("Retry-After") == "1");
    CHECK(answer.body.find("Try again in 1 s") != std::string::npos);
    browser.clock.stamp.monoNs += 1'000'000'000;
    CHECK(browser.signIn("ines").status == 200);
}

TEST_CASE("a planner plans a job, which becomes an entry with their name")
{
    Browser browser;
    browser.signIn("ines");
    const Answer answer = browser.ask(
        "POST", "/page/api/jobs",
        R"({"order": "WO-7", "tank": "Winder gearbox", "turnovers": "7", "due": "2026-12-01", "reason": "said \u00e4, and more"})");
    CAPTURE(answer.body);
    REQUIRE(answer.status == 200);
    REQUIRE(browser.committed.size() == 1);
    const auto& [records, person] = browser.committed.front();
    CHECK(person == personOf(1));
    REQUIRE(records.size() == 1);
    const auto& job = std::get<run::JobPut>(records[0]).job;
    CHECK(job.order == "WO-7");
    CHECK(job.reason == "said ä, and more");
    CHECK(job.turnovers->toText() == "7");
}

TEST_CASE("a job that cannot be read is told field by field, and nothing is stored")
{
    Browser browser;
    browser.signIn("ines");
    const Answer answer = browser.ask("POST", "/page/api/jobs",
                                      R"({"order": "WO-7", "tank": "Nowhere", "turnovers": "many"})");
    CHECK(answer.status == 422);
    const Json faults = Json::parse(answer.body)["faults"];
    REQUIRE(faults.size() == 2);
    CHECK(faults[0]["column"] == "tank");
    CHECK(faults[0]["value"] == "Nowhere");
    CHECK(faults[1]["column"] == "turnovers");
    CHECK_FALSE(faults[1]["todo"].get<std::string>().empty());
    CHECK(browser.committed.empty());
}

TEST_CASE("a form with another field, a quote, a line break or no texts is refused whole")
{
    Browser browser;
    browser.signIn("ines");
    const std::string body = GENERATE(R"({"order": "WO-1", "tank": "Winder gearbox", "state": "x"})",
                                      R"({"order": "WO\"1", "tank": "Winder gearbox"})",
                                      R"({"order": "WO-1\nWO-2", "tank": "Winder gearbox"})", R"({"order": 7})", "[]",
                                      "{", "");
    CAPTURE(body);
    CHECK(browser.ask("POST", "/page/api/jobs", body).status == 422);
    CHECK(browser.committed.empty());
}

TEST_CASE("of a file of jobs all rows are taken or none")
{
    Browser browser;
    browser.signIn("ruth");
    const auto send = [&](const std::string& csv) { return browser.ask("POST", "/page/api/jobs.csv", csv); };
    const Answer faulty = send("order,tank\nWO-1,Winder gearbox\nWO-2,Nowhere\n");
    CHECK(faulty.status == 422);
    CHECK(Json::parse(faulty.body)["faults"][0]["line"] == 3);
    CHECK(send("tank\nWinder gearbox\n").status == 422);
    CHECK(browser.committed.empty());
    CHECK(send("order;tank\nWO-1;Winder gearbox\nWO-2;Store tote 3\n").status == 200);
    REQUIRE(browser.committed.size() == 1);
    CHECK(browser.committed.front().first.size() == 2);
}

TEST_CASE("an engineer plans nothing")
{
    Browser browser;
    browser.signIn("tomasz");
    CHECK(browser.ask("POST", "/page/api/jobs", R"({"order": "WO-1", "tank": "Winder gearbox"})").status == 403);
    CHECK(browser.ask("POST", "/page/api/jobs.csv", "order,tank\nWO-1,Winder gearbox\n").status == 403);
    CHECK(browser.committed.empty());
}

TEST_CASE("what is too large is not read, and what cannot be stored or told now says so")
{
    Browser browser;
    browser.signIn("ines");
    CHECK(browser.ask("POST", "/page/api/jobs", std::string(askBytesMost + 1, ' ')).status == 413);
    CHECK(browser.ask("POST", "/page/api/jobs.csv", std::string(fileBytesMost + 1, ' ')).status == 413);
    browser.mayCommit = false;
    CHECK(browser.ask("POST", "/page/api/jobs", R"({"order": "WO-1", "tank": "Winder gearbox"})").status == 503);
    browser.known = nullptr;
    CHECK(browser.ask("GET", "/page/api/today").status == 503);
}

TEST_CASE("the language is that of the query, else the first that the browser prefers and there is")
{
    Browser browser;
    const auto languageFor = [&](const std::map<std::string, std::string>& query, const std::string& accepted) {
        const Answer answer = browser.router.answer(
            {"GET", "/page/api/words", query, {{"accept-language", accepted}}, {}, {}});
        return Json::parse(answer.body)["language"].get<std::string>();
    };
    CHECK(languageFor({{"language", "es"}}, "de") == "es");
    CHECK(languageFor({{"language", "xx"}}, "fr-FR, de-AT;q=0.8, en") == "de");
    CHECK(languageFor({}, "") == "en");
}
