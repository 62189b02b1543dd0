// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/draw_view.h"
#include "app/mounted_media.h"
#include "app/record_out.h"
#include "app/result_view.h"
#include "app/row_model.h"
#include "app/tablet.h"
#include "run/kit.h"

#include <QImage>
#include <QObject>
#include <QtQml/qqmlregistration.h>

#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace loopside::app {

/// The bottles of the shown run: those that it wants, and those that were drawn, with what was counted in them, whether
/// they may be held against each other, their labels, and how clean the oil is likely to be now.
class KitView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")

    /// What is wanted and what was drawn for it, then other bottles, then a place for another one. Rows: name, detail,
    /// isChosen.
    Q_PROPERTY(loopside::app::RowModel* bottles READ bottles CONSTANT)
    Q_PROPERTY(loopside::app::DrawView* draw READ draw CONSTANT)
    Q_PROPERTY(loopside::app::ResultView* result READ result CONSTANT)
    /// The bottle that is chosen is to be drawn, or was.
    Q_PROPERTY(bool isDrawing READ isDrawing NOTIFY changed)
    Q_PROPERTY(bool isDrawn READ isDrawn NOTIFY changed)
    /// Those that are typed in: of the bottle to be drawn, or of its result.
    Q_PROPERTY(loopside::app::FieldsView* fields READ fields NOTIFY changed)
    Q_PROPERTY(QString title READ title NOTIFY changed)
    /// Of a bottle that was drawn. Rows: name, value.
    Q_PROPERTY(loopside::app::RowModel* facts READ facts CONSTANT)
    /// Whether it may be held against the first one, and why not; empty where there is nothing to hold it against.
    Q_PROPERTY(QString compareText READ compareText NOTIFY changed)
    Q_PROPERTY(bool isComparable READ isComparable NOTIFY changed)
    /// How clean the oil is likely to be now, the way to the target, what more hours would bring; empty without a
    /// count.
    Q_PROPERTY(QString aheadText READ aheadText NOTIFY changed)
    /// The label of the bottle that was drawn; null if none is chosen.
    Q_PROPERTY(QImage label READ label NOTIFY changed)
    /// The keys that write the labels of the run. Rows: text, say.
    Q_PROPERTY(loopside::app::RowModel* labelKeys READ labelKeys CONSTANT)
    /// What became of them; empty where nobody asked.
    Q_PROPERTY(QString labelsText READ labelsText NOTIFY changed)
    /// What is odd in what was typed: asked before it is logged.
    Q_PROPERTY(QString doubtText READ doubtText NOTIFY changed)
    Q_PROPERTY(QString mainText READ mainText NOTIFY changed)
    Q_PROPERTY(QString problem READ problem NOTIFY changed)
    Q_PROPERTY(QString notice READ notice NOTIFY changed)

public:
    explicit KitView(Tablet& tablet, QObject* parent = nullptr);

    [[nodiscard]] RowModel* bottles() { return &bottles_; }
    [[nodiscard]] DrawView* draw() { return &draw_; }
    [[nodiscard]] ResultView* result() { return &result_; }
    [[nodiscard]] bool isDrawing() const { return !chosen_.empty() && !isDrawn(); }
    [[nodiscard]] bool isDrawn() const { return !chosen_.empty() && sample() != nullptr; }
    [[nodiscard]] FieldsView* fields() { return isDrawn() ? result_.fields() : draw_.fields(); }
    [[nodiscard]] QString title() const;
    [[nodiscard]] RowModel* facts() { return &facts_; }
    [[nodiscard]] QString compareText() const;
    [[nodiscard]] bool isComparable() const;
    [[nodiscard]] QString aheadText() const { return aheadText_; }
    [[nodiscard]] QImage label() const { return label_; }
    [[nodiscard]] RowModel* labelKeys() { return &labelKeys_; }
    [[nodiscard]] QString labelsText() const;
    [[nodiscard]] QString doubtText() const { return asked_.join(QLatin1Char('\n')); }
    [[nodiscard]] QString mainText() const;
    [[nodiscard]] QString problem() const;
    [[nodiscard]] QString notice() const;

    /// What writes labels; null: nothing does, as in an exercise. Outlives the view, or is taken away before.
    void setRecords(RecordOut* records);
    /// Where sticks are looked for; without it those that are mounted.
    void lookAt(std::function<QStringList()> media);
    /// Takes up the shown run, with what it wants first.
    void open();
    /// The page was left: nothing is computed any more.
    void leave();
    /// A tag was read: that of a bottle that was drawn chooses it, another one is of the bottle that is being drawn.
    void takeTag(const QString& code);

    Q_INVOKABLE void choose(int row);
    /// The main key: logs the bottle or its result; what is odd is asked first.
    Q_INVOKABLE void goOn();
    Q_INVOKABLE void writeLabels(const QString& say);

Q_SIGNALS:
    void changed();

private:
    /// A row of `bottles_`.
    struct Row
    {
        std::string key; ///< What the drafts call it; of a bottle that was drawn the id of its entry.
        std::optional<run::KitBottle> wanted = {};
        std::optional<std::size_t> sample = {};
    };

    void refresh();
    void read();
    void take();
    void forgetAsked();
    void showBottles();
    void showFacts();
    void showLabel();
    void showLabelKeys();
    [[nodiscard]] const Row* row() const;
    [[nodiscard]] const run::SampleSeen* sample() const;
    [[nodiscard]] const run::SampleSeen* first() const;
    [[nodiscard]] std::optional<run::Comparability> compared() const;
    [[nodiscard]] QString nameOf(const Row& row) const;
    [[nodiscard]] QString detailOf(const Row& row) const;
    [[nodiscard]] QStringList doubts() const { return isDrawn() ? result_.doubts() : draw_.doubts(); }

    Tablet& tablet_;
    RowModel bottles_;
    DrawView draw_;
    ResultView result_;
    RowModel facts_;
    RowModel labelKeys_;
    RecordOut* records_ = nullptr;
    std::function<QStringList()> media_ = mountedMedia;
    bool isOpen_ = false;
    Id run_ = {};
    std::vector<run::SampleSeen> samples_; ///< They point into the shown run: read anew with every change.
    std::vector<Row> rows_;
    std::string chosen_; ///< Key of a row; empty: none.
    QString aheadText_;
    QImage label_;
    QStringList asked_;
    QString notice_;
};

} // namespace loopside::app
