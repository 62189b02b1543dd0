// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Each MIXES_… is a mistake that the compiler must refuse with the message that the build file names. Without any of
// them the file compiles, which is a test too: the mistakes are refused for what they are, not for something else.

#include "units/quantity.h"
#include "units/temperature.h"

using namespace loopside::units;

#if defined(MIXES_PRESSURE_AND_NUMBER)
const Pressure wrong = 38.0 * psi + 5.0;
#elif defined(MIXES_PRESSURE_AND_VOLUME)
const auto wrong = 38.0 * psi + 24.0 * gallon;
#elif defined(MIXES_UNITS_OF_TWO_KINDS)
const double wrong = (38.0 * psi).in(gallon);
#elif defined(MIXES_NUMBER_INTO_PRESSURE)
const Pressure wrong = 38.0;
#elif defined(MIXES_TWO_TEMPERATURES)
const auto wrong = 22.0 * celsius + 22.0 * celsius;
#elif defined(MIXES_TEMPERATURE_AND_DIFFERENCE)
const Temperature wrong = 50.0 * celsius - 40.0 * celsius;
#else
const Pressure right = 38.0 * psi + 5.0 * bar;
const Volume alsoRight = 4.0 * gallonPerMinute * (20.0 * minute);
const Temperature stillRight = 22.0 * celsius + (50.0 * celsius - 40.0 * celsius);
#endif
