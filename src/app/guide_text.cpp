// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/guide_text.h"

#include <QTextBlock>
#include <QTextDocument>
#include <QTextFrame>
#include <QTextList>
#include <QTextTable>

namespace loopside::app {

namespace {

constexpr int titleLevel = 1;
constexpr int partLevel = 2;

QString styled(const QTextFragment& fragment)
{
    const QString text = fragment.text().toHtmlEscaped();
    const QTextCharFormat format = fragment.charFormat();
    if (format.fontItalic()) {
        return QStringLiteral("<b><i>%1</i></b>").arg(text);
    }
    return format.fontWeight() > QFont::Normal ? QStringLiteral("<b>%1</b>").arg(text) : text;
}

QString styled(const QTextBlock& block)
{
    QString text;
    for (auto at = block.begin(); !at.atEnd(); ++at) {
        text += styled(at.fragment());
    }
    return text;
}

QString markOf(const QTextBlock& block)
{
    const QTextList* list = block.textList();
    const bool isNumbered = list->format().style() == QTextListFormat::ListDecimal;
    return isNumbered ? QStringLiteral("%1.").arg(list->itemNumber(block) + 1) : QStringLiteral("•");
}

GuideLine lineOf(const QTextBlock& block)
{
    if (block.textList() != nullptr) {
        return {QStringLiteral("item"), markOf(block), styled(block), block.text()};
    }
    const bool isCode = block.blockFormat().hasProperty(QTextFormat::BlockCodeLanguage); // empty, but there
    return {isCode ? QStringLiteral("code") : QStringLiteral("text"), QString(), styled(block), block.text()};
}

QTextBlock cellOf(const QTextTable& table, int row, int column)
{
    return table.cellAt(row, column).firstCursorPosition().block();
}

/// A row below each other: its first cell, then what the others say to it.
void addTable(QList<GuideLine>& lines, const QTextTable& table)
{
    for (int row = 1; row < table.rows(); ++row) {
        const QTextBlock first = cellOf(table, row, 0);
        lines.append({QStringLiteral("head"), QString(), styled(first), first.text()});
        for (int column = 1; column < table.columns(); ++column) {
            const QTextBlock cell = cellOf(table, row, column);
            const QString mark = table.columns() > 2 ? cellOf(table, 0, column).text() : QString();
            lines.append({QStringLiteral("cell"), mark, styled(cell), cell.text()});
        }
    }
}

void addBlock(QList<GuidePart>& parts, const QTextBlock& block)
{
    const int level = block.blockFormat().headingLevel();
    if (level == titleLevel || level == partLevel) {
        parts.append({block.text(), {}});
    } else if (!parts.isEmpty() && !block.text().trimmed().isEmpty()) {
        parts.last().lines.append(lineOf(block));
    }
}

} // namespace

QString withoutComments(std::string_view markdown)
{
    QString text = QString::fromUtf8(markdown.data(), static_cast<qsizetype>(markdown.size()));
    while (text.startsWith(QStringLiteral("<!--"))) {
        text = text.mid(text.indexOf(QStringLiteral("-->")) + 3).trimmed();
    }
    return text;
}

QList<GuidePart> guideParts(std::string_view markdown)
{
    QTextDocument document;
    document.setMarkdown(withoutComments(markdown));
    QList<GuidePart> parts;
    const QTextFrame* root = document.rootFrame();
    for (auto at = root->begin(); !at.atEnd(); ++at) {
        if (const auto* table = qobject_cast<QTextTable*>(at.currentFrame()); table != nullptr && !parts.isEmpty()) {
            addTable(parts.last().lines, *table);
        } else if (at.currentBlock().isValid()) {
            addBlock(parts, at.currentBlock());
        }
    }
    return parts;
}

QStringList guideTitles(std::string_view markdown)
{
    QStringList titles;
    for (const QString& line : withoutComments(markdown).split(QLatin1Char('\n'))) {
        const bool isTitle = line.startsWith(QStringLiteral("# ")) || line.startsWith(QStringLiteral("## "));
        if (isTitle) {
            titles.append(line.section(QLatin1Char(' '), 1).trimmed());
        }
    }
    return titles;
}

} // namespace loopside::app
