// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/record_view.h"

namespace loopside::app {

/// The jobs that the site plans: which tank, to which target, by when.
class JobView final : public RecordView
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")

public:
    explicit JobView(Tablet& tablet, QObject* parent = nullptr);

private:
    [[nodiscard]] QString stateOf(const run::RecordPut& record) const override;
    [[nodiscard]] QList<RowModel::Row> factsOf(const run::RecordPut& record) const override;
    [[nodiscard]] const char* loggedWords() const override { return "app.record-page.logged-job"; }
    [[nodiscard]] std::vector<HistoryLine> workOf(const std::string& name) const override;
    [[nodiscard]] std::vector<Group> begin(const run::RecordPut* record) override;
    [[nodiscard]] run::RecordPut record() const override { return put_; }
    void setName(const std::string& name) override { put_.job.order = name; }
    [[nodiscard]] Group what(bool isKnown);
    [[nodiscard]] Group why(bool isKnown);

    run::JobPut put_;
    std::vector<std::string> tanks_; ///< As they are offered.
    std::vector<std::string> carts_;
};

} // namespace loopside::app
