// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "cli/commands.h"

#include <CLI/CLI.hpp>

#include <functional>
#include <iostream>

namespace {

using loopside::Done;

constexpr int exitDone = 0;
constexpr int exitRefused = 1;
constexpr int exitUsage = 2;

/// The command line: fills in the options and remembers what to do with them.
class CommandLine
{
public:
    CommandLine()
    {
        app_.require_subcommand(1);
        app_.set_version_flag("--version", "loopside-cli " LOOPSIDE_VERSION, "print the version and exit");
        addReplay();
        addPlan();
        addViscosity();
        addFlush();
        addTransfer();
        addCleanUp();
        addCode();
        addForecast();
        addRecord();
        addLabels();
        addVerify();
        addNotes();
        addAcross("tank", "the history of tanks, and what was learned of them", loopside::cli::tankHistory)
            ->add_option("--tank", across_.tank, "only this one; none: all, and the carts");
        addAcross("stock", "elements there, used, and likely to be needed", loopside::cli::stock);
        addTakeRecords();
        addExport();
        addImport();
        addBackup();
        addRestore();
        addNewKey();
        addBundle();
        addHandover();
        addRuns();
    }

    int run(int argc, char** argv)
    {
        try {
            app_.parse(argc, argv);
        } catch (const CLI::ParseError& error) {
            return app_.exit(error) == 0 ? exitDone : exitUsage;
        }
        const Done done = action_();
        std::cout.flush();
        if (!done) {
            std::cerr << "loopside-cli: " << done.error().sentence << "\n";
            return exitRefused;
        }
        return exitDone;
    }

private:
    void addReplay()
    {
        CLI::App* verb = app_.add_subcommand("replay", "send a story down the road of touches and tell what is told");
        verb->add_option("STORY", replay_.story, "the story file")->required();
        verb->add_option("--journal", replay_.journal, "write the entries to this journal");
        verb->add_option("--language", replay_.language, "en, es or de");
        verb->add_flag("--json", replay_.json, "one JSON object a line");
        verb->add_flag("--check", replay_.check, "also hold the story against what it expects");
        verb->callback([this] { action_ = [this] { return loopside::cli::replay(replay_, std::cout); }; });
    }

    void addPlan()
    {
        CLI::App* verb = app_.add_subcommand("plan", "what a story's set-up comes to before the start");
        verb->add_option("STORY", path_, "the story file")->required();
        verb->add_flag("--json", json_, "one JSON object");
        verb->callback([this] { action_ = [this] { return loopside::cli::plan(path_, json_, std::cout); }; });
    }

    void addViscosity()
    {
        CLI::App* verb = app_.add_subcommand("viscosity",
                                             "viscosity of an oil at temperatures, or its viscosity index");
        verb->add_option("--grade", viscosity_.grade, "such as 'ISO VG 68'");
        verb->add_option("--vi", viscosity_.viscosityIndex, "viscosity index, such as 95");
        verb->add_option("--point", viscosity_.points,
                         "measured, such as '46 cSt at 40 C': once beside --vi, or twice");
        verb->add_option("--at40", viscosity_.at40, "measured at 40 °C; with --at100 the viscosity index is told");
        verb->add_option("--at100", viscosity_.at100, "measured at 100 °C");
        verb->add_option("--viscosity", viscosity_.viscosity, "fixed, such as '51 cSt'");
        verb->add_option("--density", viscosity_.density, "at 15 °C, such as '870 kg/m3'");
        verb->add_option("--kind", viscosity_.kind, "such as hydraulic, multigrade, water-glycol: for the cautions");
        verb->add_option("--at", viscosity_.at, "such as '0 C' or '72 F'; may be repeated");
        verb->add_flag("--json", viscosity_.json, "one JSON object a line");
        verb->callback([this] {
            const bool isIndex = !viscosity_.at40.empty() && !viscosity_.at100.empty();
            if (viscosity_.at.empty() && viscosity_.viscosity.empty() && !isIndex) {
                throw CLI::RequiredError("--at");
            }
            action_ = [this] { return loopside::cli::viscosity(viscosity_, std::cout); };
        });
    }

    void addCode()
    {
        CLI::App* verb = app_.add_subcommand("code", "cleanliness code of counts, or a code beside its target");
        CLI::Option_group* of = verb->add_option_group("of");
        of->add_option("--counts", code_.counts, "at 4, 6 and 14 µm, or at 5 and 15 µm by microscope")->delimiter(',');
        of->add_option("--is", code_.code, "a code, such as 17/15/12");
        of->add_option("--nas", code_.nas, "NAS 1638: per 100 mL in each of the five bands")->delimiter(',');
        of->add_option("--as4059", code_.as4059, "AS4059: per 100 mL at sizes A to F, - where not counted")
            ->delimiter(',');
        of->require_option(1);
        verb->add_option("--per", code_.per, "what the counts refer to: 1mL (taken if not given) or 100mL");
        verb->add_option("--counted", code_.counted, "volume that was counted, or the particles seen at each size")
            ->delimiter(',');
        verb->add_option("--target", code_.target, "a code to hold it against");
        verb->add_option("--before", code_.before, "an earlier code of the same oil");
        verb->add_flag("--json", code_.json, "one JSON object");
        verb->callback([this] { action_ = [this] { return loopside::cli::code(code_, std::cout); }; });
    }

    void addFlush()
    {
        CLI::App* verb = app_.add_subcommand("flush", "what flushing a cart leaves of its last fluid");
        verb->add_option("--left", flush_.left, "stays in the cart after draining, such as '1.5 L'")->required();
        verb->add_option("--batch", flush_.batch, "flushing oil of one batch, such as '10 L'")->required();
        verb->add_option("--batches", flush_.batches, "number of batches");
        verb->add_option("--wanted", flush_.wanted, "rest of the last fluid that may stay, such as '1 %'");
        verb->add_option("--tank", flush_.tank, "oil in the next tank");
        verb->add_option("--hold-up", flush_.holdUp, "what the cart holds");
        verb->add_option("--from", flush_.from, "the cart's last fluid, such as 'ISO VG 46 hydraulic'");
        verb->add_option("--to", flush_.to, "the tank's fluid");
        verb->add_flag("--json", flush_.json, "one JSON object");
        verb->callback([this] { action_ = [this] { return loopside::cli::flush(flush_, std::cout); }; });
    }

    void addTransfer()
    {
        CLI::App* verb = app_.add_subcommand("transfer", "pump spent oil to waste: when to stop, containers, label");
        verb->add_option("--oil", transfer_.oil, "oil to move, such as '160 L'")->required();
        verb->add_option("--container", transfer_.container, "what the container holds, such as '205 L'")->required();
        verb->add_option("--holds", transfer_.holds, "what is in it already");
        verb->add_option("--flow", transfer_.flow, "such as '19 L/min'")->required();
        verb->add_option("--tank", transfer_.tank, "source, for the label");
        verb->add_option("--fluid", transfer_.fluid, "for the label");
        verb->add_flag("--json", transfer_.json, "one JSON object");
        verb->callback([this] { action_ = [this] { return loopside::cli::transfer(transfer_, std::cout); }; });
    }

    void addCleanUp()
    {
        CLI::App* verb = app_.add_subcommand("cleanup", "turnovers from one cleanliness code to another");
        verb->add_option("--from", cleanUp_.from, "code at the start, such as 20/18/15")->required();
        verb->add_option("--to", cleanUp_.to, "target code")->required();
        verb->add_option("--volume", cleanUp_.volume, "oil in the tank, such as '400 L'")->required();
        verb->add_option("--flow", cleanUp_.flow, "such as '19 L/min'")->required();
        verb->add_option("--beta", cleanUp_.betas, "filtration ratio, once a stage; none: all is captured");
        verb->add_option("--mixing", cleanUp_.mixing, "mixing factor, above 0 to 1; none: 0.7");
        verb->add_option("--floor", cleanUp_.floor, "code that is not passed because of what gets in");
        verb->add_option("--after", cleanUp_.after, "turnovers for which a code is expected");
        verb->add_option("--count", cleanUp_.counts, "turnovers:code, once a count taken during the run");
        verb->add_flag("--json", cleanUp_.json, "one JSON object");
        verb->callback([this] { action_ = [this] { return loopside::cli::cleanUp(cleanUp_, std::cout); }; });
    }

    void addForecast()
    {
        CLI::App* verb = app_.add_subcommand("forecast",
                                             "when a series of readings reaches its limit, reading by reading");
        verb->add_option("--readings", forecast_.readings, "CSV file with the columns run,t_s,dp and perhaps flow")
            ->required();
        verb->add_option("--history", forecast_.history, "the same and limit,t_limit_s: what it may learn from");
        verb->add_option("--limit", forecast_.limit, "such as 600")->required();
        verb->add_option("--unit", forecast_.unit, "of limit, dp and graduation: Pa, kPa, bar, psi, …")->required();
        verb->add_option("--graduation", forecast_.graduation,
                         "of the gauge; none: the finest step of the readings, at most a fortieth of the limit");
        verb->add_option("--kin", forecast_.kin, "the history is of the same tank, type or kind; none: tank");
        verb->add_option("--every", forecast_.every, "forecast after each so many readings; none: 1");
        verb->add_flag("--last", forecast_.lastOnly, "forecast after the last reading of each run only");
        verb->add_flag("--ignore-flow", forecast_.ignoreFlow, "take the flow as steady");
        verb->add_option("--language", forecast_.language, "en, es or de");
        verb->add_flag("--json", forecast_.json, "one JSON object a line");
        verb->callback([this] { action_ = [this] { return loopside::cli::forecastSeries(forecast_, std::cout); }; });
    }

    void addRecord()
    {
        CLI::App* verb = app_.add_subcommand(
            "record",
            "the record of one run as a PDF or another file; without --out, the entries of a journal, oldest first");
        CLI::Option* run = verb->add_option(
            "RUN", record_.run, "with --out: the run, by its six signs or its id; else the journal to be listed");
        CLI::Option* to = verb->add_option("--out", record_.out, "the file to write; with --tank, the folder");
        const auto withFile = [&](const char* name, std::string& value, const char* what) {
            return verb->add_option(name, value, what)->needs(to);
        };
        to->needs(withFile("--journal", record_.journal, "the journal file that has the run"));
        CLI::Option* csv = verb->add_flag("--csv", record_.csv, "a table for spreadsheets (RFC 4180)")->needs(to);
        verb->add_flag("--json", record_.json,
                       "the file that verify --record checks; without --out, one JSON object a line")
            ->excludes(csv);
        CLI::Option* year = withFile("--year", record_.year, "with --tank: the year in which the runs were opened");
        year->needs(
            withFile("--tank", record_.tank, "instead of a run: each run at this tank")->needs(year)->excludes(run));
        withFile("--paper", record_.paper, "of the PDF: A4 or Letter");
        withFile("--site", record_.site, "a site file: people are told by their names");
        withFile("--language", record_.language, "en, es or de");
        CLI::Option* currency = withFile("--currency", record_.currency, "of the prices, such as EUR");
        withFile("--element-price", record_.elementPrice, "of one element")->needs(currency);
        withFile("--oil-price", record_.oilPrice, "of a litre of new oil, disposal of the old included")
            ->needs(currency);
        withFile("--hour-price", record_.hourPrice, "of an hour of the cart with who watches it")->needs(currency);
        verb->callback([this] {
            if (record_.run.empty() && record_.tank.empty()) {
                throw CLI::RequiredError("RUN");
            }
            action_ = [this] {
                return !record_.tank.empty() ? loopside::cli::recordsOfTank(record_, std::cout)
                    : record_.out.empty()    ? loopside::cli::record(record_.run, record_.json, std::cout)
                                             : loopside::cli::recordOfRun(record_, std::cout);
            };
        });
    }

    void addLabels()
    {
        CLI::App* verb = app_.add_subcommand("labels", "labels for bottles, used elements and used oil, as PDF or PNG");
        verb->add_option("RUN", labels_.run, "the run or job, by its six signs or its id")->required();
        verb->add_option("--journal", labels_.journal, "the journal file that has it")->required();
        verb->add_option("--out", labels_.out, "the PDF to write; ending in .png: a picture of each label, numbered")
            ->required();
        verb->add_option("--site", labels_.site, "a site file: people are told by their names");
        verb->add_option("--language", labels_.language, "en, es or de");
        verb->callback([this] { action_ = [this] { return loopside::cli::writeLabels(labels_, std::cout); }; });
    }

    void addVerify()
    {
        CLI::App* verb = app_.add_subcommand("verify",
                                             "check every hash, link and signature of a journal, or of a record");
        CLI::Option* journal = verb->add_option("JOURNAL", path_, "the journal file");
        CLI::Option* record =
            verb->add_option("--record", verified_.record, "a record in JSON; needs no journal")->excludes(journal);
        verb->add_option("--seal", verified_.seal, "what the QR code of the printed record says")->needs(record);
        verb->add_flag("--json", json_, "one JSON object");
        verb->callback([this] {
            if (path_.empty() && verified_.record.empty()) {
                throw CLI::RequiredError("JOURNAL or --record");
            }
            action_ = [this] {
                verified_.json = json_;
                return verified_.record.empty() ? loopside::cli::verify(path_, json_, std::cout)
                                                : loopside::cli::verifyRecord(verified_, std::cout);
            };
        });
    }

    void addNotes()
    {
        CLI::App* verb = app_.add_subcommand("notes", "what was answered, noted and attached, run by run");
        verb->add_option("JOURNAL", notes_.journal, "the journal file")->required();
        verb->add_option("--to", notes_.to, "a folder that is there: the attachments, as ordinary files");
        verb->add_option("--language", notes_.language, "en, es or de");
        verb->callback([this] { action_ = [this] { return loopside::cli::notes(notes_, std::cout); }; });
    }

    using Across = Done (*)(const loopside::cli::AcrossOptions&, std::ostream&);

    CLI::App* addAcross(const char* name, const char* what, Across act)
    {
        CLI::App* verb = app_.add_subcommand(name, what);
        verb->add_option("JOURNAL", across_.journal, "the journal file")->required();
        verb->add_option("--site", across_.site, "its site file, if it has one");
        verb->add_option("--language", across_.language, "en, es or de");
        verb->add_flag("--json", across_.json, "one JSON object a line");
        verb->callback([this, act] { action_ = [this, act] { return act(across_, std::cout); }; });
        return verb;
    }

    void addTakeRecords()
    {
        CLI::App* verb = app_.add_subcommand(
            "take-records",
            "tanks, fluids, elements, carts, jobs or a laboratory's results from a CSV file into a tablet's journal");
        verb->add_option("FILE", records_.file, "the first line names the columns")->required();
        verb->add_option("--kind", records_.kind, "what is in it: tanks, fluids, elements, carts, jobs or results")
            ->required();
        verb->add_option("--data", records_.data, "the tablet's folder, while the app is closed");
        verb->add_option("--site", records_.site, "its site file, if it has one");
        verb->add_option("--person", records_.person, "who signs: a name of the site file, or an id");
        verb->add_option("--language", records_.language, "en, es or de");
        verb->add_flag("--preview", records_.previewOnly, "tell what would change, and change nothing");
        verb->add_flag("--json", records_.json, "one JSON object");
        verb->callback([this] {
            if (!records_.previewOnly && records_.data.empty()) {
                throw CLI::RequiredError("--data (or --preview)");
            }
            if (!records_.previewOnly && records_.site.empty()) {
                throw CLI::RequiredError("--site (or --preview)"); // a tank of that file would be taken for a new one
            }
            if (!records_.previewOnly && records_.person.empty()) {
                throw CLI::RequiredError("--person (or --preview)");
            }
            action_ = [this] { return loopside::cli::takeRecords(records_, std::cout); };
        });
    }

    using Keep = Done (*)(const loopside::cli::KeepOptions&, std::ostream&);

    CLI::App* addKeep(const char* name, const char* what, Keep act)
    {
        CLI::App* verb = app_.add_subcommand(name, what);
        verb->add_flag("--json", keep_.json, "one JSON object");
        verb->callback([this, act] { action_ = [this, act] { return act(keep_, std::cout); }; });
        return verb;
    }

    void addExport()
    {
        CLI::App* verb = addKeep("export", "every entry of a journal as a line of JSON", loopside::cli::exportJournal);
        verb->add_option("JOURNAL", keep_.journal, "the journal file")->required();
        verb->add_option("--to", keep_.to, "the file to write; none: the output");
    }

    void addImport()
    {
        CLI::App* verb = addKeep("import", "make a journal from an export", loopside::cli::importJournal);
        verb->add_option("EXPORT", keep_.from, "the export")->required()->expected(1);
        verb->add_option("--journal", keep_.journal, "the journal to make; it must not be there")->required();
    }

    void addBackup()
    {
        CLI::App* verb = addKeep("backup", "a checked copy of a journal, which may be in use",
                                 loopside::cli::backUpJournal);
        verb->add_option("JOURNAL", keep_.journal, "the journal file")->required();
        verb->add_option("--to", keep_.to, "the folder of backups")->required();
    }

    void addRestore()
    {
        CLI::App* verb = addKeep("restore", "make a journal anew from all that can be read in it and in backups",
                                 loopside::cli::restoreJournal);
        verb->add_option("JOURNAL", keep_.journal, "the journal file; what is there is kept")->required();
        verb->add_option("--backups", keep_.to, "a folder of backups");
        verb->add_option("--from", keep_.from, "a journal or a backup; may be repeated");
    }

    void addNewKey()
    {
        CLI::App* verb = app_.add_subcommand("new-key", "give the device a new key; the old one is kept");
        verb->add_option("KEYFILE", path_, "the key file")->required();
        verb->add_flag("--json", json_, "one JSON object");
        verb->callback([this] { action_ = [this] { return loopside::cli::newKey(path_, json_, std::cout); }; });
    }

    using Bundle = Done (*)(const loopside::cli::BundleOptions&, std::ostream&);

    CLI::App* addBundlePart(CLI::App& bundle, const char* name, const char* what, Bundle act)
    {
        CLI::App* verb = bundle.add_subcommand(name, what);
        verb->add_flag("--json", bundle_.json, "one JSON object");
        verb->callback([this, act] { action_ = [this, act] { return act(bundle_, std::cout); }; });
        return verb;
    }

    void addBundle()
    {
        CLI::App* bundle = app_.add_subcommand(
            "bundle", "entries and attachments as one signed file, for a stick or a shared folder");
        bundle->require_subcommand(1);
        CLI::App* to = addBundlePart(*bundle, "export", "write all that a journal has into a bundle",
                                     loopside::cli::exportBundle);
        to->add_option("JOURNAL", bundle_.journal, "the journal file, which may be in use")->required();
        to->add_option("--to", bundle_.bundle, "the bundle to write")->required();
        to->add_option("--key", bundle_.key, "the tablet's key file, which signs it")->required();
        to->add_option("--site", bundle_.site, "its site file: the bundle says of which site it is");
        CLI::App* from = addBundlePart(*bundle, "import",
                                       "take in what a journal does not have, while the app is closed",
                                       loopside::cli::importBundle);
        from->add_option("BUNDLE", bundle_.bundle, "the bundle")->required();
        from->add_option("--journal", bundle_.journal, "the journal file; made if it is not there")->required();
        from->add_option("--site", bundle_.site, "a site file: a bundle of another site is refused");
        CLI::App* show = addBundlePart(*bundle, "show", "check a bundle and tell what is in it",
                                       loopside::cli::showBundle);
        show->add_option("BUNDLE", bundle_.bundle, "the bundle")->required();
    }

    void addHandover()
    {
        CLI::App* verb = app_.add_subcommand("handover", "hand a journal over to its hub, while the app is closed");
        verb->add_option("JOURNAL", handover_.journal, "the journal file")->required();
        verb->add_option("--key", handover_.key, "the tablet's key file; none: device.key beside the journal");
        verb->add_option("--hub", handover_.hub, "the file that names its hub; none: site.hub beside the journal");
        CLI::Option* enrol = verb->add_option(
            "--enrol", handover_.enrol, "address of a hub at which to enrol first, such as hub.plant.example:8443");
        CLI::Option* code = verb->add_option("--code", handover_.code, "the code that its terminal shows");
        enrol->needs(code);
        code->needs(enrol);
        verb->add_option("--name", handover_.name, "what the hub is to call the tablet")->needs(enrol);
        verb->add_option("--language", handover_.language, "en, es or de");
        verb->add_flag("--json", handover_.json, "one JSON object");
        verb->callback([this] { action_ = [this] { return loopside::cli::handOver(handover_, std::cout); }; });
    }

    using Runs = Done (*)(const loopside::cli::RunsOptions&, std::ostream&);

    CLI::App* addRunsPart(CLI::App& runs, const char* name, const char* what, Runs act)
    {
        CLI::App* verb = runs.add_subcommand(name, what);
        verb->add_option("--data", runs_.data, "the tablet's folder, while the app is closed")->required();
        verb->add_option("--site", runs_.site, "its site file, if it has one");
        verb->add_option("--language", runs_.language, "en, es or de");
        verb->add_flag("--json", runs_.json, "one JSON object a line");
        verb->callback([this, act] { action_ = [this, act] { return act(runs_, std::cout); }; });
        return verb;
    }

    /// One that says something of a run.
    CLI::App* addRunsSaying(CLI::App& runs, const char* name, const char* what, Runs act)
    {
        CLI::App* verb = addRunsPart(runs, name, what, act);
        verb->add_option("RUN", runs_.run, "the six signs of the run")->required();
        verb->add_option("--person", runs_.person, "who says it: a name of the site file, or an id")->required();
        return verb;
    }

    void addRuns()
    {
        CLI::App* runs = app_.add_subcommand("runs", "whose runs are: take one over, hand one on, say which are one");
        runs->require_subcommand(1);
        addRunsPart(*runs, "list", "the open runs and the last ones", loopside::cli::listRuns);
        addRunsSaying(*runs, "take-over", "go on with a run of another tablet, by its code", loopside::cli::takeRunOver)
            ->add_option("--valve", runs_.valve, "how it was read at the cart: filtering, bypassing or stopped")
            ->required();
        addRunsSaying(*runs, "hand-on", "hand a run to another tablet", loopside::cli::handRunOn)
            ->add_option("--to", runs_.to, "the first digits of that tablet's id")
            ->required();
        CLI::App* link = addRunsSaying(*runs, "link", "say whether two runs are one", loopside::cli::linkRuns);
        link->add_option("OTHER", runs_.other, "the six signs of the other run")->required();
        CLI::Option_group* say = link->add_option_group("say");
        say->add_flag("--one", runs_.isOne, "they are one: no time counts twice");
        say->add_flag("--two", areTwo_, "they are two");
        say->require_option(1);
    }

    CLI::App app_{"Loopside without a screen: what the technician is told, from story files and journals."};
    std::function<Done()> action_;
    loopside::cli::ReplayOptions replay_;
    loopside::cli::ViscosityOptions viscosity_;
    loopside::cli::FlushOptions flush_;
    loopside::cli::TransferOptions transfer_;
    loopside::cli::CleanUpOptions cleanUp_;
    loopside::cli::CodeOptions code_;
    loopside::cli::ForecastOptions forecast_;
    loopside::cli::KeepOptions keep_;
    loopside::cli::RunsOptions runs_;
    bool areTwo_ = false; ///< Said, for that one of two is said.
    loopside::cli::BundleOptions bundle_;
    loopside::cli::NotesOptions notes_;
    loopside::cli::RecordOptions record_;
    loopside::cli::LabelsOptions labels_;
    loopside::cli::RecordsOptions records_;
    loopside::cli::HandoverOptions handover_;
    loopside::cli::VerifyRecordOptions verified_;
    loopside::cli::AcrossOptions across_;
    std::string path_;
    bool json_ = false;
};

} // namespace

int main(int argc, char** argv)
{
    return CommandLine().run(argc, argv);
}
