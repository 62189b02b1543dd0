// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/record_view.h"

namespace loopside::app {

/// The carts of the site with the elements that stand in them.
class CartView final : public RecordView
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")

public:
    explicit CartView(Tablet& tablet, QObject* parent = nullptr);

    [[nodiscard]] bool canBeNew() const override { return false; }

private:
    [[nodiscard]] std::vector<std::string> names() const override;
    [[nodiscard]] QString stateOf(const std::string& name) const override;
    [[nodiscard]] QList<RowModel::Row> factsOf(int row) const override;
    [[nodiscard]] std::vector<HistoryLine> historyOf(const std::string& name) const override;
    [[nodiscard]] std::vector<Editable> begin(int row) override;
    [[nodiscard]] run::RecordPut record() const override { return put_; }
    void setName(const std::string& name) override { put_.cart.name = name; }
    void setFluid(const run::FluidRecord&) override {}
    [[nodiscard]] bool hasFluid() const override { return false; }

    run::CartPut put_;
};

} // namespace loopside::app
