// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

namespace loopside::test {

/// `text` with a plain space for each that ends no line.
[[nodiscard]] std::string withPlainSpaces(const std::string& text);

/// Every sentence and word that screens and paper have in English, with plain spaces.
[[nodiscard]] std::set<std::string> englishWords();

/// The same in `language`, by its id.
[[nodiscard]] std::map<std::string, std::string> wordsIn(const std::string& language);

/// What stands between single stars in the Markdown `text`: keys as they are called on the screens.
[[nodiscard]] std::vector<std::string> keysNamedIn(const std::string& text);

/// Where the links and pictures of the Markdown `text` lead to, without addresses in a network and places in the text
/// itself.
[[nodiscard]] std::vector<std::string> filesLinkedIn(const std::string& text);

} // namespace loopside::test
