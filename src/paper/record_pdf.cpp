// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "paper/record_pdf.h"

#include "base/require.h"
#include "base/text.h"
#include "paper/document_picture.h"
#include "paper/face.h"
#include "paper/qr.h"
#include "paper/run_trend.h"
#include "paper/text.h"
#include "paper/trend.h"

#include <QAbstractTextDocumentLayout>
#include <QBuffer>
#include <QGuiApplication>
#include <QPageSize>
#include <QPainter>
#include <QPdfWriter>
#include <QTextCursor>
#include <QTextDocument>

#include <algorithm>
#include <array>
#include <iterator>

namespace loopside::paper {

namespace {

using report::RunRecord;
using report::Table;

constexpr double mmOfInch = 25.4;
constexpr int dotsOfInch = 600;
constexpr double marginMm = 12.0;
constexpr double footerMm = 9.0;
constexpr double qrMm = 30.0;
constexpr double chartMm = 62.0;
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

/// A row of cells of one kind, `th` or `td`.
QString rowHtml(const QStringList& cells, const QString& kind)
{
    QString html = QStringLiteral("<tr>");
    for (const QString& cell : cells) {
        html += QStringLiteral("<%1>%2</%1>").arg(kind, cell);
    }
    return html + QStringLiteral("</tr>");
}

QString headingHtml(const Table& table)
{
    return QStringLiteral("<h2>%1</h2>").arg(escaped(table.title));
}

/// Names and values; the names stand out.
QString pairsHtml(const Table& table)
{
    QString html = headingHtml(table) + QStringLiteral("<table width='100%'>");
    for (const report::Row& row : table.rows) {
        html += rowHtml({QStringLiteral("<b>%1</b>").arg(escaped(row.cells[0])), escaped(row.cells[1])},
                        QStringLiteral("td"));
    }
    return html + QStringLiteral("</table>");
}

/// Columns in which no row has anything are left out.
QString listHtml(const Table& table)
{
    if (table.rows.empty()) {
        return headingHtml(table) + QStringLiteral("<p>%1</p>").arg(escaped(table.empty));
    }
    std::vector<std::size_t> shown;
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
        if (std::ranges::any_of(table.rows, [&](const report::Row& row) { return !row.cells[i].empty(); })) {
            shown.push_back(i);
        }
    }
    QStringList titles;
    for (const std::size_t i : shown) {
        titles.append(escaped(table.columns[i].title));
    }
    QString html = headingHtml(table) + QStringLiteral("<table width='100%' class='list'><thead>")
        + rowHtml(titles, QStringLiteral("th")) + QStringLiteral("</thead>");
    for (const report::Row& row : table.rows) {
        QStringList cells;
        for (const std::size_t i : shown) {
            cells.append(escaped(row.cells[i]));
        }
        html += rowHtml(cells, QStringLiteral("td"));
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
    return QStringLiteral("<table width='100%'><tr><td>%1</td><td width='%2' align='right'>%3</td></tr></table>")
        .arg(left)
        .arg(qRound(dots(qrMm) * 96.0 / dotsOfInch))
        .arg(placeOf(Picture::Seal));
}

QString bodyHtml(const RunRecord& record, const words::Words& words)
{
    QString html = headHtml(record, words);
    html += QStringLiteral("<table width='100%'><tr><td width='50%'>%1</td><td width='50%'>%2</td></tr></table>")
                .arg(pairsHtml(record.table("run")), pairsHtml(record.table("result")));
    html += QStringLiteral("<h2>%1</h2><p>%2</p>").arg(escaped(words.say("report.chart")), placeOf(Picture::Chart));
    for (const char* id : {"sizes", "samples", "stages"}) {
        html += listHtml(record.table(id));
    }
    html += pairsHtml(record.table("cost")) + listHtml(record.table("signatures"));
    html += QStringLiteral("<p class='behind'></p>");
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
    th { text-align: left; font-weight: bold; border-bottom: 1px solid #000000; padding: 1px 4px 1px 0; }
    td { padding: 1px 4px 1px 0; }
    .behind { page-break-before: always; }
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

/// Draws the pages of a document, each with its footer.
class Pages
{
public:
    Pages(QPdfWriter& writer, const RunRecord& record, const words::Words& words)
        : writer_{writer}, record_{record}, words_{words}, area_(0, 0, writer.width(), writer.height())
    {
    }

    [[nodiscard]] QSizeF bodySize() const { return {area_.width(), area_.height() - dots(footerMm)}; }

    void draw(QTextDocument& document)
    {
        QPainter painter(&writer_);
        const int pages = document.pageCount();
        for (int page = 0; page < pages; ++page) {
            if (page > 0) {
                writer_.newPage();
            }
            if (record_.isPractice) {
                drawPractice(painter);
            }
            drawBody(painter, document, page);
            drawFooter(painter, page + 1, pages);
        }
    }

private:
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

/// What a person gets to see needs Qt, and Qt a program.
void startGui()
{
    if (QCoreApplication::instance() != nullptr) {
        return;
    }
    settleFace();
    qputenv("QT_QPA_PLATFORM", "offscreen");
    static int count = 1;
    static std::string name = "loopside";
    static std::array<char*, 2> arguments = {name.data(), nullptr};
    static const QGuiApplication program(count, arguments.data());
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

DocumentPictures picturesOf(const report::RecordFile& file, Trend trend, double width)
{
    constexpr int modulePx = 8;
    return {.seal = qrImage(report::sealOf(file.record), modulePx),
            .sealSize = QSizeF(dots(qrMm), dots(qrMm)),
            .trend = std::move(trend),
            .style = printStyle(),
            .chartSize = QSizeF(width, dots(chartMm))};
}

void fill(QTextDocument& document, QPdfWriter& writer, const QString& html)
{
    QFont font(family);
    font.setPointSizeF(textPt);
    document.setDefaultFont(font);
    document.setDocumentMargin(0);
    document.documentLayout()->setPaintDevice(&writer);
    document.setDefaultStyleSheet(QString::fromUtf8(sheet));
    document.setHtml(html);
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
    constexpr double withinLine = 0.99;
    const DocumentPictures pictures = picturesOf(file, *std::move(trend), withinLine * pages.bodySize().width());
    QTextDocument document;
    fill(document, writer, bodyHtml(file.record, *words));
    insertPictures(document, pictures);
    document.setPageSize(pages.bodySize());
    pages.draw(document);
    QByteArray pdf = bytes.data();
    setDate(pdf, file.evidence.entries.back().header.entered.wallMs);
    return pdf.toStdString();
}

} // namespace loopside::paper
