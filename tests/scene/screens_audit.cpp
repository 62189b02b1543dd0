// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Looks at every screen of the tour and tells what does not suit gloved hands, glare and night.
//
//   screens_audit [--language en|es|de|pseudo] [--scale 1,1.3,1.6,2] [--only NAME] [--check targets,clipping,…]
//                 [--pictures FOLDER]
//   screens_audit --write
//
// --write: the tables of docs/screens.md, with the keystrokes of the tasks. It takes minutes.

#include "audit.h"
#include "document.h"
#include "pseudo.h"
#include "stage.h"
#include "tables.h"

#include <CLI/CLI.hpp>

#include <algorithm>
#include <cstdio>

using namespace loopside;

namespace {

scene::Wanted wantedFrom(const std::vector<std::string>& checks, const std::string& only)
{
    const auto has = [&](const char* check) {
        return checks.empty() || std::ranges::find(checks, check) != checks.end();
    };
    scene::Wanted wanted;
    wanted.targets = has("targets");
    wanted.clipping = has("clipping");
    wanted.naming = has("naming");
    wanted.keyboard = has("keyboard");
    wanted.contrast = has("contrast");
    wanted.only = QString::fromStdString(only);
    return wanted;
}

int write()
{
    scene::Wanted wanted;
    wanted.looks = {{scene::lengthwise, 1.0}, {scene::upright, 1.0}};
    wanted.targets = wanted.contrast = true;
    const auto found = scene::audit(words::Words::in("en").value(), "en", wanted);
    auto document = scene::withTable(scene::screensDocument(), "targets", scene::targetTable(found));
    document = document ? scene::withTable(*document, "contrast", scene::contrastTable(found)) : document;
    document = document ? scene::withTable(*document, "keystrokes", scene::keystrokeTable(scene::performAll()))
                        : document;
    if (!document) {
        std::fprintf(stderr, "screens_audit: %s: %s\n", scene::screensPath.c_str(), document.error().sentence.c_str());
        return 2;
    }
    std::ofstream file(scene::screensPath, std::ios::binary);
    file << *document;
    return file ? 0 : 2;
}

} // namespace

int main(int argc, char** argv)
{
    scene::theProgram();
    std::string language = "en";
    std::string only;
    std::string pictures;
    std::vector<double> scales = {1.0};
    std::vector<std::string> checks;
    CLI::App app("Looks at every screen of the tour and tells what does not suit gloved hands, glare and night.");
    app.add_option("--language", language, "en, es, de or pseudo");
    app.add_option("--scale", scales, "of the text")->delimiter(',');
    app.add_option("--pictures", pictures, "a folder for a picture of each look");
    app.add_option("--only", only, "screens whose name contains this");
    app.add_option("--check", checks, "targets, clipping, naming, keyboard, contrast; all")->delimiter(',');
    bool isWritten = false;
    app.add_flag("--write", isWritten, "the tables of docs/screens.md");
    CLI11_PARSE(app, argc, argv);
    if (isWritten) {
        return write();
    }

    scene::Wanted wanted = wantedFrom(checks, only);
    wanted.pictures = QString::fromStdString(pictures);
    for (const double scale : scales) {
        wanted.looks.push_back({scene::lengthwise, scale});
        wanted.looks.push_back({scene::upright, scale});
    }
    auto words = language == "pseudo" ? Result<words::Words>(scene::pseudoWords()) : words::Words::in(language);
    if (!words) {
        std::fprintf(stderr, "screens_audit: %s\n", words.error().sentence.c_str());
        return 2;
    }
    const auto found = scene::audit(*std::move(words), language == "pseudo" ? "en" : language, wanted);
    std::fprintf(stderr, "%d screens, %d faults\n", found.scenes, static_cast<int>(found.faults.size()));
    return found.faults.isEmpty() && found.isPlayed ? 0 : 1;
}
