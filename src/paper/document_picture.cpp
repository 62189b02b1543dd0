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
    Drawer(const std::vector<DocumentPicture>& pictures, QObject* parent) : QObject(parent), pictures_{pictures} {}

    QSizeF intrinsicSize(QTextDocument*, int, const QTextFormat& format) override { return of(format).size; }

    void drawObject(QPainter* painter, const QRectF& place, QTextDocument*, int, const QTextFormat& format) override
    {
        painter->save();
        of(format).paint(*painter, place);
        painter->restore();
    }

private:
    [[nodiscard]] const DocumentPicture& of(const QTextFormat& format) const
    {
        return pictures_.at(static_cast<std::size_t>(format.intProperty(pictureProperty)));
    }

    const std::vector<DocumentPicture>& pictures_;
};

} // namespace

QString placeOf(std::size_t picture)
{
    constexpr char16_t first = 0xE100; // of the private use area, which no keyboard types
    return QString(QChar(static_cast<char16_t>(first + picture)));
}

void insertPictures(QTextDocument& document, const std::vector<DocumentPicture>& pictures)
{
    document.documentLayout()->registerHandler(pictureObject, new Drawer(pictures, &document));
    for (std::size_t i = 0; i < pictures.size(); ++i) {
        QTextCursor cursor = document.find(placeOf(i));
        if (cursor.isNull()) {
            continue;
        }
        QTextCharFormat format;
        format.setObjectType(pictureObject);
        format.setProperty(pictureProperty, static_cast<int>(i));
        cursor.insertText(QString(QChar::ObjectReplacementCharacter), format);
    }
}

} // namespace loopside::paper

#include "document_picture.moc"
