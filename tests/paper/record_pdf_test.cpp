// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The record on paper, read back by other programs (printed.h).

#include "paper/record_pdf.h"

#include "base/text.h"
#include "paper/pdf_record.h"
#include "printed.h"
#include "report/short_run.h"
#include "report/told_story.h"

#include <QBuffer>

#include <set>
#include <sstream>

using Catch::Contains;
using namespace loopside;
using namespace loopside::paper;
using namespace loopside::test;

namespace {

std::set<std::string> wordsOf(const std::string& text)
{
    std::istringstream stream(withPlainBlanks(text));
    std::set<std::string> words;
    for (std::string word; stream >> word;) {
        words.insert(word);
    }
    return words;
}

/// The words of `cells` that are not among those of `text`. A word that was broken over two lines is looked for without
/// the break.
std::string missingIn(const std::string& text, const std::string& cells)
{
    const std::set<std::string> there = wordsOf(text);
    std::string closed;
    std::ranges::copy_if(text, std::back_inserter(closed), [](char sign) { return sign != ' '; });
    std::string missing;
    for (const std::string& word : wordsOf(cells)) {
        if (!there.contains(word) && closed.find(word) == std::string::npos) {
            missing += word + " ";
        }
    }
    return missing;
}

Printed printed(const report::RecordFile& file, PaperSize size = PaperSize::A4)
{
    const auto pdf = recordPdf(file, size);
    REQUIRE(pdf);
    return Printed(*pdf);
}

/// The record of a run of which nothing was said but `said`.
report::RecordFile recordOfShortRun(const run::Setup& setup, const std::vector<run::Said>& said = {})
{
    ShortRun run(setup);
    for (const run::Said& one : said) {
        run.say(one);
    }
    return report::recordFileOf("0.1.0", run.evidence(), {}).value();
}

report::RecordFile practised()
{
    run::Setup setup = bareSetup();
    setup.isPractice = true;
    return recordOfShortRun(setup);
}

run::AttachmentAdded attached(char digit, const std::string& caption)
{
    return {.hash = std::string(64, digit), .bytes = 100, .mediaType = "image/png", .caption = caption};
}

std::string redPng()
{
    QImage image(60, 40, QImage::Format_RGB32);
    image.fill(Qt::red);
    QBuffer bytes;
    bytes.open(QIODevice::WriteOnly);
    image.save(&bytes, "PNG");
    return bytes.data().toStdString();
}

int redPixels(const QImage& page)
{
    int red = 0;
    for (int y = 0; y < page.height(); ++y) {
        for (int x = 0; x < page.width(); ++x) {
            const QColor colour = page.pixelColor(x, y); // not quite as it was: the PDF holds it as a JPEG
            red += colour.red() > 240 && colour.green() < 15 && colour.blue() < 15 ? 1 : 0;
        }
    }
    return red;
}

} // namespace

TEST_CASE("the first page of a record has the verdict, the curve, bottles, elements, cost, signatures and the digest")
{
    const PaperSize size = GENERATE(PaperSize::A4, PaperSize::Letter);
    const report::RecordFile file = fileOfStory(awkwardRun);
    const std::string first = printed(file, size).words(1, 1);
    CAPTURE(first);
    CHECK_THAT(first,
               Contains("Not proven: bottle A2 has 18/16/13, target 17/15/12")
                   && Contains("Raw ΔP against the limits, and loading") && Contains("raw ΔP, psi")
                   && Contains("Page 1 of "));
    CHECK(missingIn(first, file.record.title + " " + file.record.subject + " " + file.record.code) == "");
    CHECK(missingIn(first, file.record.digest) == "");
    for (const char* id : {"run", "result", "sizes", "samples", "stages", "cost", "signatures"}) {
        CAPTURE(id);
        CHECK_THAT(first, Contains(file.record.table(id).title));
        CHECK(missingIn(first, linesOf(file.record.table(id))) == "| ");
    }
    CHECK_THAT(first, !Contains(file.record.table("readings").title + " "));
}

TEST_CASE("every word and number of a record is on its pages, in each language")
{
    const std::string language = GENERATE("en", "es", "de");
    const report::RecordFile file = fileOfStory(awkwardRun, language);
    const std::string all = printed(file).words();
    for (const report::Table& table : file.record.tables) {
        CAPTURE(language, table.id);
        CHECK_THAT(all, Contains(table.title));
        CHECK(missingIn(all, linesOf(table)) == (table.rows.empty() ? "" : "| "));
    }
}

TEST_CASE("the QR code that is read off the first page is the seal of the file that is attached")
{
    const PaperSize size = GENERATE(PaperSize::A4, PaperSize::Letter);
    const report::RecordFile file = fileOfStory(awkwardRun);
    const Printed pages = printed(file, size);
    const std::string seal = qrIn(pages.page(1));
    CHECK(seal == report::sealOf(file.record));
    const auto attached = report::recordFileFrom(pages.attached());
    REQUIRE(attached);
    CHECK(report::checkRecord(*attached, "0.1.0").faults.empty());
    CHECK(report::matchesSeal(*attached, seal));
}

TEST_CASE("a record is printed on the paper that is asked for, the same to the byte, and dated by its last entry")
{
    const report::RecordFile file = fileOfStory(awkwardRun);
    CHECK(recordPdf(file, PaperSize::A4).value() == recordPdf(file, PaperSize::A4).value());
    CHECK_THAT(printed(file, PaperSize::A4).about(), Contains("(A4)"));
    CHECK_THAT(printed(file, PaperSize::Letter).about(), Contains("(letter)"));
    const std::string day = utcText(file.evidence.entries.back().header.entered.wallMs).substr(0, 10);
    CHECK_THAT(recordPdf(file, PaperSize::A4).value(),
               Contains("/CreationDate (D:" + day.substr(0, 4) + day.substr(5, 2) + day.substr(8, 2)));
    CHECK(paperSizeNamed("letter").value() == PaperSize::Letter);
    CHECK(paperSizeNamed("a4").value() == PaperSize::A4);
    CHECK(paperSizeNamed("A5").error().code == Errc::NotFound);
}

TEST_CASE("practice is written across and below each page of its record")
{
    const Printed practice = printed(practised());
    CHECK_THAT(practice.words(1, 1), Contains("PRACTICE"));
    CHECK_THAT(practice.words(2, 2), Contains("P R A C T I C E") && Contains("PRACTICE"));
    CHECK_THAT(printed(fileOfStory(awkwardRun)).words(), !Contains("PRACTICE"));
}

TEST_CASE("pictures stand behind the tables with their captions, and where one cannot be shown, why")
{
    const report::RecordFile file = recordOfShortRun(
        bareSetup(), {attached('a', "dripping coupling"), attached('b', "torn element"), attached('c', "sight glass")});
    const auto pictureBy = [](const std::string& hash) -> Result<std::string> {
        return hash[0] == 'a' ? Result<std::string>(redPng())
            : hash[0] == 'b'  ? Result<std::string>("no picture at all")
                              : Result<std::string>(fail(Errc::NotFound, "the file is not there"));
    };
    const auto pdf = recordPdf(file, PaperSize::A4, pictureBy);
    REQUIRE(pdf);
    const Printed pages(*pdf);
    CHECK_THAT(pages.words(2),
               Contains("Pictures") && Contains("dripping coupling") && Contains("aaaaaaaaaaaaaaaa")
                   && Contains("torn element") && Contains("This cannot be read as a picture.")
                   && Contains("sight glass"));
    constexpr int mostOfIt = 200'000; // 88 mm by 59 mm at 200 dots an inch are 322 000
    CHECK(redPixels(pages.page(2)) > mostOfIt);
    const Printed without = printed(file);
    CHECK_THAT(without.words(), !Contains("Pictures"));
    CHECK(redPixels(without.page(2)) == 0);
}

TEST_CASE("the file that is attached to a record's PDF comes out of it as it went in, and no larger one than may be")
{
    const report::RecordFile file = recordOfShortRun(bareSetup());
    const auto pdf = recordPdf(file, PaperSize::A4);
    REQUIRE(pdf);
    CHECK(isPdf(*pdf));
    const auto attached = recordAttached(*pdf, report::recordBytesMax);
    REQUIRE(attached);
    CHECK(*attached == report::jsonOf(file));
    CHECK(recordAttached(*pdf, attached->size()));
    const auto tooLarge = recordAttached(*pdf, attached->size() - 1);
    REQUIRE_FALSE(tooLarge);
    CHECK_THAT(tooLarge.error().sentence, Contains("larger than any record"));
    CHECK_FALSE(recordAttached("%PDF-1.7\nnothing of it", report::recordBytesMax));
    CHECK_FALSE(isPdf("{}"));
}
