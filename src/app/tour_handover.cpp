// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The handover: a tablet that has no hub yet, and one whose hub does not answer.

#include "app/tour.h"
#include "handover/handover.h"
#include "store/sqlite_journal.h"

#include <QTemporaryDir>

#include <utility>

namespace loopside::app {

namespace {

/// Nobody answers, once somebody asks for the answer.
class NobodyThere final : public handover::Carrier
{
public:
    void send(handover::Post post, Heard heard) override
    {
        address_ = post.address;
        heard_ = std::move(heard);
    }
    void giveUp() override { heard_ = nullptr; }

    void answer()
    {
        if (const Heard heard = std::exchange(heard_, nullptr)) {
            heard(fail(Errc::Unavailable, "nobody", {"handover.nobody", {{"hub", address_}}}));
        }
    }

private:
    std::string address_;
    Heard heard_;
};

} // namespace

bool Tour::handover()
{
    const QTemporaryDir folder;
    const std::string path = folder.path().toStdString() + "/journal.sqlite";
    const std::string hubFile = folder.path().toStdString() + "/site.hub";
    auto journal = store::SqliteJournal::open(path);
    if (!journal) {
        return complainOf(QString::fromStdString(journal.error().sentence));
    }
    handover::JoinedJournal joined(**journal);
    const ledger::DeviceKey key = ledger::DeviceKey::fromSeed({9});
    TourClock clock;
    NobodyThere carrier;
    HandoverView* view = stage_.view.handover();
    view->setBattery([] { return std::optional<Battery>(); });
    const auto show = [&](const char* name) -> Done {
        auto opened = handover::Handover::open(
            {path, **journal, joined, {}, hubFile, {{9}}, key, "tablet", clock, carrier, [] { return sync::Nonce{}; }});
        if (!opened) {
            return fail(opened.error());
        }
        view->setHandover(opened->get());
        stage_.view.showHandover();
        view->begin();
        carrier.answer();
        isFine_ = picture(QString::fromLatin1(name)) && isFine_;
        view->setHandover(nullptr);
        return {};
    };
    const Done shown =
        show("00-handover-new")
            .and_then([&] { return handover::writeHub(hubFile, {"hub.plant.example:8443", {}, {}}); })
            .and_then([&] {
                SeededRandom random(9);
                IdMaker ids(random);
                const auto sealer = ledger::Sealer::startChain({{9}}, {{9}}, ledger::DeviceKey::fromSeed({9}));
                const std::vector<ledger::Draft> drafts = {sealer.chainOpened()};
                return (*journal)->append(sealer.seal(drafts, stage_.tablet.now(), {{3}}, ids)).transform([](auto) {});
            })
            .and_then([&] { return show("00-handover-nobody"); });
    stage_.tablet.setHanded(false, 0);
    stage_.view.showShift();
    return shown ? true : complainOf(QString::fromStdString(shown.error().sentence));
}

} // namespace loopside::app
