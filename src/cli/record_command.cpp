// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "base/text.h"
#include "cli/commands.h"
#include "cli/files.h"
#include "cli/options.h"
#include "ledger/read_all.h"
#include "paper/record_pdf.h"
#include "report/csv.h"
#include "report/record_file.h"
#include "run/run_code.h"

#include <nlohmann/json.hpp>

#include <algorithm>

namespace loopside::cli {

namespace {

using Json = nlohmann::ordered_json;

constexpr std::string_view program = LOOPSIDE_VERSION;

/// The runs that `read` has, in the order of their first entries.
Result<std::vector<Id>> runsIn(const ledger::EntryReader& read)
{
    std::vector<Id> runs;
    const Done done = read([&](const ledger::Stored& stored) -> Done {
        const Id& run = stored.entry.header.run;
        if (!run.isNone() && std::ranges::find(runs, run) == runs.end()) {
            runs.push_back(run);
        }
        return {};
    });
    return done ? Result<std::vector<Id>>(std::move(runs)) : fail(done.error());
}

std::string listed(const std::vector<Id>& runs)
{
    std::string text;
    for (const Id& run : runs) {
        text += (text.empty() ? "" : ", ") + run::codeOf(run) + " (" + toText(run) + ")";
    }
    return text;
}

/// The run that shows `code`; its id is asked for where that is no answer.
Result<Id> runOfCode(const ledger::EntryReader& read, const std::string& code)
{
    const auto runs = runsIn(read);
    if (!runs) {
        return fail(runs.error());
    }
    std::vector<Id> found;
    std::ranges::copy_if(*runs, std::back_inserter(found), [&](const Id& run) { return run::codeOf(run) == code; });
    if (found.empty()) {
        return fail(Errc::NotFound,
                    "no run shows " + code
                        + (runs->empty() ? "; the journal has none" : "; these are there: " + listed(*runs)));
    }
    return found.size() == 1 ? Result<Id>(found.front())
                             : fail(Errc::Conflict, "several runs show " + code + ", tell the id: " + listed(found));
}

/// `typed` is an id or six signs.
Result<Id> runNamed(const ledger::EntryReader& read, const std::string& typed)
{
    if (const auto id = idFromText(typed)) {
        return *id;
    }
    const auto code = run::codeFrom(typed);
    return code ? runOfCode(read, *code) : fail(at("RUN", code.error()));
}

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
    report::Telling telling{.language = options.language, .prices = *prices};
    for (const auto* people : {&site->people, &site->peopleOut}) {
        for (const site::SitePerson& person : *people) {
            telling.names[person.id] = person.name;
        }
    }
    return telling;
}

/// Only those who wrote: a record names nobody else.
void keepWriters(report::Telling& telling, const report::Evidence& evidence)
{
    std::erase_if(telling.names, [&](const auto& named) {
        return std::ranges::none_of(evidence.entries, [&](const ledger::Entry& entry) {
            return entry.header.person == named.first || entry.body.find(toText(named.first)) != std::string::npos;
        });
    });
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
    keepWriters(*telling, *evidence);
    return report::recordOf(*evidence, *telling).transform([&](report::RunRecord record) {
        return report::RecordFile{std::string(program), *telling, std::move(record), *std::move(evidence)};
    });
}

Result<std::string> contentOf(const RecordOptions& options, const report::RecordFile& file)
{
    if (options.csv) {
        return report::csvOf(file.record);
    }
    return options.json ? Result<std::string>(report::jsonOf(file))
                        : paper::paperSizeNamed(options.paper).and_then([&](paper::PaperSize size) {
                              return paper::recordPdf(file, size);
                          });
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

Done verifyRecord(const VerifyRecordOptions& options, std::ostream& out)
{
    const auto text = readFile(options.record, report::recordBytesMax);
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
