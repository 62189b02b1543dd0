// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "paper/document_picture.h"

#include <QAbstractTextDocumentLayout>
#include <QPainter>
#include <QTextCursor>
#include <QTextObjectInterface>

namespace loopside::paper {

namespace {

constexpr int pictureProperty = QTextFormat::UserProperty + 1;
constexpr int pictureObject = QTextFormat::UserObject + 1;

class Drawer final : public QObject, public QTextObjectInterface
{
    Q_OBJECT
    Q_INTERFACES(QTextObjectInterface)

public:
    Drawer(const DocumentPictures& pictures, QObject* parent) : QObject(parent), pictures_{pictures} {}

    QSizeF intrinsicSize(QTextDocument*, int, const QTextFormat& format) override
    {
        return isSeal(format) ? pictures_.sealSize : pictures_.chartSize;
    }

    void drawObject(QPainter* painter, const QRectF& place, QTextDocument*, int, const QTextFormat& format) override
    {
        painter->save();
        if (isSeal(format)) {
            painter->drawImage(place, pictures_.seal);
        } else {
            paintTrend(*painter, place, pictures_.trend, pictures_.style);
        }
        painter->restore();
    }

private:
    [[nodiscard]] static bool isSeal(const QTextFormat& format)
    {
        return format.intProperty(pictureProperty) == static_cast<int>(Picture::Seal);
    }

    const DocumentPictures& pictures_;
};

} // namespace

QString placeOf(Picture picture)
{
    // Signs of the private use area, which no keyboard types.
    return QString(QChar(picture == Picture::Seal ? 0xE0F1 : 0xE0F2));
}

void insertPictures(QTextDocument& document, const DocumentPictures& pictures)
{
    document.documentLayout()->registerHandler(pictureObject, new Drawer(pictures, &document));
    for (const Picture picture : {Picture::Seal, Picture::Chart}) {
        QTextCursor cursor = document.find(placeOf(picture));
        if (cursor.isNull()) {
            continue;
        }
        QTextCharFormat format;
        format.setObjectType(pictureObject);
        format.setProperty(pictureProperty, static_cast<int>(picture));
        cursor.insertText(QString(QChar::ObjectReplacementCharacter), format);
    }
}

} // namespace loopside::paper

#include "document_picture.moc"
