// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/notes_view.h"

#include "app/picture_bytes.h"
#include "app/spoken_note.h"
#include "app_bench.h"
#include "run/notes.h"

#include <QFile>
#include <QTemporaryDir>

#include <catch2/catch.hpp>

#include <cmath>

using namespace loopside;
using namespace loopside::test;

namespace {

QImage noise(int width, int height)
{
    SeededRandom random(3);
    QImage image(width, height, QImage::Format_RGB32);
    for (int y = 0; y < height; ++y) {
        for (int x = 0; x < width; ++x) {
            image.setPixel(x, y, static_cast<QRgb>(random.next()));
        }
    }
    return image;
}

app::NotesView& openedNotes(AppBench& bench)
{
    bench.playScene(text("valve-in-bypass"));
    bench.app()->notes()->open({});
    return *bench.app()->notes();
}

} // namespace

TEST_CASE("a note about a reading says which, and stands with its notes only")
{
    AppBench bench;
    app::NotesView& notes = openedNotes(bench);
    notes.write(text("the line is noisy"));
    const auto& facts = bench.tablet().shown()->facts;
    const auto reading = std::ranges::find_if(
        facts, [](const run::Fact& fact) { return std::holds_alternative<run::ReadingLogged>(fact.original); });
    REQUIRE(reading != facts.end());
    notes.open(QString::fromStdString(toText(reading->header.id)));
    CHECK(notes.aboutText().startsWith(text("About the entry at ")));
    CHECK(notes.rows()->rowCount() == 0);
    notes.write(text("  needle stuck  "));
    CHECK(notes.rows()->rowCount() == 1);
    CHECK(notes.rows()->rows()[0][0].toString().endsWith(text(": needle stuck")));
    notes.open({});
    CHECK(notes.rows()->rowCount() == 2);
    CHECK(bench.entries(text("noted")) == 2);
    notes.write(text("   "));
    CHECK(bench.entries(text("noted")) == 2);
}

TEST_CASE("a drawing is attached whole, and read back from its file")
{
    AppBench bench;
    app::NotesView& notes = openedNotes(bench);
    notes.go(app::NotesView::Mode::Draw);
    CHECK_FALSE(notes.canKeep());
    notes.beginStroke(0.1, 0.1);
    notes.moveStroke(0.9, 0.9);
    const QImage drawn = notes.picture();
    notes.keepPicture(text("where it drips"));
    CHECK(notes.rows()->rows()[0][0].toString().endsWith(text(": where it drips")));
    notes.show(0);
    CHECK(notes.picture().convertToFormat(drawn.format()) == drawn);
}

TEST_CASE("nothing is attached while the disk takes no entry, and the file does no harm")
{
    AppBench bench;
    app::NotesView& notes = openedNotes(bench);
    notes.go(app::NotesView::Mode::Draw);
    notes.beginStroke(0.5, 0.5);
    bench.breakDisk(true);
    notes.keepPicture({});
    CHECK(notes.mode() == app::NotesView::Mode::Draw); // the drawing is still there
    CHECK_FALSE(bench.tablet().trouble().isEmpty());
    bench.breakDisk(false);
    notes.keepPicture({});
    CHECK(bench.entries(text("attachment-added")) == 1);
    CHECK(notes.mode() == app::NotesView::Mode::List);
}

TEST_CASE("a withdrawn picture is gone, and the record says why")
{
    AppBench bench;
    app::NotesView& notes = openedNotes(bench);
    notes.go(app::NotesView::Mode::Draw);
    notes.beginStroke(0.5, 0.5);
    notes.keepPicture({});
    REQUIRE(bench.attachmentFiles() == 1);
    notes.show(0);
    notes.withdrawFor(text("  "));
    CHECK(bench.attachmentFiles() == 1); // not without a reason
    notes.withdrawFor(text("wrong pit"));
    CHECK(bench.attachmentFiles() == 0);
    CHECK(notes.rows()->rows()[0][0].toString() == text("Drawing, withdrawn: wrong pit"));
    notes.show(0);
    CHECK_FALSE(notes.shownHasPicture());
    CHECK_FALSE(notes.shownCanBeWithdrawn());
}

TEST_CASE("what is seen or heard is ticked one by one and logged as one entry")
{
    AppBench bench;
    app::NotesView& notes = openedNotes(bench);
    const int before = bench.entries(text("signs-seen"));
    CHECK_FALSE(notes.canLogSigns());
    notes.logSigns();
    CHECK(bench.entries(text("signs-seen")) == before);
    notes.toggleSign(3);
    notes.toggleSign(1);
    notes.toggleSign(0);
    notes.toggleSign(0); // taken back
    notes.toggleSign(5); // there is no such row
    CHECK(notes.signsText().contains(text("Clicking")));
    notes.logSigns();
    CHECK(bench.lastBody(text("signs-seen")).contains(text(R"(["clicking","foam"])")));
    CHECK_FALSE(notes.isOpen());
    notes.open({});
    CHECK_FALSE(notes.canLogSigns());
}

TEST_CASE("a note is read in full where it is opened by its entry")
{
    AppBench bench;
    app::NotesView& notes = openedNotes(bench);
    notes.write(text("the line is noisy"));
    const Id entry = bench.tablet().shown()->facts.back().header.id;
    notes.close();
    notes.open(QString::fromStdString(toText(entry)));
    CHECK(notes.mode() == app::NotesView::Mode::Show);
    CHECK(notes.shownText().endsWith(text("the line is noisy")));
    CHECK_FALSE(notes.shownHasPicture());
}

TEST_CASE("the same picture twice is stored once and told of once for each entry")
{
    AppBench bench;
    app::NotesView& notes = openedNotes(bench);
    const auto drawOne = [&] {
        notes.go(app::NotesView::Mode::Draw);
        notes.beginStroke(0.5, 0.5);
        notes.keepPicture({});
    };
    drawOne();
    drawOne();
    CHECK(bench.tablet().trouble() == text("This is attached already."));
    CHECK(bench.entries(text("attachment-added")) == 1);
    const Id entry = bench.tablet().shown()->facts.front().header.id;
    notes.open(QString::fromStdString(toText(entry)));
    drawOne();
    CHECK(bench.entries(text("attachment-added")) == 2);
    CHECK(bench.attachmentFiles() == 1);
    notes.show(0);
    notes.withdrawFor(text("wrong pit"));
    CHECK(bench.attachmentFiles() == 1); // the other entry shows it still
    notes.open({});
    notes.show(1);
    notes.withdrawFor(text("wrong pit"));
    CHECK(bench.attachmentFiles() == 0);
}

TEST_CASE("a file that gives no picture is told in a sentence")
{
    AppBench bench;
    const QTemporaryDir folder;
    const auto path = [&](const char* name) { return folder.filePath(text(name)); };
    const auto write = [&](const char* name, const QByteArray& bytes) {
        QFile file(path(name));
        REQUIRE((file.open(QIODevice::WriteOnly) && file.write(bytes) == bytes.size()));
    };
    write("text.jpg", "no picture at all");
    write("empty.png", "");
    // a PNG that says it has 60 000 by 60 000 pixels (computed: 14 GB) and goes no further
    QByteArray large = QByteArray::fromHex("89504e470d0a1a0a0000000d494844520000ea600000ea600806000000d7f9c3f3");
    write("large.png", large);
    CHECK(std::string(app::pictureIn(path("text.jpg")).fault) == "app.note.no-picture");
    CHECK(std::string(app::pictureIn(path("empty.png")).fault) == "app.note.no-picture");
    CHECK(std::string(app::pictureIn(path("gone.png")).fault) == "app.note.unreadable");
    CHECK(app::pictureIn(path("large.png")).fault != nullptr);
    bench.putPicture(text("wide.jpg"));
    app::NotesView& notes = openedNotes(bench);
    notes.lookIn(folder.path());
    notes.chooseFile(2);
    CHECK_FALSE(notes.canKeep());
    CHECK_FALSE(notes.pictureText().isEmpty());
}

TEST_CASE("a picture larger than it is kept is read at the size that is kept")
{
    const QTemporaryDir folder;
    const QString path = folder.filePath(text("wide.jpg"));
    REQUIRE(noise(3200, 2000).save(path));
    const auto read = app::pictureIn(path);
    CHECK(read.fault == nullptr);
    CHECK(read.picture.size() == QSize(1600, 1000));
}

TEST_CASE("a picture as noisy as can be still fits, a small one keeps its size")
{
    const QByteArray large = app::photoBytes(noise(2400, 1800));
    CHECK(large.size() > 1000);
    CHECK(large.size() <= run::attachmentBytesMax);
    CHECK_FALSE(QImage::fromData(large).isNull());
    CHECK(app::drawingBytes(noise(1200, 640)).size() <= run::attachmentBytesMax);
    CHECK(QImage::fromData(app::photoBytes(noise(80, 60))).size() == QSize(80, 60));
    CHECK(app::photoBytes(QImage()).isEmpty());
}

TEST_CASE("a spoken note fits and is heard as it was spoken, as well as a telephone does")
{
    std::vector<std::int16_t> tone;
    for (int i = 0; i < app::spokenRate * 40; ++i) {
        tone.push_back(static_cast<std::int16_t>(12000.0 * std::sin(i * 0.3)));
    }
    const QByteArray wav = app::wavOf(tone);
    CHECK(wav.size() <= run::attachmentBytesMax);
    const auto heard = app::samplesOf(wav);
    REQUIRE(heard);
    REQUIRE(heard->size() == static_cast<std::size_t>(app::spokenRate) * app::spokenSecondsMax);
    for (std::size_t i = 0; i < 1000; ++i) {
        // a segment of µ-law has 16 steps: off by a 32nd of the sample at most, and by 4 near nothing (computed)
        CHECK(std::abs((*heard)[i] - tone[i]) <= std::abs(tone[i]) / 32 + 8);
    }
    CHECK_FALSE(app::samplesOf(QByteArray("RIFF no sound")));
}

TEST_CASE("sound of another rate keeps its length")
{
    const std::vector<std::int16_t> level(44'100, 1000);
    const auto slower = app::atSpokenRate(level, 44'100);
    CHECK(std::abs(static_cast<int>(slower.size()) - app::spokenRate) <= 1);
    CHECK(std::ranges::count(slower, 1000) == static_cast<std::ptrdiff_t>(slower.size()));
}

TEST_CASE(
    "what is typed and drawn of a note outlives the tablet, is offered about the same thing alone and logged by nobody")
{
    AppBench bench;
    app::NotesView& begun = openedNotes(bench);
    begun.setDraft(text("drips at the pump"));
    begun.setCaption(text("seen from below"));
    begun.go(app::NotesView::Mode::Draw);
    begun.beginStroke(0.1, 0.2);
    begun.moveStroke(0.3, 0.4);
    begun.endStroke();
    const QImage drawn = begun.picture();
    bench.restart();
    app::NotesView& notes = *bench.app()->notes();
    notes.open(QString::fromStdString(toText(bench.tablet().shown()->facts.front().header.id)));
    CHECK(notes.draft().isEmpty());
    notes.open({});
    CHECK(notes.draft() == text("drips at the pump"));
    CHECK(notes.caption() == text("seen from below"));
    notes.go(app::NotesView::Mode::Draw);
    CHECK(notes.picture() == drawn);
    CHECK(bench.entries(text("noted")) + bench.entries(text("attachment-added")) == 0);
    notes.keepPicture(notes.caption());
    notes.write(notes.draft());
    bench.restart();
    bench.app()->notes()->open({});
    CHECK(bench.app()->notes()->draft().isEmpty());
    CHECK(bench.app()->notes()->caption().isEmpty());
    bench.app()->notes()->go(app::NotesView::Mode::Draw);
    CHECK_FALSE(bench.app()->notes()->canKeep());
}

TEST_CASE("the sheet of notes closes with its page and with its run")
{
    AppBench bench;
    app::NotesView& notes = openedNotes(bench);
    const Id run = bench.tablet().shown()->id;
    notes.go(app::NotesView::Mode::Write);
    bench.app()->showShift();
    CHECK_FALSE(notes.isOpen());
    notes.open({});
    bench.tablet().show(Id{});
    CHECK_FALSE(notes.isOpen());
    bench.tablet().show(run);
    CHECK_FALSE(notes.isOpen());
}

TEST_CASE("a picture that was chosen waits until its sheet is open again")
{
    AppBench bench;
    app::NotesView& notes = openedNotes(bench);
    bench.putPicture(text("dial.jpg"));
    notes.go(app::NotesView::Mode::Pick);
    notes.chooseFile(0);
    REQUIRE(notes.canKeep());
    bench.app()->showShift();
    notes.open({});
    CHECK(notes.mode() == app::NotesView::Mode::Preview);
    notes.keepPicture({});
    CHECK(bench.entries(text("attachment-added")) == 1);
    notes.close();
    notes.open({});
    CHECK(notes.mode() == app::NotesView::Mode::List);
}

TEST_CASE("what is see-through in a picture becomes white")
{
    QImage glass(40, 40, QImage::Format_ARGB32);
    glass.fill(Qt::transparent);
    const QImage kept = QImage::fromData(app::photoBytes(glass));
    CHECK(kept.pixelColor(20, 20).lightness() > 250);
}
