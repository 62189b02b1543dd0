// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "paper/labels_pdf.h"

#include "paper/gui.h"
#include "paper/qr.h"
#include "paper/text.h"

#include <QBuffer>
#include <QImage>
#include <QPageSize>
#include <QPainter>
#include <QPdfWriter>

namespace loopside::paper {

namespace {

constexpr QSizeF labelMm(80.0, 50.0);
constexpr double marginMm = 3.0;
constexpr double qrMm = 24.0;
constexpr double titleMm = 5.0;
constexpr double nameMm = 9.0;
constexpr double practiceMm = 6.0;
constexpr double gapMm = 1.0;
constexpr int dotsOfInch = 300;
constexpr double mmOfInch = 25.4;

/// Paints one label; lengths in mm, as the painter is scaled.
class LabelPainter
{
public:
    LabelPainter(QPainter& painter, const words::Words& words, const report::Label& label)
        : painter_{painter},
          words_{words},
          label_{label},
          room_(marginMm, marginMm, labelMm.width() - 2.0 * marginMm, labelMm.height() - 2.0 * marginMm)
    {
    }

    void paint()
    {
        painter_.setPen(Qt::black);
        if (label_.isPractice) {
            paintPractice();
        }
        write(taken(titleMm), toQt(label_.title), titlePt, Qt::TextSingleLine);
        write(taken(nameMm), toQt(label_.name), namePt, Qt::TextSingleLine, true);
        taken(gapMm);
        const QRectF code(room_.right() - qrMm, room_.bottom() - qrMm, qrMm, qrMm);
        constexpr int modulePx = 16;
        painter_.drawImage(code, qrImage(label_.code, modulePx));
        QStringList lines;
        for (const std::string& line : label_.lines) {
            lines.append(toQt(line));
        }
        lines.removeAll(QString());
        write(room_.adjusted(0.0, 0.0, -qrMm - gapMm, 0.0), lines.join(QLatin1Char('\n')), linePt, Qt::TextWordWrap);
    }

private:
    static constexpr double titlePt = 9.0;
    static constexpr double namePt = 18.0;
    static constexpr double linePt = 8.5;

    /// The strip of that height at the top of what is free.
    QRectF taken(double height)
    {
        const QRectF strip(room_.topLeft(), QSizeF(room_.width(), height));
        room_.setTop(strip.bottom());
        return strip;
    }

    /// White on black at the lower end.
    void paintPractice()
    {
        const QRectF strip(room_.left(), room_.bottom() - practiceMm, room_.width(), practiceMm);
        painter_.fillRect(strip, Qt::black);
        painter_.setPen(Qt::white);
        write(strip.adjusted(gapMm, 0.0, -gapMm, 0.0), toQt(words_.say("report.practice")), titlePt, Qt::TextSingleLine,
              true);
        painter_.setPen(Qt::black);
        room_.setBottom(strip.top() - gapMm);
    }

    /// At most as large as `pt`, as much smaller as it needs to stand within `place`.
    void write(const QRectF& place, const QString& text, double pt, Qt::TextFlag lines, bool isStrong = false)
    {
        const int flags = Qt::AlignLeft | Qt::AlignTop | lines;
        constexpr double mmOfPt = mmOfInch / 72.0;
        constexpr double fontPx =
            100.0; // laid out large and scaled down: a painter that counts in mm has no small fonts
        constexpr double step = 0.95;
        QFont font(QStringLiteral("B612"));
        font.setPixelSize(static_cast<int>(fontPx));
        font.setBold(isStrong);
        painter_.save();
        painter_.setFont(font);
        painter_.translate(place.topLeft());
        QRectF scaled;
        for (double sizeMm = pt * mmOfPt; sizeMm > 0.1; sizeMm *= step) {
            scaled = QRectF(QPointF(), place.size() * (fontPx / sizeMm));
            const QRectF needed = QFontMetricsF(font).boundingRect(scaled, flags, text);
            if (needed.height() <= scaled.height() && needed.width() <= scaled.width()) {
                painter_.scale(sizeMm / fontPx, sizeMm / fontPx);
                break;
            }
        }
        painter_.drawText(scaled, flags, text);
        painter_.restore();
    }

    QPainter& painter_;
    const words::Words& words_;
    const report::Label& label_;
    QRectF room_;
};

void paintLabel(QPainter& painter, double dotsOfMm, const words::Words& words, const report::Label& label)
{
    painter.save();
    painter.scale(dotsOfMm, dotsOfMm);
    LabelPainter(painter, words, label).paint();
    painter.restore();
}

} // namespace

std::string labelsPdf(const words::Words& words, const std::vector<report::Label>& labels)
{
    startGui();
    QBuffer bytes;
    bytes.open(QIODevice::WriteOnly);
    QPdfWriter writer(&bytes);
    writer.setResolution(dotsOfInch);
    writer.setPageSize(QPageSize(labelMm, QPageSize::Millimeter));
    writer.setPageMargins({});
    {
        QPainter painter(&writer);
        for (std::size_t i = 0; i < labels.size(); ++i) {
            if (i > 0) {
                writer.newPage();
            }
            paintLabel(painter, dotsOfInch / mmOfInch, words, labels[i]);
        }
    }
    return bytes.data().toStdString();
}

std::string labelPng(const words::Words& words, const report::Label& label)
{
    startGui();
    constexpr double dotsOfMm = dotsOfInch / mmOfInch;
    QImage image((labelMm * dotsOfMm).toSize(), QImage::Format_Grayscale8);
    image.fill(Qt::white);
    constexpr double dotsOfMetre = 1000.0 * dotsOfMm;
    image.setDotsPerMeterX(qRound(dotsOfMetre));
    image.setDotsPerMeterY(qRound(dotsOfMetre));
    {
        QPainter painter(&image);
        painter.setRenderHints(QPainter::Antialiasing | QPainter::TextAntialiasing);
        paintLabel(painter, dotsOfMm, words, label);
    }
    QBuffer bytes;
    bytes.open(QIODevice::WriteOnly);
    image.save(&bytes, "PNG");
    return bytes.data().toStdString();
}

} // namespace loopside::paper
