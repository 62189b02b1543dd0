// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "handover/handover.h"

#include "base/text.h"
#include "handover/interest.h"
#include "ledger/digest.h"
#include "sync/enrolment.h"
#include "sync/wire.h"

#include <algorithm>
#include <utility>
#include <variant>

namespace loopside::handover {

namespace {

constexpr const char* messagesPath = "/v1/messages";
constexpr const char* enrolPath = "/v1/enrol";

constexpr int statusDone = 200;
constexpr int statusSigned = 401;
constexpr int statusNowhere = 404;
constexpr int statusConflict = 409;
constexpr int statusTooLong = 413;
constexpr int statusTooSoon = 429;
constexpr int statusCannotNow = 503;

bool isOfFiles(const std::string& path)
{
    return path.starts_with(sync::filesPath);
}

/// The site that a request to `path` is signed for: none before the tablet is enrolled.
Id enrolledSite(const std::optional<Hub>& hub, const std::string& path)
{
    return path != enrolPath && hub ? hub->site.id : Id{};
}

const char* typeOf(const std::string& path)
{
    return path == messagesPath                        ? "application/x-ndjson"
        : path == enrolPath || path == sync::filesPath ? "application/json"
                                                       : "application/octet-stream";
}

std::optional<sync::Refusal> refusalIn(const Answer& answer)
{
    const auto message = sync::messageFrom(answer.body);
    const auto* refusal = message ? std::get_if<sync::Refusal>(&message->said) : nullptr;
    return refusal != nullptr ? std::optional(*refusal) : std::nullopt;
}

/// Receipts as one number, which the hub can tell as well: the hash over those of the last entries, by chain.
std::string digestOf(const sync::Progress& progress)
{
    std::string hashes;
    for (const auto& [chain, receipt] : progress.receipts) {
        hashes += toHex(receipt.mark.hash);
    }
    return hashes.empty() ? std::string() : toHex(ledger::sha256(hashes));
}

} // namespace

Result<std::unique_ptr<Handover>> Handover::open(Parts parts)
{
    std::unique_ptr<Handover> handover(new Handover(std::move(parts)));
    auto hub = readHub(handover->parts_.hubFile);
    if (!hub) {
        handover->told_.trouble = Message{"handover.hub-file", {{"why", hub.error().sentence}}};
        return handover;
    }
    handover->hub_ = *std::move(hub);
    const Done opened = handover->hub_ ? handover->openShelves() : Done();
    return opened ? Result<std::unique_ptr<Handover>>(std::move(handover)) : fail(opened.error());
}

Done Handover::openShelves()
{
    auto others = OthersShelf::open(parts_.path, hub_->site.id);
    auto own = others ? sync::JournalShelf::open(parts_.journal, parts_.keepAside) : fail(others.error());
    const auto kept = own ? (*others)->progress() : fail(own.error());
    auto held = kept ? (*others)->all() : fail(kept.error());
    const Done shown = held ? parts_.joined.show(*std::move(held)) : fail(held.error());
    if (!shown) {
        return shown;
    }
    others_ = *std::move(others);
    own_ = *std::move(own);
    kept_ = *kept;
    if (interest_.empty()) {
        interest_ = interestOf({}, parts_.device, {});
    }
    if (const Done seen = seeOwn(); !seen) {
        return seen;
    }
    side_.emplace(hub_->site, parts_.device, *own_, parts_.losses, interest_, kept_.progress);
    lookForFilesFrom(kept_.filesUpTo);
    return {};
}

bool Handover::setInterest(std::set<sync::Topic> interest)
{
    const bool isMore = !std::ranges::includes(interest_, interest);
    interest_ = std::move(interest);
    if (side_) {
        side_->setInterest(interest_);
    }
    return isMore;
}

void Handover::lookForFilesFrom(ledger::Position done)
{
    const auto isThere = [this](const sync::FilePlace& place) {
        const auto receipt = kept_.progress.receipts.find(place.chain);
        return receipt != kept_.progress.receipts.end() && place.sequence <= receipt->second.mark.sequence;
    };
    files_.emplace(parts_.journal, parts_.readFile, isThere, done);
}

/// Takes note of what was written since.
Done Handover::seeOwn()
{
    const auto last = parts_.journal.last();
    const Done seen = last ? own_->refresh() : fail(last.error());
    return seen.transform([&] { seen_ = *last; });
}

HandoverStanding Handover::standing() const
{
    HandoverStanding standing = told_;
    standing.reachedAtMs = kept_.reachedAtMs;
    standing.digest = digestOf(kept_.progress);
    standing.filesWaiting = files_ ? files_->waiting() : 0;
    const auto all = parts_.journal.last();
    const std::uint64_t entries = all ? *all : 0;
    if (own_ == nullptr) {
        standing.waiting = entries;
        return standing;
    }
    const auto tips = own_->tips();
    for (const sync::Tip& tip : tips ? *tips : std::vector<sync::Tip>()) {
        const auto receipt = kept_.progress.receipts.find(tip.chain);
        const std::uint64_t upTo = receipt == kept_.progress.receipts.end() ? 0 : receipt->second.mark.sequence;
        standing.waiting += tip.sequence - std::min(tip.sequence, upTo);
    }
    standing.waiting = std::min(standing.waiting + (entries - std::min(seen_, entries)), entries);
    standing.there = entries - standing.waiting;
    return standing;
}

void Handover::enrol(const std::string& address, const sync::EnrolmentCode& code)
{
    if (told_.isUnderWay) {
        return;
    }
    wanted_ = Hub{address, {}, {}};
    pin_ = code.pin;
    told_.isUnderWay = true;
    told_.trouble.reset();
    const std::string body = sync::bytesOf(
        sync::EnrolmentRequest{parts_.device, parts_.key.publicKey(), code.secret, parts_.name});
    onChanged();
    post(enrolPath, body, false);
}

void Handover::begin()
{
    if (told_.isUnderWay || !side_) {
        return;
    }
    told_.isUnderWay = true;
    someCame_ = false;
    side_->beginRound();
    static_cast<void>(lookForFiles());
    onChanged();
    settle(seeOwn().and_then([&] { return goOn(); }));
}

void Handover::tick()
{
    if (side_ && !told_.isUnderWay) {
        static_cast<void>(seeOwn()); // a disk that fails says so to whoever writes
        static_cast<void>(lookForFiles());
        const HandoverStanding now = standing();
        // A hub that takes no files is asked no sooner for them.
        const bool hasNews = now.waiting > 0 || (now.filesWaiting > 0 && !now.trouble);
        if (patience_.isDue(parts_.clock.now().monoNs, hasNews)) {
            begin();
        }
    }
}

bool Handover::lookForFiles()
{
    return files_ && files_->look().value_or(false);
}

Done Handover::goOn()
{
    const auto said = side_->say();
    if (!said) {
        return fail(said.error());
    }
    if (*said) {
        post(messagesPath, sync::bytesOf(**said), false);
        return {};
    }
    told_.trouble.reset();
    return keepReached({kept_.progress, parts_.clock.now().wallMs, kept_.filesUpTo}).and_then([&] {
        return goOnWithFiles();
    });
}

Done Handover::goOnWithFiles()
{
    if (auto said = files_->say()) {
        post(said->path, std::move(said->body), false);
        return {};
    }
    KeptProgress reached = kept_;
    reached.filesUpTo = files_->done();
    const Done kept = reached == kept_ ? Done() : keepReached(reached);
    return kept.transform([&] { endWell(); });
}

Done Handover::keepReached(const KeptProgress& reached)
{
    const auto kept = others_->keep({}, reached);
    if (!kept) {
        return fail(kept.error());
    }
    kept_ = reached;
    return {};
}

void Handover::endWell()
{
    patience_.succeeded(parts_.clock.now().monoNs);
    end();
}

void Handover::post(const std::string& path, std::string body, bool isAgain)
{
    const Hub& hub = wanted_ ? *wanted_ : *hub_;
    const std::int64_t atMs = parts_.clock.now().wallMs + strayMs_;
    const sync::Request request{"POST", path, body};
    const std::string signature = sync::signatureOf(enrolledSite(hub_, path), request, parts_.device, atMs,
                                                    parts_.nonce(), parts_.key);
    const auto isMeant = [certificate = hub.certificate,
                          pin = wanted_ ? pin_ : std::string()](const ledger::Hash& shown) {
        return pin.empty() ? shown == certificate : sync::enrolmentPinOf(shown) == pin;
    };
    Post post{hub.address, path, typeOf(path), signature, body, isMeant};
    parts_.carrier.send(std::move(post), [this, path, body = std::move(body), isAgain](const Result<Answer>& answer) {
        onAnswer(path, body, isAgain, answer);
    });
}

void Handover::onAnswer(const std::string& path, const std::string& body, bool isAgain, const Result<Answer>& answer)
{
    if (!answer) {
        stop(answer.error());
        return;
    }
    const std::int64_t stray = answer->hubTimeMs ? *answer->hubTimeMs - parts_.clock.now().wallMs : 0;
    const bool isFarOff = stray > sync::requestWindowMs || stray < -sync::requestWindowMs;
    told_.clockOffMs = isFarOff ? -stray : 0;
    const auto refusal = answer->status == statusSigned ? refusalIn(*answer) : std::nullopt;
    if (refusal && refusal->code == Errc::OutOfRange && isFarOff && !isAgain) {
        strayMs_ = stray; // by the hub's clock, once more; what is recorded keeps the tablet's
        post(path, body, true);
        return;
    }
    strayMs_ = isFarOff ? stray : 0;
    if (isRefusedFile(path, *answer)) {
        return;
    }
    if (answer->status != statusDone) {
        stop(Error{Errc::Conflict, "the hub refused", troubleOf(*answer)}, answer->retryAfterS);
        return;
    }
    settle(path == enrolPath ? takeEnrolment(*answer) : isOfFiles(path) ? takeOfFiles(*answer) : takeMessage(*answer));
}

Done Handover::takeOfFiles(const Answer& answer)
{
    return files_->hear(answer.body).and_then([&] {
        onChanged();
        return goOnWithFiles();
    });
}

/// A hub that takes no files, or not this one, has all entries: that is said, and the round ends well.
bool Handover::isRefusedFile(const std::string& path, const Answer& answer)
{
    const bool isOne = isOfFiles(path) && path != sync::filesPath;
    if (isOne && (answer.status == statusConflict || answer.status == statusTooLong)) {
        const auto refusal = refusalIn(answer);
        told_.trouble = Message{"handover.file-refused", {{"why", refusal ? refusal->sentence : std::string()}}};
        files_->passOver();
        settle(goOnWithFiles());
        return true;
    }
    if (isOfFiles(path) && answer.status == statusNowhere) {
        told_.trouble = Message{"handover.no-files", {}};
        endWell();
        return true;
    }
    return false;
}

Done Handover::takeEnrolment(const Answer& answer)
{
    const auto enrolled = sync::enrolmentAnswerFrom(answer.body);
    if (!enrolled) {
        return fail(enrolled.error());
    }
    Hub hub{wanted_->address, {enrolled->site, enrolled->hubKey}, answer.certificate};
    if (Done written = writeHub(parts_.hubFile, hub); !written) {
        return written;
    }
    hub_ = std::move(hub);
    wanted_.reset();
    if (Done opened = openShelves(); !opened) {
        return opened;
    }
    onOthersCame();
    return goOn();
}

Done Handover::takeMessage(const Answer& answer)
{
    const auto message = sync::messageFrom(answer.body);
    const auto heard = message ? side_->hear(*message) : fail(message.error());
    if (!heard) {
        return fail(heard.error());
    }
    if (heard->refusal) {
        return fail(heard->refusal->code, heard->refusal->sentence);
    }
    const bool isNewLog = heard->progress.log != kept_.progress.log;
    const KeptProgress kept{heard->progress, kept_.reachedAtMs, isNewLog ? 0 : kept_.filesUpTo};
    const auto outcomes = others_->keep(heard->entries, kept);
    if (!outcomes) {
        return fail(outcomes.error());
    }
    kept_ = kept;
    if (isNewLog) {
        lookForFilesFrom(0);
    }
    someCame_ = someCame_ || std::ranges::find(*outcomes, sync::Put::Created) != outcomes->end();
    told_.isForked = told_.isForked || !heard->forked.empty();
    side_->accept(*heard);
    onChanged();
    return goOn();
}

/// A step that could not be taken ends the round.
void Handover::settle(const Done& done)
{
    if (!done) {
        stop(done.error());
    }
}

void Handover::stop(const Error& error, std::optional<int> retryAfterS)
{
    const std::string address = wanted_ ? wanted_->address : hub_->address;
    wanted_.reset();
    Message trouble = error.say;
    if (trouble.id.empty()) {
        trouble = error.code == Errc::Unavailable ? Message{"handover.nobody", {{"hub", address}}}
            : error.code == Errc::Incompatible    ? Message{"handover.newer", {}}
                                                  : Message{"handover.refused", {{"why", error.sentence}}};
    }
    told_.trouble = std::move(trouble);
    patience_.failed(parts_.clock.now().monoNs, retryAfterS);
    end();
}

/// What came is shown also where the round was cut short: it is stored.
void Handover::end()
{
    told_.isUnderWay = false;
    if (std::exchange(someCame_, false)) {
        showOthers();
    }
    onChanged();
}

void Handover::showOthers()
{
    auto held = others_ != nullptr ? others_->all() : Result<std::vector<sync::Held>>();
    if (held && parts_.joined.show(*std::move(held))) {
        onOthersCame();
    }
}

Message Handover::troubleOf(const Answer& answer) const
{
    const auto refusal = refusalIn(answer);
    const bool isEnrolling = wanted_.has_value();
    if (answer.status == statusCannotNow) {
        return {"handover.hub-full", {}};
    }
    if (answer.status == statusTooSoon) {
        return {"handover.too-soon", {}};
    }
    if (refusal && refusal->code == Errc::Incompatible) {
        return {"handover.hub-older", {}};
    }
    if (refusal && refusal->code == Errc::OutOfRange && answer.status == statusSigned) {
        return {"handover.clock", {}};
    }
    if (isEnrolling && refusal && refusal->code == Errc::NotFound) {
        return {"handover.wrong-code", {}};
    }
    if (answer.status == statusSigned && !isEnrolling) {
        return {"handover.not-enrolled", {}};
    }
    if (answer.status == statusConflict && !isEnrolling) {
        return {"handover.wrong-site", {}};
    }
    return {"handover.refused", {{"why", refusal ? refusal->sentence : "status " + std::to_string(answer.status)}}};
}

} // namespace loopside::handover
