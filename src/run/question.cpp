// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/question.h"

#include <algorithm>

namespace loopside::run {

namespace {

/// Above the dial's full scale, or above the relief setting by more than a tenth: no needle goes there.
bool isOutOfRange(const ExactPressure& shown, const GaugeRecord& dial, const CartRecord& cart)
{
    if (dial.span) {
        const units::Pressure fullScale(dial.span->toDouble(), dial.unit->unit);
        if (shown.value() > fullScale * (1.0 + 1e-9)) { // the margin is for units that differ, not for the needle
            return true;
        }
    }
    return cart.relief && shown.value() > cart.relief->value() * 1.1;
}

std::optional<ExactPressure> highestShown(const ReadingLogged& reading, const CartRecord& cart, std::size_t index)
{
    auto shown = shownBy(reading, cart, index);
    if (shown && reading.gauges[index]->high) {
        shown->number = *reading.gauges[index]->high;
    }
    return shown;
}

class Asker
{
public:
    Asker(const std::vector<Moment>& moments, const RunState& run) : moments_{moments}, run_{run} {}

    std::vector<Question> ask()
    {
        for (std::size_t i = 0; i < moments_.size(); ++i) {
            askAboutRange(moments_[i]);
            askAboutChangeover(moments_[i]);
            if (i > 0) {
                askAboutGap(moments_[i - 1], moments_[i]);
            }
        }
        for (const Moment& moment : moments_) {
            takeAnswer(moment);
        }
        return std::move(questions_);
    }

private:
    void askAboutRange(const Moment& moment)
    {
        if (moment.reading == nullptr) {
            return;
        }
        for (std::size_t i = 0; i < run_.setup.cart.gauges.size(); ++i) {
            const auto shown = highestShown(*moment.reading, run_.setup.cart, i);
            if (shown && isOutOfRange(*shown, run_.setup.cart.gauges[i], run_.setup.cart)) {
                questions_.push_back({outOfRange, moment.fact, static_cast<int>(i) + 1, nullptr});
            }
        }
    }

    void askAboutChangeover(const Moment& moment)
    {
        const bool isChangeover = std::holds_alternative<ElementsChanged>(moment.fact->effective)
            && !moment.fact->struck;
        if (isChangeover && moment.mode != Mode::Stopped) {
            questions_.push_back({changeoverWhileRunning, moment.fact, std::nullopt, nullptr});
        }
    }

    void askAboutGap(const Moment& from, const Moment& to)
    {
        const bool isAfterClose = run_.phase == Phase::Closed && to.at > run_.closedAt;
        if (from.mode == Mode::Filtering && to.at - from.at > unwatchedAfter && !isAfterClose) {
            questions_.push_back({unwatchedGap, to.fact, std::nullopt, nullptr});
        }
    }

    void takeAnswer(const Moment& moment)
    {
        const auto* answer = std::get_if<QuestionAnswered>(&moment.fact->effective);
        if (answer == nullptr || moment.fact->struck) {
            return;
        }
        for (Question& question : questions_) {
            if (question.id == answer->question && question.of->header.id == answer->of) {
                question.answer = answer;
            }
        }
    }

    const std::vector<Moment>& moments_;
    const RunState& run_;
    std::vector<Question> questions_;
};

} // namespace

std::vector<Question> questionsIn(const std::vector<Moment>& moments, const RunState& run)
{
    return Asker(moments, run).ask();
}

bool isHeldBack(const Fact& fact, const std::vector<Question>& questions)
{
    return std::any_of(questions.begin(), questions.end(), [&](const Question& question) {
        return question.of == &fact && question.isAboutTyping() && question.answer == nullptr;
    });
}

} // namespace loopside::run
