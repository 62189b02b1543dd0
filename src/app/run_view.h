// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/part_view.h"
#include "app/row_model.h"
#include "app/tablet.h"
#include "paper/trend.h"

#include <QObject>
#include <QtQml/qqmlregistration.h>

namespace loopside::app {

/// The Run screen: the last logged set on the loop, what it means, how far the run is, when to read next.
class RunView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")

    Q_PROPERTY(bool isThere READ isThere NOTIFY changed)
    Q_PROPERTY(QString tankName READ tankName NOTIFY changed)
    Q_PROPERTY(QString fluidText READ fluidText NOTIFY changed)
    Q_PROPERTY(QString cartName READ cartName NOTIFY changed)
    /// The six signs by which another tablet takes it over.
    Q_PROPERTY(QString runCode READ runCode NOTIFY changed)
    /// That another tablet goes on with it, that it was handed on, what it is one with; empty if nothing of that.
    Q_PROPERTY(QString handsText READ handsText NOTIFY changed)
    Q_PROPERTY(QString flowText READ flowText NOTIFY changed)
    Q_PROPERTY(QString oilText READ oilText NOTIFY changed)
    /// stopped, bypassing or filtering.
    Q_PROPERTY(QString mode READ mode NOTIFY changed)
    /// "filtering 1:18".
    Q_PROPERTY(QString modeText READ modeText NOTIFY timeChanged)
    /// Which way the oil takes in that mode.
    Q_PROPERTY(QString wayText READ wayText NOTIFY changed)
    Q_PROPERTY(QString onlyHereText READ onlyHereText NOTIFY changed)
    /// "logged 14:18", or that nothing is logged yet.
    Q_PROPERTY(QString loggedText READ loggedText NOTIFY changed)

    /// Rows: name, valueText, unitText, spoken. The last logged set.
    Q_PROPERTY(loopside::app::RowModel* gauges READ gauges CONSTANT)
    /// Rows: number, title, dropText, errorText, limitText, fill (raw ÷ limit, 0 to 1.1), mark (at the coldest oil of
    /// this run ÷ limit, or -1), level (ok, caution, limit, stop, unknown: the worse of now, ahead and what was found),
    /// levelText, correctedText, loadingText, forecastState, forecastText, aheadLow and aheadHigh (expected raw ÷
    /// limit, or -1: stage_ahead.h), spoken.
    Q_PROPERTY(loopside::app::RowModel* stages READ stages CONSTANT)

    /// The last sets, the latest first. Rows: see reading_rows.h.
    Q_PROPERTY(loopside::app::RowModel* readings READ readings CONSTANT)

    /// What is known of the cart that reading the gauges calls for: hot oil, clicking, a leak; empty if nothing.
    Q_PROPERTY(QString caution READ caution NOTIFY changed)
    /// The one line under the header: level (none, note, caution, stop), text and reasons.
    Q_PROPERTY(QString lineLevel READ lineLevel NOTIFY changed)
    Q_PROPERTY(QString lineText READ lineText NOTIFY changed)
    Q_PROPERTY(QString lineDetail READ lineDetail NOTIFY changed)
    /// The keys that answer the line; empty unless it is a question. Rows: text, say (see question_keys.h).
    Q_PROPERTY(loopside::app::RowModel* answers READ answers CONSTANT)
    Q_PROPERTY(loopside::app::PartView* part READ part CONSTANT)
    Q_PROPERTY(bool lineCanBeAcknowledged READ lineCanBeAcknowledged NOTIFY changed)
    /// Whether findings, what became of alerts and which are in service can be looked at: not while it asks.
    Q_PROPERTY(bool lineHasReasons READ lineHasReasons NOTIFY changed)
    /// What the gauges say, the gravest first, with all that stands behind it. Rows: see finding_rows.h.
    Q_PROPERTY(loopside::app::RowModel* findings READ findings CONSTANT)

    /// What became of the alerts of the run, the latest first. Rows: see alert_rows.h.
    Q_PROPERTY(loopside::app::RowModel* alertLog READ alertLog CONSTANT)
    /// How many alerts in what time, how many stand.
    Q_PROPERTY(QString alertsText READ alertsText NOTIFY changed)

    Q_PROPERTY(double turnoversLow READ turnoversLow NOTIFY timeChanged)
    Q_PROPERTY(double turnoversBest READ turnoversBest NOTIFY timeChanged)
    Q_PROPERTY(double turnoversHigh READ turnoversHigh NOTIFY timeChanged)
    /// 0 if there is none.
    Q_PROPERTY(double target READ target NOTIFY changed)
    Q_PROPERTY(QString turnoversText READ turnoversText NOTIFY timeChanged)
    /// How clean the oil is likely to be now and how far it is to the target code; empty while no bottle is counted.
    Q_PROPERTY(QString codeText READ codeText NOTIFY changed)
    Q_PROPERTY(QString remainingText READ remainingText NOTIFY timeChanged)

    /// "2:40", or how long it is overdue.
    Q_PROPERTY(QString nextText READ nextText NOTIFY timeChanged)
    Q_PROPERTY(QString nextCaption READ nextCaption NOTIFY timeChanged)
    /// How much of the wait is left, 1 to 0.
    Q_PROPERTY(double nextFraction READ nextFraction NOTIFY timeChanged)
    Q_PROPERTY(bool isOverdue READ isOverdue NOTIFY timeChanged)

    /// Said before the first mode of a shift is recorded; empty otherwise.
    Q_PROPERTY(QString modeHint READ modeHint NOTIFY modeHintChanged)
    /// The key that then records it: names the mode.
    Q_PROPERTY(QString modeConfirm READ modeConfirm NOTIFY modeHintChanged)
    Q_PROPERTY(bool isClosed READ isClosed NOTIFY changed)

public:
    explicit RunView(Tablet& tablet, QObject* parent = nullptr);

    [[nodiscard]] bool isThere() const;
    [[nodiscard]] QString tankName() const;
    [[nodiscard]] QString fluidText() const;
    [[nodiscard]] QString cartName() const;
    [[nodiscard]] QString runCode() const;
    [[nodiscard]] QString handsText() const;
    [[nodiscard]] QString flowText() const;
    [[nodiscard]] QString oilText() const;
    [[nodiscard]] QString mode() const;
    [[nodiscard]] QString modeText() const;
    [[nodiscard]] QString wayText() const { return tablet_.say({"app.way." + mode().toStdString(), {}}); }
    [[nodiscard]] QString onlyHereText() const;
    [[nodiscard]] QString loggedText() const;
    [[nodiscard]] RowModel* gauges() { return &gauges_; }
    [[nodiscard]] RowModel* stages() { return &stages_; }
    [[nodiscard]] RowModel* readings() { return &readings_; }
    [[nodiscard]] RowModel* answers() { return &answers_; }
    [[nodiscard]] PartView* part() { return &part_; }
    [[nodiscard]] QString lineLevel() const { return line_.level; }
    [[nodiscard]] QString lineText() const { return line_.text; }
    [[nodiscard]] QString lineDetail() const { return line_.detail; }
    [[nodiscard]] bool lineCanBeAcknowledged() const { return line_.alert.has_value(); }
    [[nodiscard]] bool lineHasReasons() const;
    [[nodiscard]] RowModel* findings() { return &findings_; }
    [[nodiscard]] RowModel* alertLog() { return &alertLog_; }
    [[nodiscard]] QString alertsText() const;
    [[nodiscard]] double turnoversLow() const;
    [[nodiscard]] double turnoversBest() const;
    [[nodiscard]] double turnoversHigh() const;
    [[nodiscard]] double target() const;
    [[nodiscard]] QString turnoversText() const;
    [[nodiscard]] QString codeText() const { return codeText_; }
    [[nodiscard]] QString remainingText() const;
    [[nodiscard]] QString nextText() const;
    [[nodiscard]] QString nextCaption() const;
    [[nodiscard]] double nextFraction() const;
    [[nodiscard]] bool isOverdue() const;
    [[nodiscard]] QString modeHint() const { return modeHint_; }
    [[nodiscard]] QString modeConfirm() const { return modeConfirm_; }
    [[nodiscard]] QString caution() const;
    [[nodiscard]] bool isClosed() const;

    /// The curves of the trend, for the painter.
    [[nodiscard]] paper::Trend trend() const;

    /// A mode key: stopped, bypassing or filtering. Records at once, but for the first one of a shift.
    Q_INVOKABLE void recordMode(const QString& mode);
    Q_INVOKABLE void confirmMode();
    Q_INVOKABLE void cancelMode();
    Q_INVOKABLE void answer(const QString& say);
    Q_INVOKABLE void acknowledgeLine();
    /// Somebody looked, and what that row of `findings` says is so.
    Q_INVOKABLE void confirmFinding(int row);

Q_SIGNALS:
    void changed();
    void timeChanged();
    void modeHintChanged();

private:
    struct Line
    {
        QString level = QStringLiteral("none");
        QString text;
        QString detail;
        std::string_view finding = {}; ///< Its id, if the line tells one.
        std::optional<run::Alert> alert = {};
        std::optional<run::Question> question = {}; ///< If the line asks one; points into the run.
    };

    void refresh();
    void refreshGauges();
    void refreshStages();
    void refreshCode();
    [[nodiscard]] RowModel::Row stageRow(std::size_t stage) const;
    void refreshLine();
    void showFinding(const run::Finding& finding);
    void showAlert(const run::Alert& alert);
    void showQuestion(const run::Question& question);
    void showAhead(const run::Outlook& ahead);
    void showWhatElse();
    /// Answers the question of the line, or every open one like it where sets were entered late.
    void answerQuestion(const run::Question& question, const std::string& say);
    [[nodiscard]] QString linkedText() const;
    [[nodiscard]] run::TurnoverBand band() const;
    [[nodiscard]] const run::RunState* run() const { return tablet_.shown(); }
    [[nodiscard]] const run::Standing& standing() const { return tablet_.standing(*tablet_.shown()); }

    Tablet& tablet_;
    RowModel gauges_;
    RowModel stages_;
    RowModel readings_;
    RowModel answers_;
    PartView part_;
    RowModel findings_;
    RowModel alertLog_;
    Line line_;
    QString codeText_;
    QString modeHint_;
    QString modeConfirm_;
    QString pendingMode_;
    bool hintWasShown_ = false;
};

} // namespace loopside::app
