// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "base/text.h"
#include "cli/commands.h"
#include "cli/files.h"
#include "cli/https_carrier.h"
#include "handover/handover.h"
#include "handover/interest.h"
#include "ledger/at_hand.h"
#include "store/aside_file.h"
#include "store/attachment_folder.h"
#include "store/key_file.h"
#include "store/recovery.h"
#include "store/system_clock.h"
#include "words/words.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>
#include <bit>
#include <csignal>
#include <cstdlib>
#include <filesystem>
#include <memory>

namespace loopside::cli {

namespace {

using Json = nlohmann::ordered_json;
using handover::HandoverStanding;

std::string besideJournal(const HandoverOptions& options, const char* name)
{
    return (std::filesystem::path(options.journal).parent_path() / name).string();
}

/// The key that is there; none is made, for it would be another device's.
Result<ledger::DeviceKey> keyOf(const HandoverOptions& options)
{
    const std::string path = options.key.empty() ? besideJournal(options, "device.key") : options.key;
    return mustBeThere(path).and_then([&] { return store::loadOrCreateKey(path); });
}

/// What was typed; nothing where the tablet is not to be enrolled.
Result<std::optional<sync::EnrolmentCode>> codeOf(const HandoverOptions& options)
{
    if (options.enrol.empty()) {
        return std::nullopt;
    }
    auto code = sync::enrolmentCodeFrom(options.code);
    return code ? Result<std::optional<sync::EnrolmentCode>>(*std::move(code))
                : fail(code.error().code, "--code: " + code.error().sentence, {"app.handover.no-code", {}});
}

sync::Nonce newNonce()
{
    store::SystemRandom random;
    return std::bit_cast<sync::Nonce>(std::array{random.next(), random.next()});
}

/// A journal and the key that hands it over, while nobody else writes.
struct Ground
{
    explicit Ground(Held opened, ledger::DeviceKey signs)
        : held{std::move(opened)}, key{std::move(signs)}, device{store::deviceOf(key)}, joined{*held.journal}
    {
    }
    Ground(const Ground&) = delete;
    Ground& operator=(const Ground&) = delete;

    Held held;
    ledger::DeviceKey key;
    Id device;
    handover::JoinedJournal joined;
    store::SystemClock clock = {};
    HttpsCarrier carrier = {};
};

Result<std::unique_ptr<Ground>> groundOf(const HandoverOptions& options)
{
    const Done there = mustBeThere(options.journal);
    auto key = there ? keyOf(options) : fail(there.error());
    auto held = key ? openToWrite(options.journal, options.language) : fail(key.error());
    return held ? Result<std::unique_ptr<Ground>>(std::make_unique<Ground>(*std::move(held), *std::move(key)))
                : fail(held.error());
}

Result<std::unique_ptr<handover::Handover>> handoverOn(Ground& ground, const HandoverOptions& options)
{
    auto losses = store::lossesOf(*ground.held.journal);
    if (!losses) {
        return fail(losses.error());
    }
    return handover::Handover::open(
        {options.journal, *ground.held.journal, ground.joined, *std::move(losses),
         options.hub.empty() ? besideJournal(options, "site.hub") : options.hub, ground.device, ground.key,
         options.name.empty() ? "tablet " + toText(ground.device).substr(0, 4) : options.name, ground.clock,
         ground.carrier, newNonce,
         [&path = options.journal](const ledger::Entry& entry) { return store::AsideFile(path).keep(entry); },
         [folder = store::AttachmentFolder::besideJournal(options.journal)](const std::string& name) {
             return folder.file(name);
         }});
}

/// How it went: a round to its end, and what it changed.
struct Outcome
{
    std::string hub = {}; ///< Its address; empty: none.
    HandoverStanding standing = {};
    std::uint64_t handedOver = 0; ///< Acknowledged in this round.
    std::size_t ahead = 0;        ///< Entries of others that take no precedence.
};

/// Asks from now on for what matters of the runs that are known here. Whether something in it is new; where the runs
/// cannot be told, nothing more is asked for, and the handover goes on.
bool askForRuns(Ground& ground, handover::Handover& handover)
{
    const auto folded = ledger::foldAtHand(ground.joined);
    return folded && handover.setInterest(handover::interestOf(folded->folded.state, ground.device, {}));
}

/// What came may name further runs: they are asked for, too.
void hearOfRuns(Ground& ground, handover::Handover& handover)
{
    constexpr int roundsMost = 4; // each run that came can name others; the next handover goes on
    for (int round = 0; round < roundsMost && !handover.standing().trouble && askForRuns(ground, handover); ++round) {
        handover.begin();
        while (ground.carrier.carry()) {
        }
    }
}

Outcome playRound(Ground& ground, handover::Handover& handover, const HandoverOptions& options,
                  const std::optional<sync::EnrolmentCode>& code)
{
    const std::uint64_t before = handover.standing().there;
    askForRuns(ground, handover);
    if (code) {
        handover.enrol(options.enrol, *code);
    } else {
        handover.begin();
    }
    while (ground.carrier.carry()) {
    }
    hearOfRuns(ground, handover);
    while (handover.lookForFiles()) {
    }
    if (handover.standing().filesWaiting > 0 && !handover.standing().trouble) {
        handover.begin();
        while (ground.carrier.carry()) {
        }
    }
    const auto standing = handover.standing();
    return {handover.hub() ? handover.hub()->address : std::string(), standing,
            standing.there - std::min(before, standing.there), handover.unsettled().size()};
}

/// Why not everything is there; an empty id: it is.
Message whyNot(const Outcome& outcome)
{
    const HandoverStanding& standing = outcome.standing;
    return standing.trouble         ? *standing.trouble
        : outcome.hub.empty()       ? Message{"handover.no-hub-yet", {}}
        : standing.waiting > 0      ? Message{"handover.some-left", {{"entries", std::to_string(standing.waiting)}}}
        : standing.filesWaiting > 0 ? Message{"handover.files-left", {{"files", std::to_string(standing.filesWaiting)}}}
                                    : Message{};
}

/// What is to be known besides, whether or not everything is there.
std::vector<Message> cautionsOf(const Outcome& outcome)
{
    constexpr std::int64_t minuteMs = 60'000;
    const std::int64_t offMs = outcome.standing.clockOffMs;
    std::vector<Message> cautions;
    if (offMs != 0) {
        cautions.push_back({offMs > 0 ? "app.handover.clock-fast" : "app.handover.clock-slow",
                            {{"minutes", std::to_string(std::abs(offMs) / minuteMs)}}});
    }
    if (outcome.standing.isForked) {
        cautions.push_back({"app.handover.forked", {}});
    }
    if (outcome.ahead > 0) {
        cautions.push_back({"app.handover.ahead", {{"entries", std::to_string(outcome.ahead)}}});
    }
    return cautions;
}

void tell(const Outcome& outcome, const words::Words& words, std::ostream& out)
{
    const auto line = [&](const char* name, const std::string& value) {
        out << words.say(name) << ": " << value << '\n';
    };
    line("app.handover.hub", outcome.hub.empty() ? words.say("app.handover.no-hub-yet") : outcome.hub);
    line("handover.handed-over", std::to_string(outcome.handedOver));
    line("app.handover.there", std::to_string(outcome.standing.there));
    line("app.handover.receipt", outcome.standing.digest.empty() ? "–" : outcome.standing.digest);
    line("app.handover.waiting", std::to_string(outcome.standing.waiting));
    line("app.handover.files", std::to_string(outcome.standing.filesWaiting));
    for (const Message& caution : cautionsOf(outcome)) {
        out << words.say(caution) << '\n';
    }
    out << words.say(whyNot(outcome).id.empty() ? "app.handover.all-there" : "app.handover.stays") << '\n';
}

Json jsonOf(const Outcome& outcome, const words::Words& words)
{
    Json cautions = Json::array();
    for (const Message& caution : cautionsOf(outcome)) {
        cautions.push_back({{"id", caution.id}, {"sentence", words.say(caution)}});
    }
    const Message trouble = whyNot(outcome);
    const std::string& digest = outcome.standing.digest;
    return {{"hub", outcome.hub.empty() ? Json() : Json(outcome.hub)},
            {"handed_over", outcome.handedOver},
            {"there", outcome.standing.there},
            {"receipt", digest.empty() ? Json() : Json(digest)},
            {"waiting", outcome.standing.waiting},
            {"files_waiting", outcome.standing.filesWaiting},
            {"cautions", cautions},
            {"trouble", trouble.id.empty() ? Json() : Json({{"id", trouble.id}, {"sentence", words.say(trouble)}})}};
}

} // namespace

Done handOver(const HandoverOptions& options, std::ostream& out)
{
    std::signal(SIGPIPE, SIG_IGN); // a hub that goes away while it is told something
    const auto words = words::Words::in(options.language);
    const auto code = words ? codeOf(options) : fail(words.error());
    if (!code) {
        return words ? fail(code.error().code, words->say(code.error())) : fail(code.error());
    }
    const auto ground = groundOf(options);
    const auto handover = ground ? handoverOn(**ground, options) : fail(ground.error());
    if (!handover) {
        return fail(handover.error());
    }
    const Outcome outcome = playRound(**ground, **handover, options, *code);
    if (options.json) {
        out << jsonOf(outcome, *words).dump(-1, ' ', false, Json::error_handler_t::replace) << '\n';
    } else {
        tell(outcome, *words, out);
    }
    const Message trouble = whyNot(outcome);
    return trouble.id.empty() ? Done() : fail(Errc::Unavailable, words->say(trouble));
}

} // namespace loopside::cli
