// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Judges the diagnosis on the stories and writes the tables of docs/findings.md.
//
//   findings_eval [--variants 200] [--only NAME] [--why] [--write]
//
// --only: stories whose name begins so, nothing is written. --why: what fails most under noise. --write: into
// docs/findings.md, else the tables are printed. It takes minutes of two cores.

#include "tables.h"

#include <CLI/CLI.hpp>

#include <algorithm>
#include <cstdio>
#include <fstream>
#include <iterator>

using namespace loopside;
using namespace loopside::evaluation;

namespace {

const std::string source = LOOPSIDE_SOURCE_DIR;

int complain(const std::string& sentence)
{
    std::fprintf(stderr, "findings_eval: %s\n", sentence.c_str());
    return 2;
}

Done write(const std::string& tables)
{
    const std::string path = source + "/docs/findings.md";
    std::ifstream before(path, std::ios::binary);
    const auto document = withTables({std::istreambuf_iterator<char>(before), {}}, tables);
    if (!document) {
        return fail(document.error().code, path + ": " + document.error().sentence);
    }
    before.close();
    std::ofstream after(path, std::ios::binary);
    after << *document;
    after.close();
    return after ? Done{} : Done{fail(Errc::Io, path + " cannot be written")};
}

} // namespace

int main(int argc, char** argv)
{
    int variants = 200;
    std::string only;
    bool isWhyAsked = false;
    bool isWritten = false;
    CLI::App app("Judges the diagnosis on the stories, as they are and under noise.");
    app.add_option("--variants", variants, "of each story")->check(CLI::Range(0, 100'000));
    app.add_option("--only", only, "stories whose name begins so")
        ->excludes(app.add_flag("--write", isWritten, "into docs/findings.md"));
    app.add_flag("--why", isWhyAsked, "what fails most, story by story");
    try {
        app.parse(argc, argv);
    } catch (const CLI::ParseError& error) {
        return app.exit(error) == 0 ? 0 : 2;
    }
    const auto truths = readTruths(source + "/tests/findings_eval/truths.json");
    auto cases = truths ? readCases(source + "/tests/stories", source + "/tests/findings_eval/awaited", *truths)
                        : Result<std::vector<StoryCase>>(fail(truths.error()));
    if (!cases) {
        return complain(cases.error().sentence);
    }
    std::erase_if(*cases, [&](const StoryCase& one) { return !one.name.starts_with(only); });
    const auto confusion = confusionOf(*cases);
    const auto awaited = awaitedTable(*cases);
    if (!confusion || !awaited) {
        return complain((confusion ? awaited.error() : confusion.error()).sentence);
    }
    const auto scores = noiseOfAll(*cases, variants);
    if (!scores) {
        return complain(scores.error().sentence);
    }
    const std::string tables = "### As the stories are written\n\n" + confusionTable(*confusion) + "\n### Awaited\n\n"
        + *awaited + "\n### Under noise\n\n" + noiseTable(*scores);
    if (isWritten) {
        if (const Done written = write(tables); !written) {
            return complain(written.error().sentence);
        }
    } else {
        std::printf("%s", tables.c_str());
    }
    if (isWhyAsked) {
        std::printf("\n%s", whyTable(*scores).c_str());
    }
    return 0;
}
