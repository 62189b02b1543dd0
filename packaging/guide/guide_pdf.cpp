// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// guide_pdf MARKDOWN PDF: the user's guide for paper. Part of the build alone; nothing of it is installed.

#include "paper/face.h"

#include <QFile>
#include <QGuiApplication>
#include <QPageLayout>
#include <QPdfWriter>
#include <QTextBlock>
#include <QTextCursor>
#include <QTextDocument>
#include <QTextTable>

#include <cstdio>

namespace {

constexpr int pointsOfText = 9;
constexpr int dotsPerInch = 300;
constexpr int marginMm = 18;

/// Without the lines between the cells a table with sentences in it cannot be read.
void drawTables(QTextDocument& document)
{
    for (QTextFrame* const frame : document.rootFrame()->childFrames()) {
        if (auto* const table = qobject_cast<QTextTable*>(frame)) {
            QTextTableFormat format = table->format();
            format.setBorder(1);
            format.setBorderCollapse(true);
            format.setCellPadding(4);
            format.setWidth(QTextLength(QTextLength::PercentageLength, 100));
            table->setFormat(format);
        }
    }
}

/// What the head of a Markdown file says to who edits it is nothing for who reads it.
QString withoutComments(QString text)
{
    while (text.startsWith(QStringLiteral("<!--"))) {
        text = text.mid(text.indexOf(QStringLiteral("-->")) + 3).trimmed();
    }
    return text;
}

} // namespace

int main(int count, char** words)
{
    loopside::paper::settleFace();
    const QGuiApplication program(count, words);
    const QStringList arguments = QGuiApplication::arguments();
    QFile source(arguments.value(1));
    if (arguments.size() != 3 || !source.open(QIODevice::ReadOnly)) {
        std::fputs("guide_pdf MARKDOWN PDF\n", stderr);
        return 2;
    }
    QTextDocument document;
    document.setDefaultFont(QFont(QStringLiteral("B612"), pointsOfText));
    document.setMarkdown(withoutComments(QString::fromUtf8(source.readAll())));
    drawTables(document);
    QPdfWriter writer(arguments.value(2));
    writer.setResolution(dotsPerInch);
    writer.setPageSize(QPageSize(QPageSize::A4));
    writer.setPageMargins(QMarginsF(marginMm, marginMm, marginMm, marginMm), QPageLayout::Millimeter);
    writer.setTitle(document.firstBlock().text());
    document.print(&writer);
    return 0;
}
