// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The library for comma-separated values, as this project wants it.

#pragma once

#define CSV_IO_NO_THREAD // the text is in memory: nothing to wait for
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wstringop-truncation" // its sentences are cut on purpose; none of them is shown
#include <libfccp/csv.h>
#pragma GCC diagnostic pop
