// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/close_out_view.h"

#include "app_bench.h"
#include "run/notes.h"
#include "store/files.h"

#include <QDir>
#include <QFile>

#include <catch2/catch.hpp>

#include <thread>

using namespace loopside;
using namespace loopside::test;

namespace {

/// A run that is over and signed, on a tablet whose record stands in a file.
struct SignedBench : AppBench
{
    SignedBench()
    {
        beginOnDisk();
        playScene(QStringLiteral("cold-oil"));
        const Id run = tablet().shown()->id;
        REQUIRE(tablet().submit(run::CloseRun{run, run::Ending::StoppedEarly, "shift over"}));
        app()->openCloseOut();
        answerAll(*this, *view().points());
        REQUIRE(keys() == QStringList{text("I sign this run")});
        view().press(QStringLiteral("sign"));
        REQUIRE(view().isSigned());
    }

    [[nodiscard]] app::CloseOutView& view() const { return *app()->closeOut(); }

    [[nodiscard]] QStringList keys() const
    {
        QStringList texts;
        for (const auto& row : view().keys()->rows()) {
            texts.append(row[0].toString());
        }
        return texts;
    }

    void press(int key) { view().press(view().keys()->rows()[key][1].toString()); }

    void finish()
    {
        for (int i = 0; view().recordText().contains(text("being written")) && i < 20'000; ++i) {
            std::this_thread::sleep_for(std::chrono::milliseconds(1));
            pass(1);
        }
    }
};

QStringList filesIn(const QString& folder)
{
    return QDir(folder).entryList(QDir::Files);
}

} // namespace

TEST_CASE("the record of a signed run is written as a PDF beside the work, and told when it is on disk")
{
    SignedBench bench;
    REQUIRE(bench.keys() == QStringList{text("Record as PDF")});
    CHECK(bench.view().recordText().isEmpty());
    bench.press(0);
    CHECK(bench.view().recordText().contains(text("being written")));
    CHECK(bench.keys().isEmpty());
    CHECK(bench.tablet().submit(run::Tick{})); // the tablet goes on working
    bench.finish();
    const QStringList written = filesIn(bench.recordFolder());
    REQUIRE(written.size() == 1);
    CHECK(written[0].startsWith(text("record-")));
    CHECK(bench.view().recordText() == text("The record is written: ") + bench.recordFolder() + text("/") + written[0]);
    CHECK(bench.keys() == QStringList{text("Record as PDF")});
    QFile file(bench.recordFolder() + text("/") + written[0]);
    REQUIRE(file.open(QIODevice::ReadOnly));
    CHECK(file.read(5) == "%PDF-");
}

TEST_CASE("the record goes to the hub behind the journal, each as it was at its moment, where there is a hub")
{
    SignedBench bench;
    const auto attached = [&] { return run::attachmentsOf(*bench.tablet().shown()); };
    bench.press(0);
    bench.finish();
    CHECK(attached().empty());
    CHECK_FALSE(bench.view().recordText().contains(text("goes to the hub")));

    bench.tablet().setHanded(true, 0);
    bench.press(0);
    bench.finish();
    REQUIRE(attached().size() == 1);
    CHECK(attached()[0].added.kind == run::AttachmentKind::Document);
    CHECK(bench.view().recordText().contains(text("goes to the hub")));
    const auto content = bench.tablet().attachment(attached()[0].added.hash);
    REQUIRE(content);
    CHECK(content->starts_with("%PDF-"));
    CHECK(static_cast<std::int64_t>(content->size()) == attached()[0].added.bytes);
    bench.press(0); // nothing was said since
    bench.finish();
    CHECK(attached().size() == 1);
    CHECK(bench.view().recordText().contains(text("goes to the hub")));
    REQUIRE(bench.tablet().say(run::Said(run::Noted{"told later", {}})));
    bench.press(0);
    bench.finish();
    CHECK(attached().size() == 2);
}

TEST_CASE("a record of what is known later stands beside the earlier one")
{
    SignedBench bench;
    bench.press(0);
    bench.finish();
    REQUIRE(bench.tablet().say(run::Said(run::Noted{"told later", {}})));
    bench.press(0);
    bench.finish();
    CHECK(filesIn(bench.recordFolder()).size() == 2);
}

TEST_CASE("the record goes onto a stick that is in the tablet, and what stands in the way is told")
{
    SignedBench bench;
    bench.writeStick(QStringLiteral("here.txt"), {});
    bench.app()->openCloseOut();
    REQUIRE(bench.keys() == QStringList{text("Record as PDF"), text("Record as PDF, onto “STICK”")});
    const QString root = bench.view().keys()->rows()[1][1].toString().mid(7);
    bench.press(1);
    bench.finish();
    CHECK(filesIn(root).filter(text("record-")).size() == 1);
    CHECK(filesIn(bench.recordFolder()).isEmpty());

    const QString onto = bench.view().keys()->rows()[1][1].toString();
    bench.pullStick();
    QFile inItsPlace(root); // a file where the stick was mounted: nothing can be written there
    REQUIRE(inItsPlace.open(QIODevice::WriteOnly));
    bench.view().press(onto);
    bench.finish();
    CHECK(bench.view().recordText().startsWith(text("The record could not be written: ")));
    CHECK(bench.view().recordText().contains(text("cannot be written; see that its folder is there"))); // as in words
    CHECK(bench.view().recordText().contains(text("The run itself is kept.")));
    CHECK(inItsPlace.remove());
}
