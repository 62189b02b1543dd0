// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// loopside-tidy PROJECT LAYERS: says where the project at PROJECT breaks a rule of the house that no other tool knows.
// LAYERS is the build's layers.txt. Ends with 0 if nothing was found, 1 if something was, 2 if it could not look.

#include "tidy/tree.h"

#include <fstream>
#include <iostream>
#include <sstream>

int main(int count, char** words)
{
    using namespace loopside::tidy;
    if (count != 3) {
        std::cerr << "loopside-tidy PROJECT LAYERS\n";
        return 2;
    }
    std::ostringstream text;
    text << std::ifstream(words[2]).rdbuf();
    const auto layers = Layers::parse(text.str());
    if (!layers || text.str().empty()) {
        std::cerr << words[2] << ": " << (layers ? "is missing or empty" : layers.error().sentence) << "\n";
        return 2;
    }
    const auto files = readTree(words[1]);
    if (!files) {
        std::cerr << files.error().sentence << "\n";
        return 2;
    }
    const Findings findings = checkTree(*files, *layers);
    for (const Finding& finding : findings) {
        std::cout << toText(finding) << "\n";
    }
    std::cout << files->size() << " files looked at, " << findings.size() << " findings\n";
    return findings.empty() ? 0 : 1;
}
