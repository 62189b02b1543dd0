// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/wanted_units.h"

#include "app/as_shown.h"
#include "app/wording.h"

namespace loopside::app {

namespace {

/// What was typed, with what is wanted behind it where that is something else.
template<class Q>
QString typedAndWanted(const units::Typed<Q>& typed, const run::PersonRecord& wants)
{
    const std::string wanted = units::shown(typed, unitsWanted(wants));
    return asShown(wanted == typed.toText() ? wanted : typed.toText() + " (" + wanted + ")");
}

QStringList wantedSymbols(const run::PersonRecord& wants)
{
    QStringList symbols;
    for (const std::string_view symbol :
         {wants.pressure == nullptr ? "" : wants.pressure->symbol, wants.volume == nullptr ? "" : wants.volume->symbol,
          wants.temperature == nullptr ? "" : wants.temperature->symbol}) {
        if (!symbol.empty()) {
            symbols.append(toQt(symbol));
        }
    }
    return symbols;
}

/// With the digits of the gauges, or as computed in another unit that is wanted.
std::string exactText(const run::ExactPressure& pressure, const units::Wanted& wanted)
{
    const auto& unit = units::unitOf(*pressure.unit, wanted);
    return &unit == pressure.unit ? pressure.toText() : units::printComputed(pressure.value(), unit);
}

} // namespace

units::Wanted unitsWanted(const run::PersonRecord& wants)
{
    return {wants.pressure, wants.volume, wants.temperature};
}

QString shownText(const run::ExactPressure& pressure, const units::Wanted& wanted)
{
    return asShown(exactText(pressure, wanted));
}

QString shownText(const run::ExactPressure& pressure, units::Pressure error, const units::Wanted& wanted)
{
    const std::string exact = exactText(pressure, wanted);
    const std::string cut = units::printComputed(pressure.value(), units::unitOf(*pressure.unit, wanted), error);
    return asShown(cut.size() < exact.size() ? cut : exact);
}

QString asWanted(const run::TypedVolume& volume, const run::PersonRecord& wants)
{
    return typedAndWanted(volume, wants);
}

QString asWanted(const run::TypedPressure& pressure, const run::PersonRecord& wants)
{
    return typedAndWanted(pressure, wants);
}

QString asWanted(const run::TypedFlow& flow, const run::PersonRecord& wants)
{
    return typedAndWanted(flow, wants);
}

void preferUnits(FieldsView& fields, const run::PersonRecord& wants)
{
    for (int field = 0; field < fields.count(); ++field) {
        for (const QString& symbol : wantedSymbols(wants)) {
            if (fields.isEmpty(field)) {
                fields.setUnit(field, symbol);
            }
        }
    }
}

void preferUnits(std::vector<FieldsView::Field>& fields, const run::PersonRecord& wants)
{
    for (FieldsView::Field& field : fields) {
        for (const QString& symbol : wantedSymbols(wants)) {
            const auto unit = field.units.indexOf(symbol);
            field.unit = unit >= 0 && field.text.isEmpty() ? static_cast<int>(unit) : field.unit;
        }
    }
}

} // namespace loopside::app
