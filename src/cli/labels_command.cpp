// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "cli/commands.h"
#include "cli/files.h"
#include "cli/run_named.h"
#include "cli/site_at_hand.h"
#include "paper/labels_pdf.h"
#include "report/record.h"

namespace loopside::cli {

namespace {

constexpr std::string_view pngEnding = ".png";

/// The labels of the run or job that `options` names.
Result<std::vector<report::Label>> labelsFor(const LabelsOptions& options, const words::Words& words)
{
    const auto all = siteAtHand(options.journal, options.site);
    const auto journal = all ? openExisting(options.journal) : fail(all.error());
    if (!journal) {
        return fail(journal.error());
    }
    const ledger::EntryReader read = [&](const auto& take) { return ledger::readAll(**journal, take); };
    const auto id = runNamed(read, options.run);
    if (!id) {
        return fail(id.error());
    }
    const std::map<Id, std::string> names = site::namesOf(all->site);
    const report::NameOf nameOf = report::nameIn(names);
    if (const auto job = all->state.jobs.find(*id); job != all->state.jobs.end()) {
        return report::labelsOf(words, job->second, nameOf);
    }
    const auto run = report::evidenceOf(read, *id).and_then(report::runOf);
    return run ? Result<std::vector<report::Label>>(report::labelsOf(words, *run, nameOf)) : fail(run.error());
}

Done writeBytes(const std::string& path, const std::string& bytes)
{
    return writeWhole(path, [&](std::ostream& file) -> Done {
        file << bytes;
        return {};
    });
}

/// "labels.png" → "labels-2.png".
std::string numbered(const std::string& path, std::size_t number)
{
    return path.substr(0, path.size() - pngEnding.size()) + "-" + std::to_string(number) + std::string(pngEnding);
}

/// A file for each label.
Done writePictures(const LabelsOptions& options, const words::Words& words, const std::vector<report::Label>& labels,
                   std::ostream& out)
{
    for (std::size_t i = 0; i < labels.size(); ++i) {
        const std::string path = numbered(options.out, i + 1);
        if (Done done = writeBytes(path, paper::labelPng(words, labels[i])); !done) {
            return done;
        }
        out << path << ": " << labels[i].title << ", " << labels[i].name << "\n";
    }
    return {};
}

Done writePages(const LabelsOptions& options, const words::Words& words, const std::vector<report::Label>& labels,
                std::ostream& out)
{
    if (Done done = writeBytes(options.out, paper::labelsPdf(words, labels)); !done) {
        return done;
    }
    for (std::size_t i = 0; i < labels.size(); ++i) {
        out << options.out << ", page " << i + 1 << ": " << labels[i].title << ", " << labels[i].name << "\n";
    }
    return {};
}

} // namespace

Done writeLabels(const LabelsOptions& options, std::ostream& out)
{
    auto words = words::Words::in(options.language);
    const auto labels = words ? labelsFor(options, *words) : fail(words.error());
    if (!labels) {
        return fail(labels.error());
    }
    if (labels->empty()) {
        return fail(Errc::NotFound,
                    "there is nothing to label: no bottle was drawn, no element taken out and no used oil moved in "
                        + options.run + "; nothing is written");
    }
    return options.out.ends_with(pngEnding) ? writePictures(options, *words, *labels, out)
                                            : writePages(options, *words, *labels, out);
}

} // namespace loopside::cli
