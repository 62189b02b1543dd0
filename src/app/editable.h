// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Reading what was typed into the members of a record.

#pragma once

#include "base/decimal.h"
#include "units/typed.h"

#include <QString>
#include <QStringList>

#include <optional>
#include <string>
#include <utility>

namespace loopside::app {

/// Reads `text` ("760 L", "0.7", "BM-HY-012") into a member; false, with the member as it was, if it is none.
template<class Q>
[[nodiscard]] bool readInto(units::Typed<Q>& member, const std::string& text)
{
    const auto read = units::Typed<Q>::parse(text);
    if (read) {
        member = *read;
    }
    return read.has_value();
}

[[nodiscard]] inline bool readInto(Decimal& member, const std::string& text)
{
    const auto read = Decimal::parse(text);
    if (read) {
        member = *read;
    }
    return read.has_value();
}

[[nodiscard]] inline bool readInto(std::string& member, const std::string& text)
{
    member = text;
    return true;
}

template<class Q>
[[nodiscard]] bool readInto(std::optional<units::Typed<Q>>& member, const std::string& text)
{
    const auto read = units::Typed<Q>::parse(text);
    if (read) {
        member = *read;
    }
    return read.has_value();
}

[[nodiscard]] inline bool readInto(std::optional<Decimal>& member, const std::string& text)
{
    const auto read = Decimal::parse(text);
    if (read) {
        member = *read;
    }
    return read.has_value();
}

/// `units` with the one of what holds now first.
template<class Q>
[[nodiscard]] QStringList unitsFor(const units::Typed<Q>& member, QStringList units)
{
    const auto symbol = member.unit().symbol;
    const QString own = QString::fromUtf8(symbol.data(), static_cast<qsizetype>(symbol.size()));
    units.removeOne(own);
    units.prepend(own);
    return units;
}

template<class Q>
[[nodiscard]] QStringList unitsFor(const std::optional<units::Typed<Q>>& member, QStringList units)
{
    return member ? unitsFor(*member, std::move(units)) : units;
}

template<class Unitless>
[[nodiscard]] QStringList unitsFor(const Unitless&, QStringList units)
{
    return units;
}

/// What a member holds, as a person reads it; empty if nothing.
template<class Typed>
[[nodiscard]] std::string textIn(const std::optional<Typed>& member)
{
    return member ? member->toText() : std::string();
}

template<class Typed>
[[nodiscard]] std::string textIn(const Typed& member)
{
    return member.toText();
}

[[nodiscard]] inline std::string textIn(const std::string& member)
{
    return member;
}

} // namespace loopside::app
