// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/guide_view.h"

#include "embedded/guideDe.h"
#include "embedded/guideEn.h"
#include "embedded/guideEs.h"

namespace loopside::app {

namespace {

/// The place of "What the forecast means" among the parts, the title of the whole being the first; held by a test.
constexpr int forecastPart = 8;

} // namespace

std::string_view guideIn(std::string_view language)
{
    return language == "de" ? guideDe() : language == "es" ? guideEs() : guideEn();
}

GuideView::GuideView(Tablet& tablet, QObject* parent)
    : QObject{parent},
      markdown_{guideIn(tablet.language())},
      titles_{guideTitles(markdown_)},
      partRows_{{"name"}},
      lineRows_{{"kind", "mark", "text", "plain"}}
{
    QList<RowModel::Row> rows;
    for (const QString& title : titles_) {
        rows.append({title});
    }
    partRows_.setRows(std::move(rows));
}

QString GuideView::title() const
{
    return at_ < 0 ? QString() : titles_[at_];
}

bool GuideView::hasNext() const
{
    return at_ >= 0 && at_ + 1 < titles_.size();
}

QString GuideView::forecastTitle() const
{
    return titles_[forecastPart];
}

void GuideView::openList()
{
    at_ = -1;
    lineRows_.setRows({});
    Q_EMIT changed();
}

void GuideView::openPart(int row)
{
    if (row < 0 || row >= titles_.size()) {
        return;
    }
    if (parts_.isEmpty()) {
        parts_ = guideParts(markdown_);
    }
    at_ = row;
    QList<RowModel::Row> rows;
    for (const GuideLine& line : parts_[row].lines) {
        rows.append({line.kind, line.mark, line.text, line.plain});
    }
    lineRows_.setRows(std::move(rows));
    Q_EMIT changed();
}

void GuideView::openNext()
{
    openPart(at_ + 1);
}

void GuideView::openForecast()
{
    openPart(forecastPart);
}

} // namespace loopside::app
