// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/wanted_units.h"

#include "app/wording.h"

namespace loopside::app {

namespace {

QString behind(const std::string& typed, const std::string& wanted)
{
    return toQt(typed) + QStringLiteral(" (") + toQt(wanted) + QLatin1Char(')');
}

/// Three digits that say something.
int decimalsOf(double number)
{
    return number >= 100.0 ? 0 : number >= 10.0 ? 1 : 2;
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

} // namespace

QString asWanted(const run::TypedVolume& volume, const run::PersonRecord& wants)
{
    if (wants.volume == nullptr || wants.volume == &volume.unit()) {
        return toQt(volume.toText());
    }
    const double number = volume.value().in(wants.volume->unit);
    return behind(volume.toText(), units::print(volume.value(), *wants.volume, decimalsOf(number)));
}

QString asWanted(const run::TypedPressure& pressure, const run::PersonRecord& wants)
{
    if (wants.pressure == nullptr || wants.pressure == &pressure.unit()) {
        return toQt(pressure.toText());
    }
    return behind(pressure.toText(), units::printComputed(pressure.value(), *wants.pressure));
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
