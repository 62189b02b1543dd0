// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Above the dial's full scale, or above the relief setting by more than a tenth: no needle goes there.

#include "run/question_rules.h"

namespace loopside::run {

namespace {

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

} // namespace

std::vector<Question> askRange(const Moment& moment, const CartRecord& cart)
{
    std::vector<Question> questions;
    for (std::size_t i = 0; moment.reading != nullptr && i < cart.gauges.size(); ++i) {
        const auto shown = highestShown(*moment.reading, cart, i);
        if (shown && isOutOfRange(*shown, cart.gauges[i], cart)) {
            Question asked{.id = outOfRange, .of = moment.fact, .gauge = static_cast<int>(i) + 1};
            asked.arguments = {{"gauge", std::to_string(i + 1)}, {"typed", shown->toText()}};
            questions.push_back(std::move(asked));
        }
    }
    return questions;
}

} // namespace loopside::run
