// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/kept_answers.h"
#include "app/own_words.h"
#include "app/row_model.h"
#include "app/tablet.h"
#include "run/checklist.h"

#include <QObject>
#include <QtQml/qqmlregistration.h>

#include <functional>
#include <optional>

namespace loopside::app {

/// One checklist, a point at a time. Each point is answered where it stands, so that no finger goes through them in one
/// place; an answer that comes at once after the one before is asked about first, and kept if the person says so.
class ChecklistView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")

    /// Rows: text, state (done, does-not-apply, skipped, now, later), stateText, caution, isNow.
    Q_PROPERTY(loopside::app::RowModel* points READ points CONSTANT)
    /// "4 of 9 answered, 1 left out".
    Q_PROPERTY(QString standingText READ standingText NOTIFY changed)
    Q_PROPERTY(bool isComplete READ isComplete NOTIFY changed)
    /// "0.3 s after the point before. Did you look?" or empty.
    Q_PROPERTY(QString doubt READ doubt NOTIFY changed)
    /// "Answered before at 08:12 by Ines: done. Still so?" where the point that stands now was answered before the
    /// tablet stopped; or empty.
    Q_PROPERTY(QString beforeText READ beforeText NOTIFY changed)
    /// A reason is asked for, why the point that stands now is left out.
    Q_PROPERTY(bool asksWhy READ asksWhy NOTIFY changed)
    /// What the point is that is to be left out.
    Q_PROPERTY(QString nowText READ nowText NOTIFY changed)
    /// Reasons to choose from. Rows: text.
    Q_PROPERTY(loopside::app::RowModel* reasons READ reasons CONSTANT)
    /// A reason in own words, a draft until the point is answered.
    Q_PROPERTY(loopside::app::OwnWords* ownWords READ ownWords CONSTANT)
    Q_PROPERTY(bool canGoBack READ canGoBack NOTIFY changed)

public:
    /// What an answer is handed to: true if it was kept.
    using Keep = std::function<bool(const run::CheckAnswered&)>;
    using Known = std::vector<std::optional<run::PointAnswered>>;
    /// What was answered before to a point; nothing where nothing was.
    using Before = std::function<std::optional<KeptAnswers::Answer>(std::string_view check)>;

    ChecklistView(Tablet& tablet, run::Checklist list, Keep keep, QObject* parent = nullptr);

    [[nodiscard]] RowModel* points() { return &rows_; }
    [[nodiscard]] QString standingText() const;
    [[nodiscard]] bool isComplete() const;
    [[nodiscard]] int answered() const;
    /// How many of those were left out, each with its reason.
    [[nodiscard]] int leftOut() const;
    /// Whether the point of that id was, or the one at that place.
    [[nodiscard]] bool isLeftOut(std::string_view check) const;
    [[nodiscard]] bool isLeftOut(std::size_t point) const;
    [[nodiscard]] QString doubt() const;
    [[nodiscard]] QString beforeText() const;
    [[nodiscard]] bool asksWhy() const { return asksWhy_; }
    [[nodiscard]] QString nowText() const;
    [[nodiscard]] RowModel* reasons() { return &reasons_; }
    [[nodiscard]] OwnWords* ownWords() { return &ownWords_; }
    [[nodiscard]] bool canGoBack() const { return now_ > 0; }

    /// What is known of the answers, and of the cart where the act is.
    void show(Known known, const run::Circumstances& circumstances);
    /// Where answers are found that are offered again.
    void offer(Before before) { before_ = std::move(before); }
    /// What is looked at, such as the tank: own words about it are not offered where something else is looked at.
    void about(std::string subject) { subject_ = std::move(subject); }
    /// Begins at the first point that has no answer.
    void begin();

    /// The point that stands now: "done", "does-not-apply", or "skipped", which asks for a reason.
    Q_INVOKABLE void answer(const QString& say);
    /// What was answered before holds still.
    Q_INVOKABLE void stillSo();
    Q_INVOKABLE void because(int reason);
    Q_INVOKABLE void becauseOf(const QString& why);
    Q_INVOKABLE void noReason();
    /// The doubt is answered: the person looked, or has not yet.
    Q_INVOKABLE void looked();
    Q_INVOKABLE void notYet();
    /// To the point before, to answer it anew.
    Q_INVOKABLE void back();

Q_SIGNALS:
    void changed();

private:
    void refresh();
    void propose(run::Answer answer, const std::string& why);
    void keep(const run::CheckAnswered& answered);
    void takeOwnWordsAbout(std::string_view point);
    [[nodiscard]] int firstOpen() const;
    [[nodiscard]] std::optional<KeptAnswers::Answer> before() const;
    [[nodiscard]] QString answerText(const run::PointAnswered& answered) const;

    Tablet& tablet_;
    std::vector<run::CheckPoint> points_;
    Keep keep_;
    Before before_ = {};
    OwnWords ownWords_;
    std::string subject_ = {};
    RowModel rows_;
    RowModel reasons_;
    Known known_;
    run::Circumstances circumstances_ = {};
    int now_ = 0;
    bool asksWhy_ = false;
    std::optional<std::uint64_t> lastNs_; ///< When the last answer was touched.
    std::optional<run::CheckAnswered> doubted_;
    std::uint64_t doubtedAfterNs_ = 0;
};

} // namespace loopside::app
