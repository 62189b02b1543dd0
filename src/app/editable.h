// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The units that a member of a record can be typed in.

#pragma once

#include "site/typed_in.h"

#include <QString>
#include <QStringList>

#include <optional>
#include <utility>

namespace loopside::app {

using site::readInto;
using site::takeBack;
using site::textIn;

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

} // namespace loopside::app
