// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/record_view.h"

namespace loopside::app {

/// The tanks of the site.
class TankView final : public RecordView
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")

public:
    explicit TankView(Tablet& tablet, QObject* parent = nullptr);

    [[nodiscard]] bool canBeNew() const override { return true; }

private:
    [[nodiscard]] std::vector<std::string> names() const override;
    [[nodiscard]] QString stateOf(const std::string& name) const override;
    [[nodiscard]] QList<RowModel::Row> factsOf(int row) const override;
    [[nodiscard]] std::vector<HistoryLine> historyOf(const std::string& name) const override;
    [[nodiscard]] std::vector<Editable> begin(int row) override;
    [[nodiscard]] run::RecordPut record() const override { return put_; }
    void setName(const std::string& name) override { put_.tank.name = name; }
    void setFluid(const run::FluidRecord& fluid) override { put_.tank.fluid = fluid; }
    [[nodiscard]] bool hasFluid() const override { return true; }
    [[nodiscard]] std::string plateOf(const std::string& tank) const;

    run::TankPut put_;
};

} // namespace loopside::app
