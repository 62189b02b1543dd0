// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Positions from a file of NMEA 0183 sentences, by Qt's plugin, as the bench and the demo replay them.

#include "position/fix_source.h"

#include <QCoreApplication>
#include <QElapsedTimer>
#include <QFile>
#include <QTemporaryDir>

#include <catch2/catch.hpp>

#include <numeric>

using namespace loopside;
using position::FixSource;

namespace {

void theProgram()
{
    static int words = 1;
    static char name[] = "test_position";
    static char* arguments[] = {name, nullptr};
    [[maybe_unused]] static const auto* const program = new QCoreApplication(words, arguments);
}

/// "$" + what + "*" + its checksum: all signs between, by exclusive or (NMEA 0183).
QByteArray sentence(const QByteArray& what)
{
    const int sum = std::accumulate(what.begin(), what.end(), 0, [](int all, char sign) { return all ^ sign; });
    return '$' + what + '*' + QByteArray::number(sum, 16).toUpper().rightJustified(2, '0') + "\r\n";
}

/// The example that handbooks of receivers print for GGA (from memory): 48° 07.038' N, 11° 31.000' E, dilution 0.9; its
/// checksum is printed as 47.
const QByteArray handbook = "GPGGA,123519,4807.038,N,01131.000,E,1,08,0.9,545.4,M,46.9,M,,";

/// What a receiver says of one moment: with RMC comes the date, without which Qt replays nothing, with GGA the
/// dilution.
QByteArray moment(const QByteArray& time, const QByteArray& where, const QByteArray& dilution)
{
    return sentence("GPRMC," + time + ",A," + where + ",000.0,000.0,230394,,")
        + sentence("GPGGA," + time + ',' + where + ",1,08," + dilution + ",545.4,M,46.9,M,,");
}

struct Replay
{
    explicit Replay(const QByteArray& sentences)
    {
        theProgram();
        REQUIRE(folder.isValid());
        path = folder.filePath(QStringLiteral("walk.nmea"));
        QFile file(path);
        REQUIRE(file.open(QIODevice::WriteOnly));
        REQUIRE(file.write(sentences) == sentences.size());
    }

    QTemporaryDir folder;
    QString path;
};

/// Whether `source` moves `times` times within a patient while.
bool moves(FixSource& source, int times)
{
    constexpr int patienceMs = 10'000;
    int moved = 0;
    const auto counting = QObject::connect(&source, &FixSource::moved, [&] { ++moved; });
    source.begin();
    QElapsedTimer waited;
    waited.start();
    while (moved < times && !waited.hasExpired(patienceMs)) {
        QCoreApplication::processEvents(QEventLoop::AllEvents, 50);
    }
    QObject::disconnect(counting);
    return moved >= times;
}

} // namespace

TEST_CASE("a sentence of a receiver is a fix, with its accuracy from the dilution that it tells")
{
    REQUIRE(sentence(handbook).contains("*47"));
    const Replay replay(sentence("GPRMC,123519,A,4807.038,N,01131.000,E,022.4,084.4,230394,003.1,W")
                        + sentence(handbook));
    FixSource source(replay.path);
    REQUIRE(source.isThere());
    CHECK_FALSE(source.latest());
    REQUIRE(moves(source, 1));
    REQUIRE(source.latest());
    CHECK(source.latest()->place.latitude_deg == Approx(48.0 + 7.038 / 60.0).epsilon(1e-12));
    CHECK(source.latest()->place.longitude_deg == Approx(11.0 + 31.0 / 60.0).epsilon(1e-12));
    REQUIRE(source.latest()->accuracy_m);
    CHECK(*source.latest()->accuracy_m
          == Approx(2.0 * 0.9 * 5.0)); // two standard deviations of 5 m, times the dilution
}

TEST_CASE("a walk is replayed by its times, and south and west are negative")
{
    const Replay replay(moment("120000", "3352.000,S,15112.000,W", "1.0")
                        + moment("120001", "3352.100,S,15112.000,W", "2.0"));
    FixSource source(replay.path);
    REQUIRE(moves(source, 2));
    REQUIRE(source.latest());
    CHECK(source.latest()->place.latitude_deg == Approx(-(33.0 + 52.1 / 60.0)));
    CHECK(source.latest()->place.longitude_deg == Approx(-(151.0 + 12.0 / 60.0)));
    CHECK(*source.latest()->accuracy_m == Approx(20.0));
}

TEST_CASE("a receiver without a fix, and a sentence with a wrong checksum, tell nothing")
{
    QByteArray wrong = moment("123519", "4807.038,N,01131.000,E", "0.9");
    wrong.replace('*', "*0");
    const Replay replay(sentence("GPRMC,123518,V,,,,,,,230394,,") + sentence("GPGGA,123518,,,,,0,00,,,M,,M,,") + wrong
                        + moment("123520", "4807.100,N,01131.000,E", "0.9"));
    FixSource source(replay.path);
    REQUIRE(moves(source, 1));
    CHECK(source.latest()->place.latitude_deg == Approx(48.0 + 7.1 / 60.0).epsilon(1e-9));
}

TEST_CASE("once nobody wants to know, the fix is forgotten and none comes any more")
{
    const Replay replay(moment("123519", "4807.038,N,01131.000,E", "0.9"));
    FixSource source(replay.path);
    REQUIRE(moves(source, 1));
    source.end();
    CHECK_FALSE(source.isOn());
    CHECK_FALSE(source.latest());
}

TEST_CASE("a file that is not there gives no fix and does no harm")
{
    theProgram();
    FixSource source(QStringLiteral("/nowhere/walk.nmea"));
    source.begin();
    CHECK_FALSE(source.latest());
}
