// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "paper/record_pdf.h"

#include "base/require.h"
#include "base/text.h"
#include "paper/document_picture.h"
#include "paper/gui.h"
#include "paper/qr.h"
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
using report::Table;

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

QString escaped(std::string_view text)
{
    return toQt(text).toHtmlEscaped();
}

/// A cell; what is short stays on one line.
QString cellHtml(const std::string& text, const QString& kind)
{
    constexpr qsizetype shortSigns = 20;
    const QString cell = toQt(text);
    const QString more = cell.size() > shortSigns ? QString() : QStringLiteral(" class='short'");
    return QStringLiteral("<%1%2>%3</%1>").arg(kind, more, cell.toHtmlEscaped());
}

/// A row of cells of one kind, `th` or `td`.
QString rowHtml(const std::vector<std::string>& cells, const QString& kind)
{
    QString html = QStringLiteral("<tr>");
    for (const std::string& cell : cells) {
        html += cellHtml(cell, kind);
    }
    return html + QStringLiteral("</tr>");
}

QString headingHtml(const Table& table)
{
    return QStringLiteral("<h2>%1</h2>").arg(escaped(table.title));
}

/// Names and values; the names stand out.
QString pairsHtml(std::span<const report::Row> rows)
{
    QString html = QStringLiteral("<table width='100%' cellspacing='0'>");
    for (const report::Row& row : rows) {
        html += QStringLiteral("<tr>") + cellHtml(row.cells[0], QStringLiteral("th"))
            + cellHtml(row.cells[1], QStringLiteral("td")) + QStringLiteral("</tr>");
    }
    return html + QStringLiteral("</table>");
}

QString besideHtml(const QString& left, const QString& right)
{
    return QStringLiteral("<table width='100%' cellspacing='0'><tr><td width='50%'>%1</td><td width='50%'>%2</td></tr>"
                          "</table>")
        .arg(left, right);
}

/// Figures at the left, and at the right what they rest on: the last row.
QString costHtml(const Table& table)
{
    const std::span rows(table.rows);
    return headingHtml(table) + besideHtml(pairsHtml(rows.first(rows.size() - 1)), pairsHtml(rows.last(1)));
}

/// For each column whether any row has something in it.
std::vector<bool> filledColumns(const Table& table)
{
    std::vector<bool> isFilled;
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
        isFilled.push_back(std::ranges::any_of(table.rows, [&](const auto& row) { return !row.cells[i].empty(); }));
    }
    return isFilled;
}

/// Those of `cells` whose column is shown.
std::vector<std::string> only(const std::vector<std::string>& cells, const std::vector<bool>& isShown)
{
    std::vector<std::string> shown;
    for (std::size_t i = 0; i < cells.size(); ++i) {
        if (isShown[i]) {
            shown.push_back(cells[i]);
        }
    }
    return shown;
}

/// Columns in which no row has anything are left out.
QString listHtml(const Table& table)
{
    if (table.rows.empty()) {
        return headingHtml(table) + QStringLiteral("<p>%1</p>").arg(escaped(table.empty));
    }
    std::vector<std::string> titles;
    for (const report::Column& column : table.columns) {
        titles.push_back(column.title);
    }
    const std::vector<bool> isShown = filledColumns(table);
    QString html = headingHtml(table) + QStringLiteral("<table width='100%' cellspacing='0' class='list'><thead>")
        + rowHtml(only(titles, isShown), QStringLiteral("th")) + QStringLiteral("</thead>");
    for (const report::Row& row : table.rows) {
        html += rowHtml(only(row.cells, isShown), QStringLiteral("td"));
    }
    return html + QStringLiteral("</table>");
}

/// Title, subject, verdict and what must not be passed over, with room for the QR code beside them.
QString headHtml(const RunRecord& record, const words::Words& words)
{
    QString left = QStringLiteral("<h1>%1</h1><p class='subject'>%2</p><p class='verdict'>%3</p>")
                       .arg(escaped(record.title), escaped(record.subject), escaped(record.verdict));
    for (const std::string& notice : record.notices) {
        left += QStringLiteral("<p class='notice'>%1</p>").arg(escaped(notice));
    }
    left += QStringLiteral("<p>%1: <b>%2</b></p><p>%3:<br/>%4</p><p class='small'>%5</p>")
                .arg(escaped(words.say("report.code")), escaped(record.code),
                     escaped(words.say({"report.seal", {{"entries", std::to_string(record.entries)}}})),
                     escaped(record.digest), escaped(words.say("report.seal.how")));
    return QStringLiteral(
               "<table width='100%' cellspacing='0'><tr><td>%1</td><td width='%2' align='right'>%3</td></tr></table>")
        .arg(left)
        .arg(qRound(dots(qrMm) * 96.0 / dotsOfInch))
        .arg(placeOf(Picture::Seal));
}

/// What the first page tells.
QString frontHtml(const RunRecord& record, const words::Words& words)
{
    const Table& run = record.table("run");
    const Table& result = record.table("result");
    QString html = headHtml(record, words)
        + besideHtml(headingHtml(run) + pairsHtml(run.rows), headingHtml(result) + pairsHtml(result.rows))
        + QStringLiteral("<h2>%1</h2><p>%2</p>").arg(escaped(words.say("report.chart")), placeOf(Picture::Chart));
    for (const char* id : {"sizes", "samples", "stages"}) {
        html += listHtml(record.table(id));
    }
    return html + costHtml(record.table("cost")) + listHtml(record.table("signatures"));
}

/// What the pages behind it tell.
QString behindHtml(const RunRecord& record)
{
    QString html;
    for (const char* id : {"findings", "path", "alerts", "readings", "events"}) {
        html += listHtml(record.table(id));
    }
    return html;
}

const char* const sheet = R"(
    h1 { font-size: 15pt; margin: 0; }
    h2 { font-size: 8.5pt; margin-top: 5px; margin-bottom: 1px; }
    p { margin-top: 1px; margin-bottom: 1px; }
    .subject { font-size: 11pt; }
    .verdict { font-size: 9pt; font-weight: bold; }
    .notice { font-size: 10pt; font-weight: bold; background-color: #e0e0e0; }
    .small { font-size: 6pt; }
    th { text-align: left; font-weight: bold; padding: 1px 6px 1px 0; }
    td { padding: 1px 6px 1px 0; }
    .short { white-space: nowrap; }
    .list th { border-bottom: 1px solid #000000; }
    .list td { border-bottom: 1px solid #a0a0a0; }
)";

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

/// The trend of the run that `file` is of, up to where it ended.
Result<Trend> trendOf(const report::RecordFile& file)
{
    const auto words = wordsOf(file.telling);
    const auto run = words ? report::runOf(file.evidence) : fail(words.error());
    if (!run) {
        return fail(run.error());
    }
    const run::RunTime end = run->closed ? run->closedAt : report::lastOf(*run);
    Trend trend = runTrend(*words, *run, run::standingOf(*run, report::lastOf(*run)), nullptr);
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

DocumentPictures picturesOf(const report::RecordFile& file, Trend trend)
{
    constexpr int modulePx = 8;
    return {.seal = qrImage(report::sealOf(file.record), modulePx),
            .sealSize = QSizeF(dots(qrMm), dots(qrMm)),
            .trend = std::move(trend),
            .style = printStyle(),
            .chartSize = {}};
}

/// `html` laid out on pages of `size`, with `pictures` where it has places for them. Uses `pictures` as long as it
/// lives.
std::unique_ptr<QTextDocument> laidOut(QPdfWriter& writer, const QString& html, const QSizeF& size,
                                       const DocumentPictures& pictures)
{
    QFont font(family);
    font.setPointSizeF(textPt);
    auto document = std::make_unique<QTextDocument>();
    document->setDefaultFont(font);
    document->setDocumentMargin(0);
    document->documentLayout()->setPaintDevice(&writer);
    document->setDefaultStyleSheet(QString::fromUtf8(sheet));
    document->setHtml(html);
    insertPictures(*document, pictures);
    document->setPageSize(size);
    return document;
}

/// The first page, its curve as high as there is room for it. Where even the lowest has none, it goes over more pages.
std::unique_ptr<QTextDocument> frontOf(QPdfWriter& writer, const QString& html, const QSizeF& size,
                                       DocumentPictures& pictures)
{
    constexpr double highestMm = 76.0;
    constexpr double lowestMm = 40.0;
    constexpr double stepMm = 4.0;
    constexpr double withinLine = 0.99;
    std::unique_ptr<QTextDocument> document;
    for (double heightMm = highestMm; heightMm >= lowestMm; heightMm -= stepMm) {
        pictures.chartSize = QSizeF(withinLine * size.width(), dots(heightMm));
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

Result<std::string> recordPdf(const report::RecordFile& file, PaperSize size)
{
    startGui();
    const auto words = wordsOf(file.telling);
    auto trend = words ? trendOf(file) : fail(words.error());
    if (!trend) {
        return fail(trend.error());
    }
    QBuffer bytes;
    bytes.open(QIODevice::WriteOnly);
    QPdfWriter writer(&bytes);
    setUp(writer, file, size);
    Pages pages(writer, file.record, *words);
    DocumentPictures pictures = picturesOf(file, *std::move(trend));
    const auto front = frontOf(writer, frontHtml(file.record, *words), pages.bodySize(), pictures);
    const auto behind = laidOut(writer, behindHtml(file.record), pages.bodySize(), pictures);
    pages.draw({front.get(), behind.get()});
    QByteArray pdf = bytes.data();
    setDate(pdf, file.evidence.entries.back().header.entered.wallMs);
    return pdf.toStdString();
}

} // namespace loopside::paper
