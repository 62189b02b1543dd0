// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Practice: the page of exercises, a simulated cart with its dials, an opinion, the changeover, the look back.

#include "app/tour.h"
#include "base/text.h"

#include <cmath>

namespace loopside::app {

namespace {

/// Types what the dials show, to the nearest division; both ends of a needle that swings.
void readDials(ExerciseView& exercise)
{
    PadView* pad = exercise.app()->pad();
    const auto type = [&](const std::string& text) {
        for (const char sign : text) {
            pad->key(QString(QLatin1Char(sign)));
        }
    };
    const auto& dials = exercise.dials()->rows();
    for (qsizetype i = 0; i < dials.size(); ++i) {
        const double division = dials[i][3].toDouble();
        const auto marked = [&](int column) {
            return fixed(std::round(dials[i][column].toDouble() / division) * division, division < 1.0 ? 1 : 0);
        };
        pad->select(static_cast<int>(i));
        type(marked(5));
    }
    pad->select(static_cast<int>(dials.size()));
    type(exercise.oilText().split(QLatin1Char(' ')).first().toStdString());
    pad->goOn();
}

} // namespace

bool Tour::practise()
{
    constexpr int pumpComplains = 8;
    constexpr int seen = 20; // sets at most, until something can be noticed
    PracticeView* practice = stage_.view.practice();
    stage_.view.showPractice();
    practice->choose(pumpComplains);
    isFine_ = picture(QStringLiteral("00-practice")) && isFine_;
    practice->start();
    ExerciseView* exercise = practice->exercise();
    if (exercise == nullptr) {
        return complainOf(practice->problem());
    }
    exercise->chooseRate(0);
    readDials(*exercise);
    exercise->app()->run()->recordMode(QStringLiteral("filtering"));
    exercise->app()->run()->confirmMode();
    for (int set = 0; set < seen && !exercise->exercise().lived().visibleAt; ++set) {
        exercise->toNextReading();
        readDials(*exercise);
    }
    exercise->toNextReading();
    isFine_ = picture(QStringLiteral("00-practice-cart")) && isFine_;
    readDials(*exercise);
    exercise->goToCart();
    isFine_ = picture(QStringLiteral("00-practice-run")) && isFine_;
    exercise->goToCart();
    exercise->askThink();
    isFine_ = picture(QStringLiteral("00-practice-think")) && isFine_;
    exercise->choose(static_cast<int>(practice::Thought::SuctionStarved));
    exercise->app()->run()->recordMode(QStringLiteral("stopped"));
    exercise->askLook();
    exercise->choose(static_cast<int>(practice::Spot::Suction));
    isFine_ = picture(QStringLiteral("00-practice-sight")) && isFine_;
    exercise->change(2);
    isFine_ = picture(QStringLiteral("00-practice-changeover")) && isFine_;
    exercise->app()->changeover()->leave();
    exercise->end();
    isFine_ = picture(QStringLiteral("00-practice-debrief")) && isFine_;
    practice->leave();
    return practice->exercise() == nullptr;
}

} // namespace loopside::app
