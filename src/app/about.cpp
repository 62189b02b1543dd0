// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/about.h"

namespace loopside::app {

QList<RowModel::Row> aboutRows(const Tablet& tablet)
{
    return {{tablet.label("app.about.version"), QStringLiteral("Loopside " LOOPSIDE_VERSION)},
            {tablet.label("app.about.licence"), tablet.label("app.about.licence-told")}};
}

} // namespace loopside::app
