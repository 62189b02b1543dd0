// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/scan_filter.h"

#include "app_bench.h"

#include <QEventLoop>
#include <QKeyEvent>

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::test;

namespace {

/// Where the keys go: keeps the signs that arrive.
class Page : public QObject
{
public:
    bool event(QEvent* event) override
    {
        if (event->type() == QEvent::KeyPress) {
            arrived += static_cast<QKeyEvent*>(event)->text();
        }
        return true;
    }

    QString arrived;
};

/// A page behind the filter.
struct Reader : AppBench
{
    Reader()
    {
        page.installEventFilter(&filter);
        QObject::connect(&filter, &app::ScanFilter::scanned, &page,
                         [this](const QString& code) { codes.append(code); });
    }

    void press(int key, const QString& text)
    {
        for (const QEvent::Type type : {QEvent::KeyPress, QEvent::KeyRelease}) {
            QKeyEvent event(type, key, Qt::NoModifier, text);
            QCoreApplication::sendEvent(&page, &event);
        }
    }

    void type(const char* signs)
    {
        for (const char sign : std::string(signs)) {
            press(sign, QString(QLatin1Char(sign)));
        }
    }

    void enter() { press(Qt::Key_Return, QStringLiteral("\r")); }

    static void pause()
    {
        QEventLoop loop;
        QTimer::singleShot(80, &loop, &QEventLoop::quit);
        loop.exec();
    }

    Page page;
    app::ScanFilter filter;
    QStringList codes;
};

} // namespace

TEST_CASE("what a tag reader types arrives as one code and nowhere else")
{
    Reader reader;
    reader.type("BM-HY-012");
    reader.enter();
    Reader::pause();
    CHECK(reader.codes == QStringList{QStringLiteral("BM-HY-012")});
    CHECK(reader.page.arrived.isEmpty());
}

TEST_CASE("what a person types arrives as typed, Enter as well")
{
    Reader reader;
    for (const char* sign : {"1", "4", "5", "."}) {
        reader.type(sign);
        Reader::pause();
    }
    reader.enter();
    CHECK(reader.page.arrived == QStringLiteral("145.\r"));
    CHECK(reader.codes.isEmpty());
}

TEST_CASE("a few quick keys are no tag, and keep their order before what follows")
{
    Reader reader;
    reader.type("14");
    reader.press(Qt::Key_Tab, QStringLiteral("\t"));
    CHECK(reader.page.arrived == QStringLiteral("14\t"));
    reader.type("9");
    reader.enter();
    CHECK(reader.page.arrived == QStringLiteral("14\t9\r"));
    CHECK(reader.codes.isEmpty());
}

TEST_CASE("a tag without its Enter is typing, however quick")
{
    Reader reader;
    reader.type("12345");
    Reader::pause();
    CHECK(reader.page.arrived == QStringLiteral("12345"));
    CHECK(reader.codes.isEmpty());
}
