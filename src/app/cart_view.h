// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/record_view.h"
#include "site/clean_at_parts.h"

namespace loopside::app {

/// The carts of the site with the elements that stand in them.
class CartView final : public RecordView
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")

public:
    explicit CartView(Tablet& tablet, QObject* parent = nullptr);

private:
    [[nodiscard]] QString stateOf(const run::RecordPut& record) const override;
    [[nodiscard]] QList<RowModel::Row> factsOf(const run::RecordPut& record) const override;
    [[nodiscard]] std::vector<HistoryLine> workOf(const std::string& name) const override;
    [[nodiscard]] QList<RowModel::Row> pastOf(const std::string& name) const override;
    [[nodiscard]] std::vector<Group> begin(const run::RecordPut* record) override;
    [[nodiscard]] run::RecordPut record() const override;
    void setName(const std::string& name) override { put_.cart.name = name; }

    [[nodiscard]] QString flushText(const std::string& name) const;
    [[nodiscard]] Group pumpGroup(bool isKnown);
    [[nodiscard]] Group gaugeGroup(bool isKnown);
    [[nodiscard]] Group hoseGroup(bool isKnown);
    [[nodiscard]] Group oilGroup(bool isKnown);
    void takeStages();
    [[nodiscard]] Group stageGroup(std::size_t stage, bool isKnown);
    [[nodiscard]] std::vector<run::StageRecord> knownTypes() const;
    [[nodiscard]] QStringList pressureUnits() const;

    run::CartPut put_;
    std::vector<site::CleanAtParts> cleanAt_; ///< Of the stages.
};

} // namespace loopside::app
