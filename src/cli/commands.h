// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What `loopside-cli` does, a function per verb. Each writes its answer to `out` and returns, or says why not in one
// sentence.

#pragma once

#include "base/result.h"

#include <ostream>
#include <string>
#include <vector>

namespace loopside::cli {

struct ReplayOptions
{
    std::string story;
    std::string journal; ///< Path of a journal to write to; empty: in memory.
    std::string language = "en";
    bool json = false;
    bool check = false; ///< Also hold the story against its `expect`.
};

/// Replays a story file and tells what the technician is told after each entry.
[[nodiscard]] Done replay(const ReplayOptions& options, std::ostream& out);

/// What a story's set-up comes to before the start, at the first oil temperature that the story knows.
[[nodiscard]] Done plan(const std::string& story, bool json, std::ostream& out);

struct ViscosityOptions
{
    std::string grade;
    std::string viscosityIndex;
    std::vector<std::string> points; ///< Each "46 cSt at 40 C".
    std::string at40;                ///< Viscosity at 40 °C, a point; with that at 100 °C the index is told.
    std::string at100;
    std::string viscosity;       ///< Fixed; needs no temperature.
    std::string density;         ///< At 15 °C.
    std::string kind;            ///< Such as "hydraulic"; decides cautions only.
    std::vector<std::string> at; ///< Temperatures.
    bool json = false;
};

/// Viscosity of an oil, and what else is known of it, at each temperature; its index if it was measured at 40 and 100
/// °C.
[[nodiscard]] Done viscosity(const ViscosityOptions& options, std::ostream& out);

struct CodeOptions
{
    std::vector<std::string> counts; ///< At 4, 6 and 14 µm(c), or at 5 and 15 µm.
    std::string per = "1mL";
    std::vector<std::string> counted; ///< A volume, or the numbers of particles that were seen.
    std::string code;
    std::string target;
    std::string before;
    std::vector<std::string> nas;    ///< Per 100 mL in each band.
    std::vector<std::string> as4059; ///< Per 100 mL at and above each size; "-": not counted.
    bool json = false;
};

/// The cleanliness code of counts, or one that is told; held against a target and an earlier one. Or an older class.
[[nodiscard]] Done code(const CodeOptions& options, std::ostream& out);

struct TransferOptions
{
    std::string oil;
    std::string container;
    std::string holds; ///< What is in the container already; empty: nothing.
    std::string flow;
    std::string tank;  ///< Source, for the label; may be empty.
    std::string fluid; ///< For the label; may be empty.
    bool json = false;
};

/// How spent oil goes to waste: when to stop, how many containers, label and cautions.
[[nodiscard]] Done transfer(const TransferOptions& options, std::ostream& out);

struct CleanUpOptions
{
    std::string from; ///< Code at the start.
    std::string to;   ///< Target code.
    std::string volume;
    std::string flow;
    std::vector<std::string> betas;  ///< One a stage; none: everything is captured, which is said.
    std::string mixing;              ///< Empty: 0.7, which is said.
    std::string floor;               ///< Code that is not passed; empty: none.
    std::string after;               ///< Turnovers for which the code is expected; empty: not asked.
    std::vector<std::string> counts; ///< "turnovers:code", taken during the run.
    bool json = false;
};

/// How many turnovers it is from one code to another, by the mixed tank and by counts taken during the run.
[[nodiscard]] Done cleanUp(const CleanUpOptions& options, std::ostream& out);

struct FlushOptions
{
    std::string left;
    std::string batch;
    std::string batches; ///< Empty: as many as it takes.
    std::string wanted;  ///< Rest of old oil; empty: what the two fluids ask for, else 1 %.
    std::string tank;
    std::string holdUp;
    std::string from; ///< Fluids, such as "ISO VG 46 hydraulic"; both or none.
    std::string to;
    bool json = false;
};

/// What flushing a cart leaves of its last oil, and how much goes into the next tank.
[[nodiscard]] Done flush(const FlushOptions& options, std::ostream& out);

struct ForecastOptions
{
    std::string readings; ///< File of the series (series_file.h).
    std::string history;  ///< File of past loadings; empty: none.
    std::string limit;
    std::string unit;         ///< Of the limit, of the drops in both files and of the graduation.
    std::string graduation;   ///< Empty: the finest step of the readings, at most a fortieth of the limit.
    std::string kin = "tank"; ///< How near the history stands: the same tank, type or kind.
    std::string every = "1";  ///< Forecast after each so many readings of a run, and after its last.
    std::string language = "en";
    bool lastOnly = false;
    bool ignoreFlow = false;
    bool json = false;
};

/// When each run of a series reaches the limit, as it could be told after each reading. Runs that can be read are told;
/// then Malformed with the faults of the others, one a line.
[[nodiscard]] Done forecastSeries(const ForecastOptions& options, std::ostream& out);

struct RecordsOptions
{
    std::string file;
    std::string kind;   ///< tanks, fluids, elements or carts.
    std::string data;   ///< The folder of the tablet's journal and key, with which the app is closed.
    std::string site;   ///< The site file; empty: what the journal knows is all.
    std::string person; ///< Who signs: an id, or a name of the site file.
    std::string language = "en";
    bool previewOnly = false;
    bool json = false;
};

/// Tells what a file of records would change, row by row, and takes its good rows into the journal, all of them or
/// none. Rows that cannot be read are told; then Malformed.
[[nodiscard]] Done takeRecords(const RecordsOptions& options, std::ostream& out);

struct RecordOptions
{
    std::string run; ///< Its six signs, or its id.
    std::string journal;
    std::string out;  ///< The file to write.
    std::string site; ///< A site file, for the names of people; empty: they are told by their ids.
    std::string language = "en";
    std::string currency; ///< Of the prices; empty: none is told.
    std::string elementPrice;
    std::string oilPrice; ///< Of a litre.
    std::string hourPrice;
    std::string paper = "A4"; ///< Of the PDF: A4 or Letter.
    std::string tank;         ///< Of all runs at that tank in `year`, into the folder `out`; empty: of `run`.
    std::string year;         ///< That the runs were opened in, by the clock of the place.
    bool csv = false;
    bool json = false;
};

/// Writes the records of a tank's year, a file for each run. NotFound where there is none; stops at the first that
/// cannot be written and says how many are.
[[nodiscard]] Done recordsOfTank(const RecordOptions& options, std::ostream& out);

/// Writes the record of one run as a file: a PDF (paper/record_pdf.h), JSON (report/record_file.h) or CSV
/// (report/csv.h).
[[nodiscard]] Done recordOfRun(const RecordOptions& options, std::ostream& out);

struct LabelsOptions
{
    std::string run; ///< A run or a job: its six signs, or its id.
    std::string journal;
    std::string out;  ///< A PDF with a label on each page; ending in ".png": a picture of each, numbered.
    std::string site; ///< As of `RecordOptions`.
    std::string language = "en";
};

/// Writes labels for the bottles and used elements of a run, or for the used oil of a job (paper/labels_pdf.h).
[[nodiscard]] Done writeLabels(const LabelsOptions& options, std::ostream& out);

struct VerifyRecordOptions
{
    std::string record; ///< A record file.
    std::string seal;   ///< What the QR code of a printed record says; empty: not asked.
    bool json = false;
};

/// Checks a record file where there is no journal: every hash, link and signature, the digest, and that its tables are
/// what its entries come to. Fails if anything is wrong, after listing it.
[[nodiscard]] Done verifyRecord(const VerifyRecordOptions& options, std::ostream& out);

/// Lists the entries of a journal, oldest first.
[[nodiscard]] Done record(const std::string& journal, bool json, std::ostream& out);

struct KeepOptions
{
    std::string journal;
    std::string to;                ///< A file for an export (empty: the output), a folder of backups else.
    std::vector<std::string> from; ///< Files to take entries from.
    bool json = false;
};

/// Writes every entry of a journal as a line, behind one that says how many there are.
[[nodiscard]] Done exportJournal(const KeepOptions& options, std::ostream& out);

/// Makes a journal that is not there yet out of an export, if every line of it is as it was written.
[[nodiscard]] Done importJournal(const KeepOptions& options, std::ostream& out);

/// Makes a checked backup of a journal, which may be in use, and removes backups that are too many.
[[nodiscard]] Done backUpJournal(const KeepOptions& options, std::ostream& out);

/// Makes a journal anew from all that can be read in it and in backups. Refused while a program has it open.
[[nodiscard]] Done restoreJournal(const KeepOptions& options, std::ostream& out);

struct BundleOptions
{
    std::string bundle; ///< The file.
    std::string journal;
    std::string key;  ///< The device's key file, which signs a bundle.
    std::string site; ///< A site file; empty: the site is not told, and not asked for.
    bool json = false;
};

/// Writes every entry of a journal and its attachments as one signed file.
[[nodiscard]] Done exportBundle(const BundleOptions& options, std::ostream& out);

/// Takes what a bundle has and a journal has not into it, all of it or nothing; a second time there is nothing left to
/// take. A journal that is not there is made. What conflicts with an entry of the journal is kept beside it and told.
[[nodiscard]] Done importBundle(const BundleOptions& options, std::ostream& out);

/// Tells what is in a bundle, once all of it was checked.
[[nodiscard]] Done showBundle(const BundleOptions& options, std::ostream& out);

struct NotesOptions
{
    std::string journal;
    std::string to; ///< A folder for the attachments, as ordinary files; empty: they are only listed.
    std::string language = "en";
};

/// The record of each run in words: what was answered, noted and attached.
[[nodiscard]] Done notes(const NotesOptions& options, std::ostream& out);

struct HandoverOptions
{
    std::string journal;
    std::string key; ///< The tablet's key file; empty: device.key beside the journal.
    std::string
        hub; ///< The file that names the hub (schema/README.md, section 3a); empty: site.hub beside the journal.
    std::string enrol; ///< Address of a hub at which the tablet is to be enrolled first; empty: it is.
    std::string code;  ///< From that hub's terminal.
    std::string name;  ///< What the hub is to call the tablet; empty: by the beginning of its id.
    std::string language = "en";
    bool json = false;
};

/// Hands a journal over to its hub in one round, while the app is closed, and tells what is there, with the receipt,
/// and what is still only here. Unavailable, with the reason, unless everything is there; what was acknowledged until
/// then is not said again.
[[nodiscard]] Done handOver(const HandoverOptions& options, std::ostream& out);

struct AcrossOptions
{
    std::string journal;
    std::string site; ///< A site file; empty: what the journal knows is all.
    std::string tank; ///< By name; empty: all, and the carts.
    std::string language = "en";
    bool json = false;
};

/// The history of a tank over all its runs, what was learned of it with the number of runs behind it, and what is
/// planned next. NotFound, naming it, for a tank that is not there.
[[nodiscard]] Done tankHistory(const AcrossOptions& options, std::ostream& out);

/// The elements that are there, what was used, and how many are likely to be needed.
[[nodiscard]] Done stock(const AcrossOptions& options, std::ostream& out);

struct RunsOptions
{
    std::string data;   ///< The folder of the tablet's journal and key, with which the app is closed.
    std::string site;   ///< Its site file; empty: people are told by their ids.
    std::string person; ///< Who says it: a name of the site file, or an id.
    std::string run;    ///< Its six signs.
    std::string other;  ///< Those of another one.
    std::string valve;  ///< How it was read at the cart: filtering, bypassing or stopped.
    std::string to;     ///< The beginning of a tablet's id.
    std::string language = "en";
    bool isOne = false; ///< Else they are two.
    bool json = false;
};

/// The open runs and the last ones: whose they are, which are one or may be, what they come to.
[[nodiscard]] Done listRuns(const RunsOptions& options, std::ostream& out);

/// This tablet goes on with a run of another one, by its code. NotFound where its entries are not here, Conflict where
/// it is closed or this tablet's already; then nothing was written.
[[nodiscard]] Done takeRunOver(const RunsOptions& options, std::ostream& out);

/// Hands a run of this tablet to another one, which has to take it on.
[[nodiscard]] Done handRunOn(const RunsOptions& options, std::ostream& out);

/// Says whether two runs of one cart at one tank are one.
[[nodiscard]] Done linkRuns(const RunsOptions& options, std::ostream& out);

/// Gives a device a new key and keeps the old one beside it.
[[nodiscard]] Done newKey(const std::string& path, bool json, std::ostream& out);

/// Checks structure, every hash, link and signature of a journal and folds it. Fails if anything is wrong, after
/// listing it; what restores have told to be missing is listed too, and is no new fault.
[[nodiscard]] Done verify(const std::string& journal, bool json, std::ostream& out);

} // namespace loopside::cli
