// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "handover/handover.h"

#include "handover/desk.h"
#include "handover/hub_at_hand.h"
#include "ledger/attached.h"
#include "store/sqlite_journal.h"
#include "store/temp_folder.h"

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>

using namespace loopside;
using namespace loopside::test;
using handover::Handover;
using handover::HandoverStanding;

namespace {

class StillClock final : public Clock
{
public:
    Stamp now() override { return stamp; }

    Stamp stamp = {aboutNowMs, 120, 5'000'000'000, Recorder::idOf(0xB0, 1)};
};

/// A tablet with its journal on disk and a hub that it may reach.
class Floor
{
public:
    Floor()
    {
        const auto entries = recorder.chainOf(9);
        start();
        REQUIRE(journal->append(entries));
        start();
    }

    /// As a start of the program does.
    void start()
    {
        handover.reset();
        journal.reset();
        journal = *store::SqliteJournal::open(folder.file("journal.db"));
        joined = std::make_unique<handover::JoinedJournal>(*journal);
        handover = *Handover::open({folder.file("journal.db"),
                                    *journal,
                                    *joined,
                                    {},
                                    folder.file("site.hub"),
                                    recorder.device(),
                                    key,
                                    "tablet 1",
                                    clock,
                                    hub,
                                    [this] { return sync::Nonce{static_cast<std::uint8_t>(++nonces)}; },
                                    [](const ledger::Entry&) -> Done { return {}; },
                                    readFile});
        handover->onOthersCame = [this] { ++came; };
    }

    void enrol()
    {
        handover->enrol("hub:8443", hub.code());
        hub.answerAll();
        REQUIRE_FALSE(handover->standing().trouble);
    }

    void round()
    {
        handover->begin();
        hub.answerAll();
    }

    void write(int notes)
    {
        for (int i = 0; i < notes; ++i) {
            REQUIRE(journal->append(recorder.notes({"more"})));
        }
    }

    [[nodiscard]] std::string trouble() const
    {
        const auto trouble = handover->standing().trouble;
        return trouble ? trouble->id : std::string();
    }

    TempFolder folder;
    Recorder recorder{1};
    ledger::DeviceKey key = Recorder::keyOf(1);
    StillClock clock;
    HubAtHand hub;
    std::unique_ptr<store::SqliteJournal> journal;
    std::unique_ptr<handover::JoinedJournal> joined;
    std::unique_ptr<Handover> handover;
    handover::FilesAway::ReadFile readFile = [](const std::string&) { return fail(Errc::NotFound, "no file"); };
    int nonces = 0;
    int came = 0;
};

} // namespace

TEST_CASE("a tablet that was enrolled hands everything over and keeps the receipt")
{
    Floor floor;
    CHECK_FALSE(floor.handover->hub());
    CHECK(floor.handover->standing().waiting == 10);
    floor.handover->tick();
    floor.handover->begin();
    CHECK_FALSE(floor.hub.isAsked()); // without a hub nothing is said
    floor.enrol();
    const HandoverStanding done = floor.handover->standing();
    CHECK(done.there == 10);
    CHECK(done.waiting == 0);
    CHECK(done.digest.size() == 64);
    CHECK(done.reachedAtMs > 0);
    CHECK_FALSE(done.isUnderWay);
    CHECK(floor.hub.hub.count() == 10);

    floor.start();
    REQUIRE(floor.handover->hub());
    CHECK(floor.handover->hub()->address == "hub:8443");
    CHECK(floor.handover->hub()->certificate == floor.hub.certificate);
    CHECK(floor.handover->standing().there == 10);
    CHECK(floor.handover->standing().digest == done.digest);
    CHECK(floor.handover->standing().reachedAtMs == done.reachedAtMs);

    floor.write(2);
    CHECK(floor.handover->standing().there == 10); // also before the next second
    CHECK(floor.handover->standing().waiting == 2);
    floor.clock.stamp.monoNs += handover::Patience::firstS * 1'000'000'000;
    floor.handover->tick();
    CHECK(floor.handover->standing().waiting == 2);
    CHECK(floor.handover->standing().isUnderWay);
    floor.hub.answerAll();
    CHECK(floor.handover->standing().waiting == 0);
    CHECK(floor.handover->standing().digest != done.digest);
    CHECK(floor.hub.hub.count() == 12);
}

TEST_CASE("the secret of a code is told to no other hub than the one that the code is of")
{
    Floor floor;
    const auto code = floor.hub.code();
    floor.hub.certificate[0] ^= 1U;
    floor.handover->enrol("hub:8443", code);
    floor.hub.answerAll();
    CHECK(floor.hub.told.empty());
    CHECK(floor.trouble() == "handover.other-hub");
    CHECK_FALSE(floor.handover->hub());
}

TEST_CASE("a hub that shows another certificate than at the enrolment is told nothing")
{
    Floor floor;
    floor.enrol();
    floor.write(1);
    const auto told = floor.hub.told.size();
    floor.hub.certificate[31] ^= 1U; // behind what the code tells
    floor.round();
    CHECK(floor.hub.told.size() == told);
    CHECK(floor.trouble() == "handover.other-hub");
    CHECK(floor.handover->standing().waiting == 1);
}

TEST_CASE("a wrong code enrols nothing, and another one may be tried")
{
    Floor floor;
    auto code = floor.hub.code();
    code.secret = "00000000";
    floor.handover->enrol("hub:8443", code);
    floor.hub.answerAll();
    CHECK(floor.trouble() == "handover.wrong-code");
    CHECK_FALSE(floor.handover->hub());
    CHECK_FALSE(handover::readHub(floor.folder.file("site.hub")).value());
    floor.enrol();
    CHECK(floor.handover->standing().waiting == 0);
}

TEST_CASE("what fails is told, stays here and goes on by itself")
{
    using Given = std::pair<std::string, std::function<Result<handover::Answer>(const HubAtHand&)>>;
    const auto refusing = [](int status, Errc code) {
        return [=](const HubAtHand& hub) { return Result<handover::Answer>(hub.refused(status, code)); };
    };
    const std::vector<Given> all = {
        {"handover.nobody", [](const HubAtHand&) { return Result<handover::Answer>(fail(Errc::Unavailable, "gone")); }},
        {"handover.hub-full", refusing(503, Errc::Io)},
        {"handover.hub-full", refusing(503, Errc::Unavailable)},
        {"handover.too-soon", refusing(429, Errc::Unavailable)},
        {"handover.hub-older", refusing(400, Errc::Incompatible)},
        {"handover.wrong-site", refusing(409, Errc::Conflict)},
        {"handover.not-enrolled", refusing(401, Errc::Conflict)},
        {"handover.refused", refusing(413, Errc::OutOfRange)},
        {"handover.refused", [](const HubAtHand&) { return Result<handover::Answer>(handover::Answer{500, "?"}); }},
        {"handover.refused", [](const HubAtHand&) { return Result<handover::Answer>(handover::Answer{200, "?"}); }},
        {"handover.newer", [](const HubAtHand& hub) {
             return Result<handover::Answer>(
                 handover::Answer{200, "{\"loopside_message\":2}\n", hub.nowMs, {}, hub.certificate});
         }}};
    const auto which = GENERATE_COPY(range(std::size_t{0}, all.size()));
    INFO(all[which].first << ' ' << which);
    Floor floor;
    floor.enrol();
    floor.write(3);
    floor.handover->begin();
    REQUIRE(floor.hub.answer(all[which].second(floor.hub)));
    CHECK_FALSE(floor.hub.isAsked());
    CHECK(floor.trouble() == all[which].first);
    CHECK_FALSE(floor.handover->standing().isUnderWay);
    CHECK(floor.handover->standing().waiting == 3);
    CHECK(floor.hub.hub.count() == 10);
    floor.clock.stamp.monoNs += handover::Patience::mostS * 1'000'000'000;
    floor.handover->tick();
    floor.hub.answerAll();
    CHECK(floor.trouble().empty());
    CHECK(floor.handover->standing().waiting == 0);
    CHECK(floor.hub.hub.count() == 13);
}

TEST_CASE("a round that is cut anywhere loses nothing and doubles nothing, across a restart")
{
    for (std::size_t cut = 0; cut < 6; ++cut) {
        Floor floor;
        floor.enrol();
        floor.write(4);
        floor.handover->begin();
        for (std::size_t i = 0; i < cut; ++i) {
            floor.hub.answer();
        }
        floor.start(); // in the middle of a request
        CHECK_FALSE(floor.hub.isAsked());
        floor.round();
        CHECK(floor.handover->standing().waiting == 0);
        CHECK(floor.hub.hub.count() == 14);
    }
}

TEST_CASE("a tablet whose clock is far off signs by the hub's clock, and says so")
{
    Floor floor;
    floor.enrol();
    floor.write(1);
    floor.clock.stamp.wallMs += 50LL * 3'600'000;
    floor.round();
    const HandoverStanding standing = floor.handover->standing();
    CHECK_FALSE(standing.trouble);
    CHECK(standing.waiting == 0);
    CHECK(standing.clockOffMs > 49LL * 3'600'000);
    const auto requests = floor.hub.requests;
    floor.write(1);
    floor.handover->begin();
    floor.hub.answer();
    CHECK(floor.hub.requests == requests + 1);
    CHECK_FALSE(floor.handover->standing().trouble); // the first stamp is right already
    floor.hub.answerAll();

    floor.hub.nowMs = floor.clock.stamp.wallMs;
    floor.round();
    CHECK(floor.handover->standing().clockOffMs == 0);
}

TEST_CASE("a hub that refuses the stamp by its own clock is not asked for ever")
{
    Floor floor;
    floor.enrol();
    floor.handover->begin();
    const auto before = floor.hub.requests;
    handover::Answer never = floor.hub.refused(401, Errc::OutOfRange);
    never.hubTimeMs = floor.clock.stamp.wallMs + 90LL * 24 * 3'600'000;
    while (floor.hub.answer(never)) {
    }
    CHECK(floor.hub.requests == before + 2);
    CHECK(floor.trouble() == "handover.clock");
}

TEST_CASE("records of another tablet come with a round, and the screens hear of it")
{
    Floor floor;
    floor.enrol();
    SteppedClock clock;
    Desk other(2, clock);
    other.putTank("PH-3", "410");
    std::vector<ledger::Entry> entries;
    for (const ledger::Stored& stored : allOf(other.journal)) {
        entries.push_back(stored.entry);
    }
    floor.hub.hub.take(entries);
    const int before = floor.came;
    floor.round();
    CHECK(floor.came == before + 1);
    floor.round();
    CHECK(floor.came == before + 1); // nothing new
    const auto folded = ledger::fold([&](const auto& take) {
        return ledger::readAll(*floor.joined, [&](const auto& stored) -> Done {
            return stored.entry.kind == "note-made" ? Done() : take(stored);
        });
    });
    REQUIRE(folded);
    CHECK(volumeOf(folded->state, "PH-3") == "410 L");
    floor.start();
    CHECK(floor.joined->read(10, 10).value().size() == 1); // held behind its own ten
}

TEST_CASE("a hub file that cannot be read is told and left, and the tablet works without a hub")
{
    Floor floor;
    floor.enrol();
    const std::string path = floor.folder.file("site.hub");
    std::ofstream(path) << "loopside hub 1\nsit";
    floor.start();
    CHECK_FALSE(floor.handover->hub());
    CHECK(floor.trouble() == "handover.hub-file");
    CHECK(floor.handover->standing().waiting == 10);
    CHECK(std::filesystem::file_size(path) == 18);
}

TEST_CASE("pictures go to the hub behind the entries that name them, and once")
{
    Floor floor;
    const std::string file = fileOf("a picture");
    floor.readFile = [&](const std::string&) -> Result<std::string> { return file; };
    floor.start();
    REQUIRE(floor.journal->append(std::vector{sealedBy(floor.recorder, added(file))}));
    floor.enrol();
    floor.round();
    REQUIRE(floor.hub.files.size() == 1);
    CHECK(floor.hub.files.begin()->second == file);
    CHECK(floor.hub.hub.count() == 11);
    CHECK(floor.handover->standing().filesWaiting == 0);
    CHECK_FALSE(floor.handover->standing().trouble);

    floor.hub.files.clear(); // it is not even offered again
    floor.start();
    floor.round();
    CHECK(floor.hub.files.empty());
}

TEST_CASE("a link that is cut among the pictures costs nothing: they go on by themselves")
{
    Floor floor;
    floor.readFile = [&](const std::string&) -> Result<std::string> { return fileOf("a picture"); };
    floor.start();
    floor.enrol();
    REQUIRE(floor.journal->append(std::vector{sealedBy(floor.recorder, added(fileOf("a picture")))}));
    floor.handover->begin();
    while (!floor.hub.isAskedAt("/v1/files/")) {
        REQUIRE(floor.hub.answer());
    }
    REQUIRE(floor.hub.answer(Result<handover::Answer>(fail(Errc::Unavailable, "cut"))));
    CHECK(floor.trouble() == "handover.nobody");
    CHECK(floor.handover->standing().waiting == 0); // the entries are there
    CHECK(floor.handover->standing().filesWaiting == 1);
    floor.clock.stamp.monoNs += handover::Patience::firstS * 1'000'000'000;
    floor.handover->tick();
    floor.hub.answerAll();
    CHECK(floor.hub.files.size() == 1);
    CHECK(floor.trouble().empty());
    CHECK(floor.handover->standing().filesWaiting == 0);
}

TEST_CASE("a hub that takes no pictures, or not this one, has all entries and that is said")
{
    Floor floor;
    floor.readFile = [&](const std::string&) -> Result<std::string> { return fileOf("a picture"); };
    floor.start();
    floor.enrol();
    REQUIRE(floor.journal->append(std::vector{sealedBy(floor.recorder, added(fileOf("a picture")))}));
    SECTION("it is of an older version")
    {
        floor.hub.takesFiles = false;
        floor.round();
        CHECK(floor.trouble() == "handover.no-files");
        CHECK(floor.handover->standing().waiting == 0);
        CHECK(floor.handover->standing().filesWaiting == 1);
        floor.clock.stamp.monoNs += handover::Patience::firstS * 1'000'000'000;
        floor.handover->tick();
        CHECK_FALSE(floor.hub.isAsked()); // it will not learn it so soon
        floor.hub.takesFiles = true;      // it was updated
        floor.round();
        CHECK(floor.trouble().empty());
        CHECK(floor.hub.files.size() == 1);
    }
    SECTION("it refuses one")
    {
        floor.handover->begin();
        while (!floor.hub.isAskedAt("/v1/files/")) {
            REQUIRE(floor.hub.answer());
        }
        REQUIRE(floor.hub.answer(Result<handover::Answer>(floor.hub.refused(409, Errc::Corrupt))));
        CHECK(floor.trouble() == "handover.file-refused");
        CHECK_FALSE(floor.handover->standing().isUnderWay);
        CHECK(floor.handover->standing().filesWaiting == 0);
    }
}

TEST_CASE("a hub that begins with a new record is brought all pictures again")
{
    Floor floor;
    floor.readFile = [&](const std::string&) -> Result<std::string> { return fileOf("a picture"); };
    floor.start();
    REQUIRE(floor.journal->append(std::vector{sealedBy(floor.recorder, added(fileOf("a picture")))}));
    floor.enrol();
    floor.round();
    REQUIRE(floor.hub.files.size() == 1);
    floor.hub.beginAnew();
    floor.round();
    floor.round();
    CHECK(floor.hub.files.size() == 1);
}
