// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/question_keys.h"

#include <algorithm>
#include <array>

namespace loopside::app {

namespace {

struct KeyOf
{
    std::string_view question;
    QuestionKey key;
};

constexpr QuestionKey asTyped{"app.answer.as-typed", "no"};
constexpr QuestionKey readAgain{"app.answer.read-again", sayAgain};
constexpr QuestionKey yes{"app.answer.yes", "yes"};
constexpr QuestionKey no{"app.answer.no", "no"};

constexpr std::array keys = {
    KeyOf{run::gaugesSwapped, {"app.answer.gauges-swapped", sayMend}},
    KeyOf{run::gaugesSwapped, asTyped},
    KeyOf{run::gaugesSwapped, readAgain},
    KeyOf{run::wrongUnit, {"app.answer.wrong-unit", sayMend}},
    KeyOf{run::wrongUnit, asTyped},
    KeyOf{run::wrongUnit, readAgain},
    KeyOf{run::digitSlip, {"app.answer.digit-slip", sayMend}},
    KeyOf{run::digitSlip, asTyped},
    KeyOf{run::digitSlip, readAgain},
    KeyOf{run::outOfRange, asTyped},
    KeyOf{run::outOfRange, readAgain},
    KeyOf{run::timeOrder, yes},
    KeyOf{run::timeOrder, readAgain},
    KeyOf{run::jumped, yes},
    KeyOf{run::jumped, readAgain},
    KeyOf{run::enteredLate, {"app.answer.seen", "seen"}},
    KeyOf{run::unwatchedGap, yes},
    KeyOf{run::unwatchedGap, {"app.answer.part", sayPart}},
    KeyOf{run::unwatchedGap, no},
    KeyOf{run::changeoverWhileRunning, yes},
    KeyOf{run::changeoverWhileRunning, no},
};

} // namespace

std::vector<QuestionKey> keysFor(const run::Question& question)
{
    std::vector<QuestionKey> fitting;
    for (const KeyOf& one : keys) {
        if (one.question == question.id && (one.key.say != sayMend || question.proposal)) {
            fitting.push_back(one.key);
        }
    }
    return fitting;
}

} // namespace loopside::app
