// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/record_view.h"
#include "site/clean_at_parts.h"

namespace loopside::app {

/// The element types of the site.
class ElementView final : public RecordView
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")

public:
    explicit ElementView(Tablet& tablet, QObject* parent = nullptr);

private:
    [[nodiscard]] QString stateOf(const run::RecordPut& record) const override;
    [[nodiscard]] QList<RowModel::Row> factsOf(const run::RecordPut& record) const override;
    [[nodiscard]] std::vector<Group> begin(const run::RecordPut* record) override;
    [[nodiscard]] run::RecordPut record() const override;
    void setName(const std::string& name) override { put_.stage.type = name; }

    [[nodiscard]] Group kindGroup(bool isKnown);
    [[nodiscard]] Group pressureGroup(bool isKnown);

    run::ElementTypePut put_;
    site::CleanAtParts cleanAt_;
};

} // namespace loopside::app
