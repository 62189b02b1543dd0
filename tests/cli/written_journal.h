// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <string>
#include <vector>

namespace loopside::test {

/// Opens a run in the journal `journal`, as the tablet with the key file `key` does, and notes `texts` in it, with a
/// picture if there is one. Either file is made where it is not there.
void writeNotes(const std::string& journal, const std::string& key, const std::vector<std::string>& texts,
                const std::string& picture = "");

} // namespace loopside::test
