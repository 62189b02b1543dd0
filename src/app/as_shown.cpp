// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/as_shown.h"

#include "app/wording.h"
#include "units/typed.h"

#include <QRegularExpression>

namespace loopside::app {

namespace {

constexpr QChar noBreakSpace(0x00A0);
constexpr QChar wordJoiner(0x2060);
constexpr QChar minusSign(0x2212);

template<class Q>
void addSymbols(QStringList& symbols)
{
    for (const auto& unit : units::namedUnits<Q>()) {
        symbols.append(QRegularExpression::escape(toQt(unit.symbol)));
    }
}

/// All that stands behind a number in a sentence.
QStringList unitSymbols()
{
    QStringList symbols = {QStringLiteral("µm"), QStringLiteral("kB"), QStringLiteral("MB")};
    addSymbols<units::Pressure>(symbols);
    addSymbols<units::Volume>(symbols);
    addSymbols<units::Flow>(symbols);
    addSymbols<units::Duration>(symbols);
    addSymbols<units::Length>(symbols);
    addSymbols<units::Density>(symbols);
    addSymbols<units::KinematicViscosity>(symbols);
    addSymbols<units::Power>(symbols);
    addSymbols<units::Current>(symbols);
    addSymbols<units::Voltage>(symbols);
    addSymbols<units::Fraction>(symbols);
    addSymbols<units::Temperature>(symbols);
    return symbols;
}

/// "38 psi", "± 2 kPa", "-5 °C", "40–45 L/min", the sign at its beginning alone.
const QRegularExpression& quantity()
{
    static const QRegularExpression is(
        QStringLiteral(
            "(?<![\\p{L}\\p{N}.,–-])(?:± )?-?\\d+(?:[.,]\\d+)?(?:–\\d+(?:[.,]\\d+)?)?[ \u00A0](?:%1)(?![\\p{L}\\p{N}/])")
            .arg(unitSymbols().join(QLatin1Char('|'))),
        QRegularExpression::UseUnicodePropertiesOption);
    return is;
}

QString held(QString part)
{
    const QString joiner(wordJoiner);
    return part.replace(QLatin1Char(' '), noBreakSpace)
        .replace(QLatin1Char('-'), minusSign)
        .replace(QLatin1Char('/'), joiner + QLatin1Char('/') + joiner)
        .replace(QStringLiteral("–"), QStringLiteral("–") + joiner);
}

} // namespace

QString asShown(const QString& text)
{
    QRegularExpressionMatchIterator found = quantity().globalMatch(text);
    QString shown;
    qsizetype end = 0;
    while (found.hasNext()) {
        const QRegularExpressionMatch match = found.next();
        shown.append(text.mid(end, match.capturedStart() - end));
        shown.append(held(match.captured()));
        end = match.capturedEnd();
    }
    return shown.append(text.mid(end));
}

QString asShown(const std::string& text)
{
    return asShown(toQt(text));
}

QString numberAsShown(const Decimal& number)
{
    return toQt(number.toText()).replace(QLatin1Char('-'), minusSign);
}

QString asHead(const QString& name)
{
    return name.left(1).toUpper() + name.mid(1);
}

} // namespace loopside::app
