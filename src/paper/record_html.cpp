// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "paper/record_html.h"

#include "paper/document_picture.h"
#include "paper/text.h"

#include <QStringList>

#include <algorithm>
#include <vector>

namespace loopside::paper {

namespace {

using report::RunRecord;
using report::Table;

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
QString headHtml(const RunRecord& record, const words::Words& words, int sealDots)
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
        .arg(sealDots)
        .arg(placeOf(sealPlace));
}

/// One picture above its caption, or why it is not there.
QString pictureCell(const PictureShown& picture, std::size_t number)
{
    const QString shown = picture.trouble.empty()
        ? placeOf(firstPicturePlace + number)
        : QStringLiteral("<span class='notice'>%1</span>").arg(escaped(picture.trouble));
    return QStringLiteral("<td width='50%'>%1<p>%2</p></td>").arg(shown, escaped(picture.told.caption));
}

} // namespace

QString recordStyleSheet()
{
    return QStringLiteral(R"(
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
)");
}

QString frontHtml(const RunRecord& record, const words::Words& words, int sealDots)
{
    const Table& run = record.table("run");
    const Table& result = record.table("result");
    QString html = headHtml(record, words, sealDots)
        + besideHtml(headingHtml(run) + pairsHtml(run.rows), headingHtml(result) + pairsHtml(result.rows))
        + QStringLiteral("<h2>%1</h2><p>%2</p>").arg(escaped(words.say("report.chart")), placeOf(chartPlace));
    for (const char* id : {"sizes", "samples", "stages"}) {
        html += listHtml(record.table(id));
    }
    return html + costHtml(record.table("cost")) + listHtml(record.table("signatures"));
}

QString behindHtml(const RunRecord& record)
{
    QString html;
    for (const char* id : {"findings", "path", "alerts", "readings", "events"}) {
        html += listHtml(record.table(id));
    }
    return html;
}

QString picturesHtml(std::span<const PictureShown> pictures, const words::Words& words)
{
    QString html =
        QStringLiteral("<h2>%1</h2><table width='100%' cellspacing='0'>").arg(escaped(words.say("report.pictures")));
    for (std::size_t i = 0; i < pictures.size(); i += 2) {
        html += QStringLiteral("<tr>") + pictureCell(pictures[i], i)
            + (i + 1 < pictures.size() ? pictureCell(pictures[i + 1], i + 1) : QStringLiteral("<td width='50%'></td>"))
            + QStringLiteral("</tr>");
    }
    return html + QStringLiteral("</table>");
}

} // namespace loopside::paper
