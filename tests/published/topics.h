// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The published checks, topic by topic. checks_table_test.cpp makes them all.

#pragma once

#include "published/checks.h"

namespace loopside::published {

void unitChecks(Checks& checks);
void gradeChecks(Checks& checks);
void viscosityChecks(Checks& checks);
void viscosityIndexChecks(Checks& checks);
void densityChecks(Checks& checks);
void sayboltChecks(Checks& checks);
void waterChecks(Checks& checks);
void cleanlinessChecks(Checks& checks);
void elementChecks(Checks& checks);
void gaugeChecks(Checks& checks);
void cleanDropChecks(Checks& checks);
void turnoverChecks(Checks& checks);
void pipeChecks(Checks& checks);
void machineChecks(Checks& checks);
void numericalChecks(Checks& checks);

} // namespace loopside::published
