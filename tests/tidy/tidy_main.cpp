// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// loopside-tidy PROJECT LAYERS: says where the project at PROJECT breaks a rule of the house that no other tool knows.
// LAYERS is the build's layers.txt. Ends with 0 if nothing was found, 1 if something was, 2 if it could not look.

#include "tidy/licence_rule.h"
#include "tidy/tree.h"

#include <fstream>
#include <iostream>
#include <sstream>

namespace {

std::string textOf(const std::string& path)
{
    std::ostringstream text;
    text << std::ifstream(path).rdbuf();
    return text.str();
}

} // namespace

int main(int count, char** words)
{
    using namespace loopside::tidy;
    if (count != 3) {
        std::cerr << "loopside-tidy PROJECT LAYERS\n";
        return 2;
    }
    const std::string text = textOf(words[2]);
    const auto layers = Layers::parse(text);
    if (!layers || text.empty()) {
        std::cerr << words[2] << ": " << (layers ? "is missing or empty" : layers.error().sentence) << "\n";
        return 2;
    }
    const auto files = readTree(words[1]);
    if (!files) {
        std::cerr << files.error().sentence << "\n";
        return 2;
    }
    Findings findings = checkTree(*files, *layers);
    const std::string dep5 = textOf(std::string(words[1]) + "/.reuse/dep5");
    const Findings unstated = checkLicencesAreStated(readHeads(words[1]), dep5);
    findings.insert(findings.end(), unstated.begin(), unstated.end());
    for (const Finding& finding : findings) {
        std::cout << toText(finding) << "\n";
    }
    std::cout << files->size() << " files looked at, " << findings.size() << " findings\n";
    return findings.empty() ? 0 : 1;
}
