// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "cli/written_journal.h"

#include "ledger/logbook.h"
#include "ledger/some_setup.h"
#include "store/attachment_folder.h"
#include "store/key_file.h"
#include "store/sqlite_journal.h"

#include <catch2/catch.hpp>

namespace loopside::test {

namespace {

class StillClock final : public Clock
{
public:
    Stamp now() override { return {1'752'300'900'000, 0, 0, {}}; }
};

run::AttachmentAdded attached(const std::string& journal, const std::string& picture)
{
    store::Salt salt = {};
    salt.fill(static_cast<std::uint8_t>(picture.size()));
    const auto hash = store::AttachmentFolder::besideJournal(journal).keep(picture, salt);
    REQUIRE(hash);
    return {run::AttachmentKind::Photo, {}, *hash, static_cast<std::int64_t>(picture.size()), "image/png"};
}

} // namespace

void writeNotes(const std::string& journal, const std::string& key, const std::vector<std::string>& texts,
                const std::string& picture)
{
    const auto opened = store::SqliteJournal::open(journal);
    REQUIRE(opened);
    StillClock clock;
    SeededRandom random(std::hash<std::string>{}(journal + texts.front()));
    auto logbook = ledger::Logbook::open(**opened, clock, random);
    REQUIRE(logbook);
    auto secret = store::loadOrCreateKey(key);
    REQUIRE(secret);
    const ledger::Hand hand{store::deviceOf(*secret), Id{.bytes = {2}}};
    REQUIRE(logbook->enrol(hand.device, *std::move(secret)));
    const Id run = logbook->newId();
    REQUIRE(logbook->submit(run::OpenRun{run, bareSetup()}, hand));
    for (const std::string& text : texts) {
        REQUIRE(logbook->submit(run::Say{run, run::Noted{text}}, hand));
    }
    if (!picture.empty()) {
        REQUIRE(logbook->submit(run::Say{run, attached(journal, picture)}, hand));
    }
}

} // namespace loopside::test
