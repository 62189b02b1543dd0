// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/record_view.h"
#include "run/place_typed.h"

namespace loopside::app {

/// The tanks of the site.
class TankView final : public RecordView
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")

public:
    explicit TankView(Tablet& tablet, QObject* parent = nullptr);

private:
    [[nodiscard]] QString stateOf(const run::RecordPut& record) const override;
    [[nodiscard]] QList<RowModel::Row> factsOf(const run::RecordPut& record) const override;
    [[nodiscard]] std::vector<HistoryLine> workOf(const std::string& name) const override;
    [[nodiscard]] QList<RowModel::Row> pastOf(const std::string& name) const override;
    [[nodiscard]] QList<paper::PastChart> chartsOf(const std::string& name) const override;
    [[nodiscard]] std::vector<Group> begin(const run::RecordPut* record) override;
    [[nodiscard]] run::RecordPut record() const override;
    void setName(const std::string& name) override { put_.tank.name = name; }

    [[nodiscard]] Group oilGroup(bool isKnown);
    [[nodiscard]] Group shapeGroup(bool isKnown);
    [[nodiscard]] Group placeGroup(bool isKnown);
    [[nodiscard]] Editable coordinate(std::string& member, run::Axis axis, bool isKnown) const;
    [[nodiscard]] QStringList doubtsAbout(const run::RecordPut& record) const override;

    run::TankPut put_;
    run::TankShapeRecord shape_; ///< Of `put_`, while it is told part by part.
};

} // namespace loopside::app
