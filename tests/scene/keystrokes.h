// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// How long the tasks of the floor take by the keystroke-level model. The touches are made on the real screens and
// counted; the seconds are the model's, of a person who knows the screens and makes no mistake.
//
// Source: S. K. Card, T. P. Moran, A. Newell, "The keystroke-level model for user performance time with interactive
// systems", Communications of the ACM 23 (1980) 7, 396-410; operators, times and rules from memory.
//   H 0.40 s   the hand goes to the screen, once a task
//   P          a finger points at a target and touches it: 0.8 + 0.1 log2(distance ÷ size + 0.5) s, not less than 0.8
//   s;
//              the paper has it for a mouse, with the press not counted in. Taken here for a finger, press included.
//   K 0.28 s   the same key once more, without pointing (the paper's average typist)
//   M 1.35 s   thinking before each touch that chooses or commands; none before the digits of a number (its rule 0)
//   R 0        the screens answer at once
// Reading the gauges, walking and what is done at the cart are not in it.

#pragma once

#include "hand.h"

#include <functional>
#include <string>
#include <vector>

namespace loopside::scene {

/// Seconds by the model.
[[nodiscard]] double secondsOf(const std::vector<Touch>& touches);
/// "H M P 8P M P": the operators in order, equal ones counted.
[[nodiscard]] std::string operatorsOf(const std::vector<Touch>& touches);

/// One thing that a person does on the screens.
struct Task
{
    std::string name;
    std::function<void(Hand&)> prepare; ///< Not counted.
    std::function<void(Hand&)> perform; ///< Counted.
};

[[nodiscard]] const std::vector<Task>& tasks();

struct Timed
{
    std::string name;
    std::vector<Touch> touches;
};

/// Performs every task, each on a tablet of its own.
[[nodiscard]] std::vector<Timed> performAll();

} // namespace loopside::scene
