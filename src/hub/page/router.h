// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Everything that the site page asks and is answered, without sockets: the server gives it what came and sends what it
// gets.
//
//   GET  /                            the page itself; also /page/<file>
//   GET  /page/api/words?language=de  what the page's own labels say
//   POST /page/api/sign-in            {"name", "password"}; sets the cookie of the session
//   POST /page/api/sign-out
//   GET  /page/api/me                 who is signed in; an empty object if nobody is
//   GET  /page/api/sessions           where else they are signed in, each with a mark
//   POST /page/api/sessions/end       {"session": a mark}; without one all others
//   POST /page/api/password           {"old", "wanted"}; all sessions end but the one that begins with it
//   GET  /page/api/<view>             today, tanks, stages, alerts, missing, elements, verify (site_views.h)
//   GET  /page/api/runs/<id>          one run (run_view.h); with .csv behind it its entries as a file
//   GET  /page/api/runs/<id>/files/<entry>  a picture or sound of a run
//   POST /page/api/jobs               one job, {"order", "tank", …}; planners and admins
//   POST /page/api/jobs.csv           a file of jobs; planners and admins
//
// A language may stand behind each (?language=es). What changes something has to carry the header X-Loopside, which no
// form of another site can send, and the type of what it is: JSON, or text/csv for the file. What the page asks by
// itself, to show what is new, carries X-Loopside-By-Itself and keeps no session alive.

#pragma once

#include "base/clock.h"
#include "hub/page/accounts.h"
#include "hub/page/look.h"
#include "hub/page/planned_jobs.h"
#include "hub/page/sign_in_pace.h"

#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace loopside::page {

/// A request as it came. The path is decoded and has no query.
struct Ask
{
    std::string method = "GET";
    std::string path;
    std::map<std::string, std::string> query = {};
    std::map<std::string, std::string> headers = {}; ///< Names in small letters.
    std::string body = {};
    std::string address = {}; ///< Of who asks.
};

struct Answer
{
    int status = 200;
    std::vector<std::pair<std::string, std::string>> headers = {};
    std::string body = {};

    /// The value of a header; empty if it is not there.
    [[nodiscard]] std::string header(std::string_view name) const;
};

/// A file of the page.
struct PageFile
{
    std::string type; ///< Such as "text/css; charset=utf-8".
    std::string bytes;
};

/// The files of the page by their paths, such as "/page/page.css". Its letters are those of the system.
[[nodiscard]] std::map<std::string, PageFile> pageFiles();

/// The same with the face B612 for who has it not: the bytes of two OpenType files (Debian: fonts-b612,
/// /usr/share/fonts/opentype/b612/B612-Regular.otf and B612-Bold.otf), which the server reads.
[[nodiscard]] std::map<std::string, PageFile> pageFilesWithFace(std::string regular, std::string bold);

/// A try to sign in, or to change a password, for the log. Holds no name of which there is no account: somebody may
/// have typed a password there.
struct TryTold
{
    std::string_view outcome; ///< "signed in", "wrong", "has to wait", "password changed", "password refused",
                              ///< "password wrong".
    std::string name;         ///< Of the account; empty: there is none of that name.
    std::string address;
};

/// What the page stands on; all of it outlives it.
struct PageParts
{
    /// What the hub knows now; null while it cannot tell.
    std::function<std::shared_ptr<const Known>()> known;
    /// Commits records in the name of a person, signed by the hub. Nothing was stored where it fails.
    std::function<Done(const run::PutRecords&, const Id& person)> commit;
    Accounts& accounts;
    Clock& clock;
    std::map<std::string, PageFile> files = pageFiles();
    /// The file that an entry adds, its salt in front; nothing if it was not handed over yet. And whether it was: only
    /// what is there is offered.
    std::function<Result<std::optional<std::string>>(const Id& entry)> attached =
        [](const Id&) -> Result<std::optional<std::string>> { return std::nullopt; };
    std::function<Result<bool>(const Id& entry)> hasAttached = [](const Id&) -> Result<bool> { return false; };
    /// Makes a run whole that was put away, if what is known has it.
    std::function<Done(const Id& run)> takeOut = [](const Id&) -> Done { return {}; };
    std::function<void(const TryTold&)> onTry = [](const TryTold&) {};
};

/// The most that may be sent: a sign-in or a form; a file of jobs.
inline constexpr std::size_t askBytesMost = 16'384;
inline constexpr std::size_t fileBytesMost = 2'000'000;

/// Not thread-safe; the owner serialises calls.
class Router
{
public:
    explicit Router(PageParts parts) : parts_{std::move(parts)} {}

    [[nodiscard]] Answer answer(const Ask& ask);

private:
    struct Hearing; ///< One request, with its words and who asks.

    [[nodiscard]] Answer route(const Ask& ask);
    [[nodiscard]] Answer api(Hearing& hearing, const std::string& path);
    [[nodiscard]] std::optional<Answer> waiting(const Hearing& hearing, const std::string& name);
    void paced(const Hearing& hearing, const std::string& name, bool isRight);
    void tell(std::string_view outcome, const Hearing& hearing, const std::string& name);
    [[nodiscard]] Answer posted(const Hearing& hearing, const std::string& path);
    [[nodiscard]] Answer signIn(const Hearing& hearing);
    [[nodiscard]] Answer sessions(const Hearing& hearing);
    [[nodiscard]] Answer endSession(const Hearing& hearing);
    [[nodiscard]] Answer changePassword(const Hearing& hearing);
    [[nodiscard]] Answer signOut(const Hearing& hearing);
    [[nodiscard]] Answer view(const Hearing& hearing, const std::string& path);
    [[nodiscard]] Answer ofRun(const Look& look, std::string_view name) const;
    [[nodiscard]] Answer attached(const Look& look, std::string_view run, std::string_view entry) const;
    [[nodiscard]] Answer takeJobs(const Hearing& hearing, bool isFile);
    [[nodiscard]] Answer committed(const Hearing& hearing, const site::Preview& preview, bool isFile);

    PageParts parts_;
    SignInPace pace_;
    std::shared_ptr<Standings> standings_ = nullptr; ///< Of what was known last.
};

} // namespace loopside::page
