// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "hub/page/router.h"

#include "base/text.h"
#include "hub/page/cookie.h"
#include "hub/page/run_view.h"
#include "run/notes.h"
#include "run/run_code.h"

#include <algorithm>
#include <array>
#include <set>

namespace loopside::page {

struct Router::Hearing
{
    const Ask& ask;
    words::Words words;
    std::string language;
    Stamp now;
    std::optional<Account> who = {};

    [[nodiscard]] std::string header(const std::string& name) const
    {
        const auto found = ask.headers.find(name);
        return found == ask.headers.end() ? std::string() : found->second;
    }
};

namespace {

constexpr std::string_view jsonType = "application/json; charset=utf-8";
constexpr std::string_view apiPath = "/page/api/";
constexpr int tooManyTries = 429;
constexpr int wrongType = 415;
constexpr std::size_t saltBytes = 32; // in front of the content of an attachment

/// Nothing from elsewhere, no script or style within a page, no frame around it.
constexpr std::string_view contentPolicy =
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; media-src 'self'; font-src 'self'; "
    "connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'";

void addSecurity(Answer& answer)
{
    answer.headers.insert(answer.headers.end(),
                          {{"Content-Security-Policy", std::string(contentPolicy)},
                           {"X-Content-Type-Options", "nosniff"},
                           {"Referrer-Policy", "no-referrer"},
                           {"Permissions-Policy", "camera=(), microphone=(), geolocation=()"},
                           {"Cross-Origin-Opener-Policy", "same-origin"},
                           {"Cross-Origin-Resource-Policy", "same-origin"},
                           {"Strict-Transport-Security", "max-age=31536000"}});
}

Answer told(int status, const Json& body)
{
    return {status,
            {{"Content-Type", std::string(jsonType)}, {"Cache-Control", "no-store"}},
            body.dump(-1, ' ', false, Json::error_handler_t::replace)};
}

Answer refused(int status, const words::Words& words, const Message& why)
{
    return told(status, {{"refused", words.say(why)}});
}

/// The first language that is known: the one that the query names, else of those that the browser prefers.
std::string languageOf(const Ask& ask)
{
    const auto knows = [](std::string_view language) {
        return std::ranges::find(words::languages(), language) != words::languages().end();
    };
    if (const auto named = ask.query.find("language"); named != ask.query.end() && knows(named->second)) {
        return named->second;
    }
    const auto header = ask.headers.find("accept-language");
    std::string_view wanted = header == ask.headers.end() ? std::string_view() : std::string_view(header->second);
    while (!wanted.empty()) {
        const auto end = wanted.find(',');
        const auto language = trimmed(wanted.substr(0, end)).substr(0, 2);
        if (knows(language)) {
            return std::string(language);
        }
        wanted = end == std::string_view::npos ? std::string_view() : wanted.substr(end + 1);
    }
    return std::string(words::languages().front());
}

Json meOf(const Account& account)
{
    return {{"name", account.name},
            {"role", nameOf(account.role)},
            {"mayPlan", account.role == Role::Planner || account.role == Role::Admin}};
}

Json labelsIn(const words::Words& words, const std::string& language)
{
    constexpr std::string_view prefix = "page.label.";
    Json labels = Json::object();
    for (const auto& [id, sentence] : words.all()) {
        if (id.starts_with(prefix)) {
            labels[id.substr(prefix.size())] = sentence;
        }
    }
    Json languages = Json::array();
    for (const std::string_view one : words::languages()) {
        languages.push_back(one);
    }
    return {{"language", language}, {"languages", languages}, {"labels", labels}};
}

/// The members of a flat object of texts; nothing if `body` is anything else.
std::optional<JobForm> textsIn(const std::string& body)
{
    const Json read = Json::parse(body, nullptr, false);
    if (!read.is_object()) {
        return std::nullopt;
    }
    JobForm texts;
    for (const auto& [name, value] : read.items()) {
        if (!value.is_string()) {
            return std::nullopt;
        }
        texts[name] = value.get<std::string>();
    }
    return texts;
}

/// A picture or sound is shown on the page; a record is for the folder of downloads.
std::string dispositionOf(const run::AttachmentAdded& added, const run::RunState& run)
{
    return added.kind != run::AttachmentKind::Document
        ? "inline"
        : "attachment; filename=\"record-" + run::codeOf(run.id) + ".pdf\"";
}

using View = Json (*)(const Look&);
constexpr std::array<std::pair<std::string_view, View>, 7> views = {{{"today", todayView},
                                                                     {"tanks", tanksView},
                                                                     {"stages", stagesView},
                                                                     {"alerts", alertsView},
                                                                     {"missing", missingView},
                                                                     {"elements", elementsView},
                                                                     {"verify", verifyView}}};

/// Of the attachments of `run` those whose files were handed over.
Result<std::set<Id>> filesHere(const PageParts& parts, const run::RunState& run)
{
    std::set<Id> here;
    for (const run::Attachment& attachment : run::attachmentsOf(run)) {
        const auto isHere = parts.hasAttached(attachment.entry);
        if (!isHere) {
            return fail(isHere.error());
        }
        if (*isHere) {
            here.insert(attachment.entry);
        }
    }
    return here;
}

Answer csvAnswer(const Look& look, const run::RunState& run)
{
    return {200,
            {{"Content-Type", "text/csv; charset=utf-8; header=present"},
             {"Content-Disposition", "attachment; filename=\"run-" + toText(run.id) + ".csv\""},
             {"Cache-Control", "no-store"}},
            runCsv(look, run)};
}

Answer runAnswer(const Look& look, std::string_view name, const PageParts& parts)
{
    constexpr std::string_view csv = ".csv";
    const bool isCsv = name.ends_with(csv);
    const auto id = idFromText(isCsv ? name.substr(0, name.size() - csv.size()) : name);
    const run::RunState* run = id ? look.state().runOf(*id) : nullptr;
    if (run == nullptr) {
        return refused(404, look.words(), {"page.refused.nothing", {}});
    }
    if (isCsv) {
        return csvAnswer(look, *run);
    }
    const auto here = filesHere(parts, *run);
    return here ? told(200, runView(look, *run, [&](const Id& entry) { return here->contains(entry); }))
                : refused(503, look.words(), {"page.refused.not-now", {}});
}

std::int64_t monotonicMs(const Stamp& stamp)
{
    constexpr std::uint64_t msNs = 1'000'000;
    return static_cast<std::int64_t>(stamp.monoNs / msNs);
}

} // namespace

std::string Answer::header(std::string_view name) const
{
    const auto found = std::ranges::find(headers, name, [](const auto& one) { return std::string_view(one.first); });
    return found == headers.end() ? std::string() : found->second;
}

Answer Router::answer(const Ask& ask)
{
    Answer answer = route(ask);
    addSecurity(answer);
    return answer;
}

Answer Router::route(const Ask& ask)
{
    const std::string language = languageOf(ask);
    Hearing hearing{ask, words::Words::in(language).value(), language, parts_.clock.now()};
    if (ask.path.starts_with(apiPath)) {
        return api(hearing, ask.path.substr(apiPath.size()));
    }
    const auto file = parts_.files.find(ask.path == "/" || ask.path == "/page" ? "/page/" : ask.path);
    if (file == parts_.files.end()) {
        return refused(404, hearing.words, {"page.refused.nothing", {}});
    }
    if (ask.method != "GET" && ask.method != "HEAD") {
        return refused(405, hearing.words, {"page.refused.request", {}});
    }
    return {200, {{"Content-Type", file->second.type}, {"Cache-Control", "no-cache"}}, file->second.bytes};
}

Answer Router::api(Hearing& hearing, const std::string& path)
{
    const Ask& ask = hearing.ask;
    const bool isPost = ask.method == "POST";
    if ((isPost && hearing.header("x-loopside").empty()) || (!isPost && ask.method != "GET")) {
        return refused(isPost ? 403 : 405, hearing.words, {"page.refused.request", {}});
    }
    const bool isFile = path == "jobs.csv";
    if (isPost && !hearing.header("content-type").starts_with(isFile ? "text/csv" : "application/json")) {
        return refused(wrongType, hearing.words, {"page.refused.request", {}});
    }
    if (ask.body.size() > (isFile ? fileBytesMost : askBytesMost)) {
        return refused(413, hearing.words, {"page.refused.too-large", {{"most", isFile ? "2 MB" : "16 kB"}}});
    }
    if (!isPost && path == "words") {
        return told(200, labelsIn(hearing.words, hearing.language));
    }
    if (isPost && path == "sign-in") {
        return signIn(hearing);
    }
    if (const auto token = tokenIn(hearing.header("cookie"))) {
        const bool isUse = hearing.header("x-loopside-by-itself").empty();
        auto who = parts_.accounts.whoIs(*token, hearing.now.wallMs, isUse);
        if (!who) {
            return refused(503, hearing.words, {"page.refused.not-now", {}});
        }
        hearing.who = *std::move(who);
    }
    if (!hearing.who && !isPost && path == "me") {
        return told(200, Json::object());
    }
    if (!hearing.who) {
        return refused(401, hearing.words, {"page.refused.not-signed-in", {}});
    }
    if (isPost) {
        return posted(hearing, path);
    }
    return path == "me" ? told(200, meOf(*hearing.who)) : path == "sessions" ? sessions(hearing) : view(hearing, path);
}

Answer Router::posted(const Hearing& hearing, const std::string& path)
{
    const bool isFile = path == "jobs.csv";
    if (path == "jobs" || isFile) {
        return takeJobs(hearing, isFile);
    }
    return path == "sign-out"    ? signOut(hearing)
        : path == "sessions/end" ? endSession(hearing)
        : path == "password"     ? changePassword(hearing)
                                 : refused(404, hearing.words, {"page.refused.nothing", {}});
}

/// That there is still to be waited before another password of `name` is looked at; nothing if there is not.
std::optional<Answer> Router::waiting(const Hearing& hearing, const std::string& name)
{
    const std::int64_t nowMs = monotonicMs(hearing.now);
    const int wait = std::max(pace_.waitS("name " + name, nowMs), pace_.waitS("address " + hearing.ask.address, nowMs));
    if (wait == 0) {
        return std::nullopt;
    }
    tell("has to wait", hearing, name);
    Answer answer = refused(tooManyTries, hearing.words, {"page.refused.wait", {{"seconds", std::to_string(wait)}}});
    answer.headers.emplace_back("Retry-After", std::to_string(wait));
    return answer;
}

void Router::paced(const Hearing& hearing, const std::string& name, bool isRight)
{
    for (const std::string& key : {"name " + name, "address " + hearing.ask.address}) {
        isRight ? pace_.succeeded(key) : pace_.failed(key, monotonicMs(hearing.now));
    }
}

void Router::tell(std::string_view outcome, const Hearing& hearing, const std::string& name)
{
    parts_.onTry({outcome, parts_.accounts.isThere(name) ? name : std::string(), hearing.ask.address});
}

Answer Router::signIn(const Hearing& hearing)
{
    const auto texts = textsIn(hearing.ask.body);
    if (!texts || !texts->contains("name") || !texts->contains("password")) {
        return refused(400, hearing.words, {"page.refused.request", {}});
    }
    const std::string name = signInName(texts->at("name"));
    if (auto wait = waiting(hearing, name)) {
        return *std::move(wait);
    }
    const auto signedIn = parts_.accounts.signIn(name, texts->at("password"), hearing.now.wallMs);
    if (!signedIn && signedIn.error().code != Errc::NotFound) {
        return refused(503, hearing.words, {"page.refused.not-now", {}});
    }
    paced(hearing, name, signedIn.has_value());
    tell(signedIn ? "signed in" : "wrong", hearing, name);
    if (!signedIn) {
        return refused(403, hearing.words, {"page.refused.sign-in", {}});
    }
    Answer answer = told(200, meOf(signedIn->account));
    answer.headers.emplace_back("Set-Cookie", cookieWith(signedIn->token));
    return answer;
}

Answer Router::sessions(const Hearing& hearing)
{
    const auto all = parts_.accounts.sessionsOf(*hearing.who, hearing.now.wallMs);
    if (!all) {
        return refused(503, hearing.words, {"page.refused.not-now", {}});
    }
    const std::string own = markOf(tokenIn(hearing.header("cookie")).value_or(std::string()));
    Json rows = Json::array();
    for (const Session& session : *all) {
        rows.push_back({{"session", markOf(session)},
                        {"begun", dayAndTime({session.begunMs, hearing.now.offsetMin, 0, {}})},
                        {"used", dayAndTime({session.usedMs, hearing.now.offsetMin, 0, {}})},
                        {"isThis", markOf(session) == own}});
    }
    return told(200, {{"rows", rows}});
}

Answer Router::endSession(const Hearing& hearing)
{
    const auto texts = textsIn(hearing.ask.body);
    if (!texts || texts->size() > 1 || (texts->size() == 1 && !texts->contains("session"))) {
        return refused(400, hearing.words, {"page.refused.request", {}});
    }
    const std::string own = markOf(tokenIn(hearing.header("cookie")).value_or(std::string()));
    const std::string wanted = texts->empty() ? std::string() : texts->at("session");
    const Done ended = parts_.accounts.endSessions(
        *hearing.who, [&](const std::string& mark) { return wanted.empty() ? mark != own : mark == wanted; });
    return ended ? sessions(hearing) : refused(503, hearing.words, {"page.refused.not-now", {}});
}

/// Asks for the password that holds, whoever has the session.
Answer Router::changePassword(const Hearing& hearing)
{
    const auto texts = textsIn(hearing.ask.body);
    if (!texts || texts->size() != 2 || !texts->contains("old") || !texts->contains("wanted")) {
        return refused(400, hearing.words, {"page.refused.request", {}});
    }
    const std::string& name = hearing.who->name;
    if (auto wait = waiting(hearing, name)) {
        return *std::move(wait);
    }
    const auto changed = parts_.accounts.changePassword(*hearing.who, texts->at("old"), texts->at("wanted"),
                                                        hearing.now.wallMs);
    if (!changed && changed.error().say.id.empty()) {
        return refused(503, hearing.words, {"page.refused.not-now", {}});
    }
    const bool isRight = changed || changed.error().code != Errc::NotFound;
    paced(hearing, name, isRight);
    tell(changed ? "password changed" : isRight ? "password refused" : "password wrong", hearing, name);
    if (!changed) {
        return refused(isRight ? 422 : 403, hearing.words, changed.error().say);
    }
    Answer answer = told(200, {{"done", hearing.words.say("page.password.changed")}});
    answer.headers.emplace_back("Set-Cookie", cookieWith(changed->token));
    return answer;
}

Answer Router::signOut(const Hearing& hearing)
{
    if (!parts_.accounts.signOut(tokenIn(hearing.header("cookie")).value_or(std::string()))) {
        return refused(503, hearing.words, {"page.refused.not-now", {}});
    }
    Answer answer = told(200, Json::object());
    answer.headers.emplace_back("Set-Cookie", cookieWithout());
    return answer;
}

Answer Router::view(const Hearing& hearing, const std::string& path)
{
    const auto known = parts_.known();
    if (known == nullptr) {
        return refused(503, hearing.words, {"page.refused.not-now", {}});
    }
    if (standings_ == nullptr) {
        standings_ = std::make_shared<Standings>(known);
    } else if (standings_->known() != known) {
        standings_->goOn(known);
    }
    const Look look(*standings_, hearing.words, hearing.now);
    constexpr std::string_view runs = "runs/";
    if (path.starts_with(runs)) {
        return ofRun(look, std::string_view(path).substr(runs.size()));
    }
    const auto found = std::ranges::find(views, path, [](const auto& one) { return one.first; });
    if (found == views.end()) {
        return refused(404, hearing.words, {"page.refused.nothing", {}});
    }
    Json body = found->second(look);
    body["site"] = known->site.name;
    body["asOf"] = dayAndTime(hearing.now);
    return told(200, body);
}

/// The run, its entries as a file, or a picture or sound of it.
Answer Router::ofRun(const Look& look, std::string_view name) const
{
    constexpr std::string_view files = "/files/";
    const auto cut = name.find(files);
    const auto run = idFromText(name.substr(0, name.find_first_of("/.")));
    if (const Done whole = run ? parts_.takeOut(*run) : Done{}; !whole) {
        return refused(503, look.words(), {"page.refused.not-now", {}});
    }
    return cut == std::string_view::npos ? runAnswer(look, name, parts_)
                                         : attached(look, name.substr(0, cut), name.substr(cut + files.size()));
}

/// What was withdrawn is nothing, whoever holds its file.
Answer Router::attached(const Look& look, std::string_view run, std::string_view entry) const
{
    const auto runId = idFromText(run);
    const auto entryId = idFromText(entry);
    const run::RunState* state = runId && entryId ? look.state().runOf(*runId) : nullptr;
    const auto all = state != nullptr ? run::attachmentsOf(*state) : std::vector<run::Attachment>();
    const auto found = std::ranges::find_if(
        all, [&](const run::Attachment& one) { return one.entry == *entryId && !one.withdrawn; });
    const auto file = found != all.end() ? parts_.attached(*entryId) : Result<std::optional<std::string>>();
    if (!file) {
        return refused(503, look.words(), {"page.refused.not-now", {}});
    }
    if (!*file || (*file)->size() < saltBytes) {
        return refused(404, look.words(), {"page.refused.nothing", {}});
    }
    const std::string& type = found->added.mediaType;
    return {200,
            {{"Content-Type", run::isKnownMediaType(type) ? type : "application/octet-stream"},
             {"Content-Disposition", dispositionOf(found->added, *state)},
             {"Cache-Control", "no-store"}},
            (*file)->substr(saltBytes)};
}

Answer Router::takeJobs(const Hearing& hearing, bool isFile)
{
    if (hearing.who->role == Role::Engineer) {
        return refused(403, hearing.words, {"page.refused.role", {}});
    }
    const auto known = parts_.known();
    if (known == nullptr) {
        return refused(503, hearing.words, {"page.refused.not-now", {}});
    }
    if (isFile) {
        const auto preview = jobsInFile("CSV", hearing.ask.body, *known);
        return preview ? committed(hearing, *preview, true)
                       : told(422, {{"refused", hearing.words.say(preview.error())}, {"faults", Json::array()}});
    }
    const auto form = textsIn(hearing.ask.body);
    const auto preview = form ? jobInForm(*form, *known) : fail(Errc::Malformed, "no form");
    return preview ? committed(hearing, *preview, false) : refused(422, hearing.words, {"page.refused.request", {}});
}

Answer Router::committed(const Hearing& hearing, const site::Preview& preview, bool isFile)
{
    if (!isWhole(preview)) {
        return told(422,
                    {{"refused", hearing.words.say(isFile ? "page.jobs.file-put-right" : "page.jobs.put-right")},
                     {"faults", faultsOf(preview, hearing.words)}});
    }
    const run::PutRecords jobs = preview.command();
    if (jobs.records.empty()) {
        return told(200, {{"done", hearing.words.say(isFile ? "file.nothing-new" : "page.jobs.same")}});
    }
    if (!parts_.commit(jobs, hearing.who->person)) {
        return refused(503, hearing.words, {"page.refused.not-now", {}});
    }
    return told(
        200,
        {{"done",
          hearing.words.say(
              {"page.jobs.taken", {{"jobs", std::to_string(jobs.records.size())}, {"person", hearing.who->name}}})}});
}

} // namespace loopside::page
