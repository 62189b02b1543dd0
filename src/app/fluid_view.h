// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/record_view.h"

namespace loopside::app {

/// The oils that the site orders.
class FluidView final : public RecordView
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")

public:
    explicit FluidView(Tablet& tablet, QObject* parent = nullptr);

private:
    [[nodiscard]] QString stateOf(const run::RecordPut& record) const override;
    [[nodiscard]] QList<RowModel::Row> factsOf(const run::RecordPut& record) const override;
    [[nodiscard]] std::vector<Group> begin(const run::RecordPut* record) override;
    [[nodiscard]] run::RecordPut record() const override;
    void setName(const std::string& name) override { put_.name = name; }

    run::FluidPut put_;
    std::optional<run::TypedViscosity> at40_;
    std::optional<run::TypedViscosity> at100_;
};

} // namespace loopside::app
