// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "paper/record_pdf.h"

#include "base/require.h"
#include "base/text.h"
#include "paper/document_picture.h"
#include "paper/gui.h"
#include "paper/qr.h"
#include "paper/record_html.h"
#include "paper/run_trend.h"
#include "paper/text.h"
#include "paper/trend.h"

#include <QAbstractTextDocumentLayout>
#include <QBuffer>
#include <QPageSize>
#include <QPainter>
#include <QPdfWriter>
#include <QTextCursor>
#include <QTextDocument>

#include <algorithm>
#include <iterator>
#include <memory>
#include <span>

namespace loopside::paper {

namespace {

using report::RunRecord;

constexpr double mmOfInch = 25.4;
constexpr int dotsOfInch = 600;
constexpr double marginMm = 12.0;
constexpr double footerMm = 9.0;
constexpr double qrMm = 30.0;
constexpr double textPt = 7.0;
constexpr double footerPt = 6.0;
const QString family = QStringLiteral("B612");

double dots(double mm)
{
    return mm / mmOfInch * dotsOfInch;
}

TrendStyle printStyle()
{
    return {.ground = Qt::white,
            .ink = Qt::black,
            .dim = QColor(0x40, 0x40, 0x40),
            .line = QColor(0xa0, 0xa0, 0xa0),
            .limit = QColor(0x9a, 0x1b, 0x1b),
            .shade = QColor(0xe4, 0xe4, 0xe4),
            .stages = {QColor(0x0b, 0x4f, 0x9e), QColor(0x8a, 0x3c, 0x00), QColor(0x1b, 0x6b, 0x2f),
                       QColor(0x5a, 0x2d, 0x82)},
            .family = family,
            .textPx = textPt / 72.0 * dotsOfInch,
            .strokePx = dots(0.5)};
}

/// Draws pages, each with its footer.
class Pages
{
public:
    Pages(QPdfWriter& writer, const RunRecord& record, const words::Words& words)
        : writer_{writer}, record_{record}, words_{words}, area_(0, 0, writer.width(), writer.height())
    {
    }

    [[nodiscard]] QSizeF bodySize() const { return {area_.width(), area_.height() - dots(footerMm)}; }

    /// Every page of `documents`, one document behind the other.
    void draw(const std::vector<QTextDocument*>& documents)
    {
        QPainter painter(&writer_);
        int pages = 0;
        for (const QTextDocument* document : documents) {
            pages += document->pageCount();
        }
        int drawn = 0;
        for (QTextDocument* document : documents) {
            for (int page = 0; page < document->pageCount(); ++page) {
                if (drawn > 0) {
                    writer_.newPage();
                }
                drawPage(painter, *document, page);
                drawFooter(painter, ++drawn, pages);
            }
        }
    }

private:
    void drawPage(QPainter& painter, QTextDocument& document, int page)
    {
        if (record_.isPractice) {
            drawPractice(painter);
        }
        drawBody(painter, document, page);
    }

    void drawBody(QPainter& painter, QTextDocument& document, int page)
    {
        const QRectF body(QPointF(0, page * bodySize().height()), bodySize());
        painter.save();
        painter.translate(0, -body.top());
        painter.setClipRect(body);
        QAbstractTextDocumentLayout::PaintContext context;
        context.clip = body;
        context.palette.setColor(QPalette::Text, Qt::black);
        document.documentLayout()->draw(&painter, context);
        painter.restore();
    }

    void drawFooter(QPainter& painter, int page, int pages)
    {
        QFont font(family);
        font.setPointSizeF(footerPt);
        painter.setFont(font);
        painter.setPen(Qt::black);
        const QRectF footer(0, area_.height() - dots(footerMm), area_.width(), dots(footerMm));
        painter.drawLine(footer.topLeft() + QPointF(0, dots(2.0)), footer.topRight() + QPointF(0, dots(2.0)));
        painter.drawText(footer, Qt::AlignBottom | Qt::AlignLeft, toQt(record_.code + "   " + record_.digest));
        if (record_.isPractice) {
            painter.drawText(footer, Qt::AlignBottom | Qt::AlignHCenter, toQt(words_.say("report.practice")));
        }
        painter.drawText(
            footer, Qt::AlignBottom | Qt::AlignRight,
            toQt(words_.say({"report.page", {{"page", std::to_string(page)}, {"pages", std::to_string(pages)}}})));
    }

    void drawPractice(QPainter& painter)
    {
        painter.save();
        QFont font(family);
        font.setPointSizeF(80.0);
        painter.setFont(font);
        painter.setPen(QColor(0xd8, 0xd8, 0xd8));
        painter.translate(area_.center());
        painter.rotate(-55.0);
        const QRectF place(-area_.height() / 2.0, -area_.width() / 4.0, area_.height(), area_.width() / 2.0);
        painter.drawText(place, Qt::AlignCenter, toQt(words_.say("report.practice")));
        painter.restore();
    }

    QPdfWriter& writer_;
    const RunRecord& record_;
    const words::Words& words_;
    QRectF area_;
};

Result<words::Words> wordsOf(const report::Telling& telling)
{
    auto words = words::Words::in(telling.language);
    if (words) {
        words->want(telling.wanted);
    }
    return words;
}

/// Cut where the run ended: results that come days later would leave a long empty axis.
void endAt(Trend& trend, double minute)
{
    trend.endMinute = std::max(1.0, minute);
    trend.spans.removeIf([&](const TrendSpan& span) { return span.from >= trend.endMinute; });
    for (TrendSpan& span : trend.spans) {
        span.to = std::min(span.to, trend.endMinute);
    }
}

/// The trend of `run` up to where it ended.
Trend trendOf(const run::RunState& run, const words::Words& words)
{
    const run::RunTime end = run.closed ? run.closedAt : report::lastOf(run);
    Trend trend = runTrend(words, run, run::standingOf(run, report::lastOf(run)), nullptr);
    constexpr double minuteMs = 60'000.0;
    constexpr double roomBehind = 1.05; // for the names of the curves
    endAt(trend, roomBehind * static_cast<double>(end.count()) / minuteMs);
    return trend;
}

/// Writes when the last entry was made over the time of the clock that Qt put there, in as many signs.
void setDate(QByteArray& pdf, std::int64_t wallMs)
{
    const QByteArray key("/CreationDate (D:");
    const qsizetype from = pdf.indexOf(key) + key.size();
    const qsizetype to = pdf.indexOf(')', from);
    std::string date;
    std::ranges::copy_if(utcText(wallMs), std::back_inserter(date),
                         [](char sign) { return sign >= '0' && sign <= '9'; });
    constexpr std::size_t toSeconds = 14;
    date.resize(toSeconds);
    date += to - from == static_cast<qsizetype>(toSeconds) + 1 ? "Z" : "+00'00'";
    require(from >= key.size() && to - from == static_cast<qsizetype>(date.size()), "Qt dates its PDF as it did");
    pdf.replace(from, to - from, QByteArray::fromStdString(date));
}

DocumentPicture sealPicture(const RunRecord& record)
{
    constexpr int modulePx = 8;
    return {QSizeF(dots(qrMm), dots(qrMm)),
            [image = qrImage(report::sealOf(record), modulePx)](QPainter& painter, const QRectF& place) {
                painter.drawImage(place, image);
            }};
}

/// Its size is still to be told.
DocumentPicture chartPicture(Trend trend)
{
    return {{}, [trend = std::move(trend), style = printStyle()](QPainter& painter, const QRectF& place) {
                paintTrend(painter, place, trend, style);
            }};
}

/// As large as there is room for beside another, at most.
DocumentPicture kept(const QImage& image, double bodyWidth)
{
    constexpr double withinCell = 0.47;
    constexpr double highestMm = 75.0;
    const QSizeF room(withinCell * bodyWidth, dots(highestMm));
    return {QSizeF(image.size()).scaled(room, Qt::KeepAspectRatio),
            [image](QPainter& painter, const QRectF& place) { painter.drawImage(place, image); }};
}

/// The pictures of a run and what they show; where one cannot be shown, a picture of no size.
struct Album
{
    std::vector<PictureShown> told;
    std::vector<DocumentPicture> pictures;
};

Album albumOf(const std::vector<report::AttachmentTold>& told, const PictureBy& pictureBy, const words::Words& words,
              double bodyWidth)
{
    Album album;
    for (const report::AttachmentTold& picture : told) {
        const auto content = pictureBy(picture.hash);
        const QImage image = content ? QImage::fromData(QByteArray::fromStdString(*content)) : QImage();
        const std::string trouble = !content ? words.say(content.error())
            : image.isNull()                 ? words.say("app.note.no-picture")
                                             : std::string();
        album.told.push_back({picture, trouble});
        album.pictures.push_back(kept(image, bodyWidth));
        if (album.told.size() + firstPicturePlace == documentPicturesMax) {
            break;
        }
    }
    return album;
}

/// `html` laid out on pages of `size`, with `pictures` where it has places for them. Uses `pictures` as long as it
/// lives.
std::unique_ptr<QTextDocument> laidOut(QPdfWriter& writer, const QString& html, const QSizeF& size,
                                       const std::vector<DocumentPicture>& pictures)
{
    QFont font(family);
    font.setPointSizeF(textPt);
    auto document = std::make_unique<QTextDocument>();
    document->setDefaultFont(font);
    document->setDocumentMargin(0);
    document->documentLayout()->setPaintDevice(&writer);
    document->setDefaultStyleSheet(recordStyleSheet());
    document->setHtml(html);
    insertPictures(*document, pictures);
    document->setPageSize(size);
    return document;
}

/// The first page, its curve as high as there is room for it. Where even the lowest has none, it goes over more pages.
std::unique_ptr<QTextDocument> frontOf(QPdfWriter& writer, const QString& html, const QSizeF& size,
                                       std::vector<DocumentPicture>& pictures)
{
    constexpr double highestMm = 76.0;
    constexpr double lowestMm = 40.0;
    constexpr double stepMm = 4.0;
    constexpr double withinLine = 0.99;
    std::unique_ptr<QTextDocument> document;
    for (double heightMm = highestMm; heightMm >= lowestMm; heightMm -= stepMm) {
        pictures[chartPlace].size = QSizeF(withinLine * size.width(), dots(heightMm));
        document = laidOut(writer, html, size, pictures);
        if (document->pageCount() == 1) {
            break;
        }
    }
    return document;
}

void setUp(QPdfWriter& writer, const report::RecordFile& file, PaperSize size)
{
    writer.setResolution(dotsOfInch);
    writer.setPageSize(QPageSize(size == PaperSize::A4 ? QPageSize::A4 : QPageSize::Letter));
    writer.setPageMargins({marginMm, marginMm, marginMm, marginMm}, QPageLayout::Millimeter);
    writer.setTitle(toQt(file.record.title + " " + file.record.code));
    writer.setCreator(toQt("Loopside " + file.program));
    writer.addFileAttachment(toQt("record-" + file.record.code + ".json"),
                             QByteArray::fromStdString(report::jsonOf(file)), QStringLiteral("application/json"));
}

} // namespace

Result<PaperSize> paperSizeNamed(std::string_view name)
{
    const QString size = toQt(name).toLower();
    if (size != QLatin1String("a4") && size != QLatin1String("letter")) {
        return fail(Errc::NotFound, "\"" + quotable(name) + "\" is no size of paper that is known: A4 or Letter");
    }
    return size == QLatin1String("a4") ? PaperSize::A4 : PaperSize::Letter;
}

Result<std::string> recordPdf(const report::RecordFile& file, PaperSize size, const PictureBy& pictureBy)
{
    startGui();
    const auto words = wordsOf(file.telling);
    const auto run = words ? report::runOf(file.evidence) : fail(words.error());
    if (!run) {
        return fail(run.error());
    }
    QBuffer bytes;
    bytes.open(QIODevice::WriteOnly);
    QPdfWriter writer(&bytes);
    setUp(writer, file, size);
    Pages pages(writer, file.record, *words);
    const QSizeF body = pages.bodySize();
    std::vector<DocumentPicture> pictures = {sealPicture(file.record), chartPicture(trendOf(*run, *words))};
    const Album album = pictureBy
        ? albumOf(report::picturesOf(*words, *run, report::nameIn(file.telling.names)), pictureBy, *words, body.width())
        : Album();
    pictures.insert(pictures.end(), album.pictures.begin(), album.pictures.end());
    constexpr double htmlDotsOfInch = 96.0;
    const int sealDots = qRound(qrMm / mmOfInch * htmlDotsOfInch);
    const auto front = frontOf(writer, frontHtml(file.record, *words, sealDots), body, pictures);
    const QString behind = behindHtml(file.record)
        + (album.told.empty() ? QString() : picturesHtml(album.told, *words));
    const auto rest = laidOut(writer, behind, body, pictures);
    pages.draw({front.get(), rest.get()});
    QByteArray pdf = bytes.data();
    setDate(pdf, file.evidence.entries.back().header.entered.wallMs);
    return pdf.toStdString();
}

} // namespace loopside::paper
