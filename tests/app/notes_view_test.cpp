// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/notes_view.h"

#include "app/picture_bytes.h"
#include "app/spoken_note.h"
#include "app_bench.h"
#include "run/notes.h"

#include <catch2/catch.hpp>

#include <cmath>

namespace loopside::test {

namespace {

QString text(const char* latin)
{
    return QString::fromLatin1(latin);
}

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
    CHECK(notes.mode() == app::NotesView::Mode::List);
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

} // namespace loopside::test
