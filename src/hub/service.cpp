// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "hub/service.h"

#include "base/text.h"
#include "sync/wire.h"

#include <nlohmann/json.hpp>

namespace loopside::hub {

namespace {

// A tablet hands over in turn, message by message; many may stand behind one address.
constexpr Rate rateOfAddress = {1000, 500};
constexpr Rate rateOfDevice = {100, 20};
constexpr Rate rateOfEnrolments = {10, 1.0 / 6}; // of all tablets together: nobody tries codes faster

constexpr std::string_view linesOfJson = "application/x-ndjson";
const std::string everybody;

constexpr double nanosecondsOfSecond = 1e9;

constexpr int badRequest = 400;
constexpr int unauthorized = 401;
constexpr int conflict = 409;
constexpr int tooLarge = 413;
constexpr int tooMany = 429;
constexpr int unavailable = 503;

/// Of what was said, not of who said it.
int statusOf(Errc code)
{
    switch (code) {
    case Errc::Malformed:
    case Errc::Incompatible:
        return badRequest;
    case Errc::OutOfRange:
        return tooLarge;
    case Errc::Io:
    case Errc::Unavailable:
        return unavailable;
    case Errc::Conflict:
    case Errc::Corrupt:
    case Errc::NotFound:
        break;
    }
    return conflict;
}

/// Of who said it: what is wrong with the database is not the tablet's fault.
int statusOfProof(Errc code)
{
    const bool isOurs = code == Errc::Io || code == Errc::Unavailable;
    return isOurs                                                                       ? unavailable
        : code == Errc::Malformed || code == Errc::Conflict || code == Errc::OutOfRange ? unauthorized
                                                                                        : badRequest;
}

std::string conditionOf(std::string_view status, const std::string& sentence)
{
    nlohmann::ordered_json condition = {{"status", status}};
    if (!sentence.empty()) {
        condition["sentence"] = sentence;
    }
    return condition.dump(-1, ' ', false, nlohmann::ordered_json::error_handler_t::replace) + '\n';
}

std::size_t entriesIn(const sync::Message& message)
{
    const auto* handOver = std::get_if<sync::HandOver>(&message.said);
    return handOver != nullptr ? handOver->entries.size() : 0;
}

/// Whether `message` is said in the name of `device`.
bool isOf(const sync::Message& message, const Id& device)
{
    const auto* handOver = std::get_if<sync::HandOver>(&message.said);
    const auto* ask = std::get_if<sync::Ask>(&message.said);
    return (handOver == nullptr || handOver->device == device) && (ask == nullptr || ask->device == device);
}

} // namespace

Service::Service(Sql& sql, const SiteRecord& site, ledger::DeviceKey key, Clock& clock)
    : sql_{&sql},
      site_{site},
      hubKey_{key.publicKey()},
      clock_{&clock},
      register_{sql, site.site},
      store_{sql, site.site},
      files_{sql, site.site},
      side_{{site.site, site.log, [this](const Id& device) { return keyOf(device); }}, store_, std::move(key)},
      byAddress_{rateOfAddress},
      byDevice_{rateOfDevice},
      enrolments_{rateOfEnrolments}
{
}

std::int64_t Service::nowMs()
{
    return clock_->now().wallMs;
}

std::optional<ledger::PublicKey> Service::keyOf(const Id& device)
{
    const auto known = keys_.find(device);
    if (known != keys_.end()) {
        return known->second;
    }
    const auto found = register_.find(device);
    if (!found) {
        lookedUp_ = fail(found.error());
    }
    if (!found || !*found) {
        return std::nullopt;
    }
    return keys_.emplace(device, (*found)->key).first->second;
}

Answer Service::refused(const Id& site, const Error& error, int status) const
{
    return {status, std::string(linesOfJson), bytesOf(sync::refusalOf(site, error)), {}, {}, error.sentence};
}

Answer Service::tooSoon(const Id& site, int seconds) const
{
    Answer answer = refused(
        site, {Errc::Unavailable, "too many requests came at once: ask again in " + std::to_string(seconds) + " s"},
        tooMany);
    answer.retryAfterS = seconds;
    return answer;
}

Answer Service::tooLong() const
{
    return refused(site_.site, {Errc::OutOfRange, "the request is longer than a message may be: nothing was taken"},
                   tooLarge);
}

Done Service::mayEnrol(const Asked& asked, const sync::EnrolmentRequest& said) const
{
    const auto proof = sync::requestProofFrom(asked.signature);
    if (!proof) {
        return fail(proof.error());
    }
    if (proof->device != said.device) {
        return fail(Errc::Conflict, "the request is signed by another device than the one that it wants to enrol");
    }
    return sync::mayPass(*proof, Id{}, asked.request, said.key, clock_->now().wallMs);
}

Answer Service::enrol(const Asked& asked)
{
    const std::lock_guard lock(oneAtATime_);
    const Stamp now = clock_->now();
    const auto wait = enrolments_.waitOf(everybody, now.monoNs);
    Answer answer = wait ? tooSoon({}, *wait) : enrolled(asked, now.wallMs);
    metrics_.countRequest("enrol", answer.status);
    return answer;
}

Answer Service::enrolled(const Asked& asked, std::int64_t nowMs)
{
    const auto said = sync::enrolmentRequestFrom(asked.request.body);
    if (!said) {
        return refused({}, said.error(), statusOf(said.error().code));
    }
    if (const Done may = mayEnrol(asked, *said); !may) {
        return refused({}, may.error(), statusOfProof(may.error().code));
    }
    if (const Done done = register_.enrol(*said, nowMs); !done) {
        return refused({}, done.error(), statusOf(done.error().code));
    }
    return {200, "application/json", bytesOf(sync::EnrolmentAnswer{site_.site, hubKey_}), {}, toText(said->device), {}};
}

Answer Service::message(const Asked& asked)
{
    return signedAnswer(asked, {"messages", linesOfJson, &Service::heardMessage});
}

Answer Service::files(const Asked& asked)
{
    return signedAnswer(asked, {"files", "application/json", &Service::heardOfFiles});
}

Answer Service::signedAnswer(const Asked& asked, const Subject& subject)
{
    const std::lock_guard lock(oneAtATime_);
    const Stamp now = clock_->now();
    const auto wait = byAddress_.waitOf(std::string(asked.address), now.monoNs);
    Answer answer = wait ? tooSoon(site_.site, *wait) : answered(asked, subject, now);
    metrics_.countRequest(subject.name, answer.status);
    metrics_.countSeconds(static_cast<double>(clock_->now().monoNs - now.monoNs) / nanosecondsOfSecond);
    return answer;
}

Answer Service::answered(const Asked& asked, const Subject& subject, const Stamp& now)
{
    const auto proof = sync::requestProofFrom(asked.signature);
    const auto device = proof ? speakerOf(*proof, asked.request, now.wallMs) : fail(proof.error());
    if (!device) {
        return refused(site_.site, device.error(), statusOfProof(device.error().code));
    }
    Answer answer = answeredTo(*device, *proof, asked, subject, now);
    answer.device = toText(device->id);
    return answer;
}

/// The enrolled device that signed `request`.
Result<Device> Service::speakerOf(const sync::RequestProof& proof, const sync::Request& request,
                                  std::int64_t nowMs) const
{
    const auto device = register_.find(proof.device);
    if (!device) {
        return fail(device.error());
    }
    if (!*device) {
        return fail(Errc::Conflict, "this tablet is not enrolled at this hub: enrol it with a code");
    }
    const Done passed = sync::mayPass(proof, site_.site, request, (*device)->key, nowMs);
    return passed ? Result<Device>(**device) : fail(passed.error());
}

Answer Service::answeredTo(const Device& device, const sync::RequestProof& proof, const Asked& asked,
                           const Subject& subject, const Stamp& now)
{
    if (device.revokedAtMs) {
        return refused(site_.site,
                       {Errc::Conflict,
                        "this tablet was struck off at the hub: nothing was taken, everything stays on the tablet. "
                        "Whoever runs the hub can say why"},
                       unauthorized);
    }
    if (const auto wait = byDevice_.waitOf(toText(device.id), now.monoNs)) {
        return tooSoon(site_.site, *wait);
    }
    if (const Done used = register_.useNonce(proof, now.wallMs); !used) {
        return refused(site_.site, used.error(), statusOfProof(used.error().code));
    }
    const auto said = (this->*subject.hear)(asked, device);
    return said ? Answer{200, std::string(subject.type), *said, {}, {}, {}}
                : refused(site_.site, said.error(), statusOf(said.error().code));
}

Result<std::string> Service::heardMessage(const Asked& asked, const Device& device)
{
    const auto message = sync::messageFrom(asked.request.body);
    if (!message) {
        return fail(message.error());
    }
    if (!isOf(*message, device.id)) {
        return fail(Errc::Conflict, "the message is said in the name of another device than the one that signed it");
    }
    lookedUp_ = {};
    const auto answer = side_.hear(*message, clock_->now().wallMs);
    if (!lookedUp_ || !answer) {
        return fail(lookedUp_ ? answer.error() : lookedUp_.error());
    }
    metrics_.countEntries(entriesIn(*message));
    return bytesOf(*answer);
}

/// Any tablet of the site may bring a file: what may be kept is told by the entry that names it.
Result<std::string> Service::heardOfFiles(const Asked& asked, const Device& /*device*/)
{
    const std::string_view path = asked.request.path;
    if (path == sync::filesPath) {
        const auto offered = sync::fileListFrom(asked.request.body);
        const auto wanted = offered ? files_.wanted(*offered) : fail(offered.error());
        return wanted ? Result<std::string>(bytesOf(*wanted)) : fail(wanted.error());
    }
    const auto place = sync::filePlaceIn(path);
    const Done kept = place ? files_.keep(*place, asked.request.body)
                            : fail(Errc::Malformed, "the path names no place of an entry");
    return kept ? Result<std::string>(bytesOf(sync::FileList{*place})) : fail(kept.error());
}

Answer Service::health() const
{
    return {200, "application/json", conditionOf("ok", {}), {}, {}, {}};
}

Done Service::isThere()
{
    const auto found = sql_->run("SELECT log_id FROM sites WHERE site_id = $1", {valueOf(site_.site)});
    if (!found) {
        return fail(found.error());
    }
    const bool isOurs = !found->empty() && found->front().bytes(0) == std::get<std::string_view>(valueOf(site_.log));
    return isOurs ? Done{}
                  : fail(Errc::Conflict, "what the hub holds was restored or replaced while it ran: start it again");
}

Answer Service::ready()
{
    const std::lock_guard lock(oneAtATime_);
    const Done there = isThere();
    const std::string sentence = there ? std::string() : there.error().sentence;
    return {there ? 200 : unavailable,
            "application/json",
            conditionOf(there ? "ok" : "unavailable", sentence),
            {},
            {},
            sentence};
}

Answer Service::metrics()
{
    const std::lock_guard lock(oneAtATime_);
    return {
        200, "application/openmetrics-text; version=1.0.0; charset=utf-8", metrics_.text(isThere().has_value()), {}, {},
        {}};
}

} // namespace loopside::hub
