// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "base/text.h"
#include "cli/commands.h"
#include "cli/files.h"
#include "cli/options.h"
#include "cli/run_named.h"
#include "cli/site_at_hand.h"
#include "ledger/read_all.h"
#include "paper/pdf_record.h"
#include "paper/record_pdf.h"
#include "report/csv.h"
#include "report/record_file.h"
#include "run/run_code.h"
#include "store/attachment_folder.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <filesystem>
#include <system_error>

namespace loopside::cli {

namespace {

using Json = nlohmann::ordered_json;

constexpr std::string_view program = LOOPSIDE_VERSION;

Result<std::optional<Decimal>> priceOf(std::string_view option, const std::string& text)
{
    if (text.empty()) {
        return std::optional<Decimal>();
    }
    const auto price = Decimal::parse(trimmed(text));
    return price ? Result<std::optional<Decimal>>(*price) : fail(at(option, price.error()));
}

Result<std::optional<run::Prices>> pricesOf(const RecordOptions& options)
{
    if (options.currency.empty()) {
        return std::optional<run::Prices>();
    }
    const auto element = priceOf("--element-price", options.elementPrice);
    const auto oil = element ? priceOf("--oil-price", options.oilPrice) : element;
    const auto hour = oil ? priceOf("--hour-price", options.hourPrice) : oil;
    return hour ? Result<std::optional<run::Prices>>(run::Prices{options.currency, *element, *oil, *hour})
                : fail(hour.error());
}

Result<report::Telling> tellingOf(const RecordOptions& options)
{
    const auto site = readSite(options.site);
    const auto prices = site ? pricesOf(options) : fail(site.error());
    if (!prices) {
        return fail(prices.error());
    }
    return report::Telling{
        .language = options.language, .names = site::namesOf(*site), .prices = *prices ? *prices : site->prices};
}

Result<report::RecordFile> madeOf(const RecordOptions& options)
{
    auto telling = tellingOf(options);
    const auto journal = telling ? openExisting(options.journal) : fail(telling.error());
    if (!journal) {
        return fail(journal.error());
    }
    const ledger::EntryReader read = [&](const auto& take) { return ledger::readAll(**journal, take); };
    auto evidence = runNamed(read, options.run).and_then([&](const Id& run) { return report::evidenceOf(read, run); });
    if (!evidence) {
        return fail(evidence.error());
    }
    return report::recordFileOf(std::string(program), *std::move(evidence), *std::move(telling));
}

Result<std::string> contentOf(const RecordOptions& options, const report::RecordFile& file)
{
    if (options.csv) {
        return report::csvOf(file.record);
    }
    return options.json
        ? Result<std::string>(report::jsonOf(file))
        : paper::paperSizeNamed(options.paper).and_then([&](paper::PaperSize size) {
              const auto attachments = store::AttachmentFolder::besideJournal(options.journal);
              return paper::recordPdf(file, size, [&](const std::string& hash) { return attachments.read(hash); });
          });
}

/// The year of the place in which `stamp` was.
int yearOf(const Stamp& stamp)
{
    constexpr std::int64_t minuteMs = 60'000;
    return std::stoi(utcText(stamp.wallMs + stamp.offsetMin * minuteMs).substr(0, 4));
}

std::string endingOf(const RecordOptions& options)
{
    return options.csv ? ".csv" : options.json ? ".json" : ".pdf";
}

Json checkedJson(const report::RecordFile& file, const report::RecordChecked& checked)
{
    Json chains = Json::array();
    for (const report::ChainPart& part : checked.chains) {
        chains.push_back({{"chain", toText(part.chain)},
                          {"device", toText(part.device)},
                          {"key", part.key ? Json(toHex(*part.key)) : Json()},
                          {"first", part.first},
                          {"last", part.last},
                          {"entries", part.entries},
                          {"others", part.others()}});
    }
    return {{"run", toText(file.record.run)}, {"code", file.record.code},   {"verdict", file.record.verdict},
            {"entries", checked.entries},     {"digest", checked.digest},   {"chains", chains},
            {"faults", checked.faults},       {"not_proven", checked.notes}};
}

void tellChecked(const report::RecordFile& file, const report::RecordChecked& checked, std::ostream& out)
{
    out << "run " << file.record.code << " (" << toText(file.record.run) << "), " << file.record.subject << "\n";
    for (const std::string& fault : checked.faults) {
        out << fault << "\n";
    }
    if (checked.faults.empty()) {
        out << file.record.verdict << "\n"
            << checked.entries
            << " entries; every hash, link and signature holds, and every table is what they come to\n";
    }
    out << "digest " << checked.digest << "\n";
    for (const report::ChainPart& part : checked.chains) {
        out << "tablet " << toText(part.device) << ", key " << (part.key ? toHex(*part.key) : std::string("not there"))
            << ", entries " << part.entries << "\n";
    }
    for (const std::string& note : checked.notes) {
        out << note << "\n";
    }
}

} // namespace

Done recordOfRun(const RecordOptions& options, std::ostream& out)
{
    const auto file = madeOf(options);
    if (!file) {
        return fail(file.error());
    }
    const auto content = contentOf(options, *file);
    if (!content) {
        return fail(content.error());
    }
    const Done written = writeWhole(options.out, [&](std::ostream& target) -> Done {
        target << *content;
        return {};
    });
    if (written) {
        out << options.out << ": record of run " << file->record.code << ", " << file->record.entries
            << " entries, digest " << file->record.digest << "\n";
    }
    return written;
}

Done recordsOfTank(const RecordOptions& options, std::ostream& out)
{
    const auto year = wholeNumberOf("--year", options.year);
    const auto all = year ? siteAtHand(options.journal, options.site) : fail(year.error());
    if (!all) {
        return fail(all.error());
    }
    std::error_code ignored;
    std::filesystem::create_directories(options.out, ignored); // where it cannot be, writing says so
    int written = 0;
    for (const auto& [id, run] : all->state.runs) {
        if (run.setup.tank.name != options.tank || yearOf(run.opened.entered) != *year) {
            continue;
        }
        RecordOptions one = options;
        one.run = toText(id);
        one.out = options.out + "/record-" + run::codeOf(id) + endingOf(options);
        if (Done done = recordOfRun(one, out); !done) {
            return fail(done.error().code,
                        done.error().sentence + "; records written before it: " + std::to_string(written));
        }
        ++written;
    }
    return written > 0
        ? Done()
        : fail(Errc::NotFound,
               "no run at \"" + options.tank + "\" was opened in " + options.year + "; nothing is written");
}

namespace {

/// The file itself, or the one that is attached to a PDF.
Result<std::string> textOfRecord(const std::string& path)
{
    auto content = readFile(path, paper::pdfBytesMax);
    if (content && paper::isPdf(*content)) {
        return paper::recordAttached(*content, report::recordBytesMax);
    }
    return content && content->size() > report::recordBytesMax ? readFile(path, report::recordBytesMax) : content;
}

} // namespace

Done verifyRecord(const VerifyRecordOptions& options, std::ostream& out)
{
    const auto text = textOfRecord(options.record);
    const auto file = text ? report::recordFileFrom(*text) : fail(text.error());
    if (!file) {
        return fail(file.error().code, options.record + ": " + file.error().sentence);
    }
    report::RecordChecked checked = report::checkRecord(*file, program);
    if (!options.seal.empty()) {
        if (const Done fits = report::matchesSeal(*file, options.seal); !fits) {
            checked.faults.push_back("--seal: " + fits.error().sentence);
        }
    }
    if (options.json) {
        out << checkedJson(*file, checked).dump(-1, ' ', false, Json::error_handler_t::replace) << "\n";
    } else {
        tellChecked(*file, checked, out);
    }
    return checked.faults.empty()
        ? Done()
        : fail(Errc::Corrupt, options.record + ": " + std::to_string(checked.faults.size()) + " faults found");
}

} // namespace loopside::cli
