// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/record_out.h"

#include "ledger/read_all.h"
#include "paper/labels_pdf.h"
#include "paper/record_pdf.h"
#include "run/notes.h"
#include "run/run_code.h"
#include "store/attachment_folder.h"
#include "store/restore_reason.h"
#include "store/sqlite_journal.h"
#include "store/whole_file.h"

#include <QDir>
#include <QFile>
#include <QLocale>
#include <QThreadPool>

#include <chrono>
#include <memory>
#include <utility>

namespace loopside::app {

namespace {

const QString labelsKey = QStringLiteral("labels ");

/// The size of paper that is common where the tablet is.
paper::PaperSize paperHere()
{
    return QLocale::system().measurementSystem() == QLocale::ImperialUSSystem ? paper::PaperSize::Letter
                                                                              : paper::PaperSize::A4;
}

Result<report::RecordFile> recordIn(const std::string& path, const Id& run, report::Telling telling)
{
    const auto journal = store::SqliteJournal::openToRead(path);
    if (!journal) {
        return fail(journal.error());
    }
    auto evidence = report::evidenceOf([&](const auto& take) { return ledger::readAll(**journal, take); }, run);
    return evidence ? report::recordFileOf(LOOPSIDE_VERSION, *std::move(evidence), std::move(telling))
                    : fail(evidence.error());
}

/// Whether nothing was said of `run` since its record was attached.
bool isRecordAttached(const run::RunState& run)
{
    const auto* last = run.facts.empty() ? nullptr : std::get_if<run::AttachmentAdded>(&run.facts.back().effective);
    return last != nullptr && last->kind == run::AttachmentKind::Document && !run.facts.back().struck;
}

/// What is to be known of a record that was written.
QString handingText(const Tablet& tablet, const RecordOut& records)
{
    constexpr std::int64_t bytesOfKb = 1000;
    switch (records.handing()) {
    case RecordOut::Handing::Goes:
        return QLatin1Char(' ') + tablet.label("app.closeout.record-goes");
    case RecordOut::Handing::TooLarge:
        return QLatin1Char(' ')
            + tablet.say({"app.closeout.record-large", {{"size", std::to_string(records.bytes() / bytesOfKb)}}});
    case RecordOut::Handing::None:
        break;
    }
    return {};
}

} // namespace

RecordOut::RecordOut(Tablet& tablet, std::string path, std::string folder)
    : tablet_{tablet}, path_{std::move(path)}, folder_{std::move(folder)}
{
    connect(&tablet, &Tablet::secondPassed, this, &RecordOut::finish);
}

RecordOut::~RecordOut()
{
    if (isBusy()) {
        running_.wait();
    }
}

Result<RecordOut::Made> RecordOut::makeRecord(const std::string& path, const Id& run, const report::Telling& telling)
{
    const auto attachments = store::AttachmentFolder::besideJournal(path);
    const auto file = recordIn(path, run, telling);
    auto pdf = file
        ? paper::recordPdf(*file, paperHere(), [&](const std::string& hash) { return attachments.read(hash); })
        : fail(file.error());
    if (!pdf) {
        return fail(pdf.error());
    }
    constexpr std::size_t digitsOfDigest = 8;
    return Made{"record-" + file->record.code + "-" + file->record.digest.substr(0, digitsOfDigest) + ".pdf",
                *std::move(pdf)};
}

RecordOut::Written RecordOut::write(const Result<Made>& made, const std::string& folder)
{
    if (!made) {
        return fail(made.error());
    }
    const std::string name = folder + "/" + made->name;
    QDir().mkpath(QString::fromStdString(folder)); // where it cannot be made, writing says so
    return store::writeWhole(name,
                             [&](std::ostream& target) -> Done {
                                 target << made->bytes;
                                 return {};
                             })
        .transform([&] { return name; });
}

void RecordOut::start(const Id& run, What what, const std::string& folder, std::function<Result<Made>()> make)
{
    if (isBusy()) {
        return;
    }
    run_ = run;
    what_ = what;
    written_.reset();
    isOwn_ = folder.empty();
    handing_ = Handing::None;
    const auto promise = std::make_shared<std::promise<Written>>();
    running_ = promise->get_future();
    // A thread of Qt, which texts that are laid out want.
    QThreadPool::globalInstance()->start([promise, make = std::move(make), onto = folder.empty() ? folder_ : folder] {
        promise->set_value(write(make(), onto));
    });
    Q_EMIT changed();
}

void RecordOut::begin(const Id& run, const std::string& folder)
{
    report::Telling telling{.language = tablet_.language(),
                            .wanted = tablet_.wanted(),
                            .names = site::namesOf(tablet_.site()),
                            .prices = tablet_.site().prices};
    start(run, What::Record, folder,
          [run, telling = std::move(telling), path = path_] { return makeRecord(path, run, telling); });
}

void RecordOut::beginLabels(const run::RunState& run, const std::string& folder)
{
    beginLabels(run.id, report::labelsOf(tablet_.words(), run, nameOf()), folder);
}

void RecordOut::beginLabels(const run::Job& job, const std::string& folder)
{
    beginLabels(job.id, report::labelsOf(tablet_.words(), job, nameOf()), folder);
}

void RecordOut::beginLabels(const Id& of, std::vector<report::Label> labels, const std::string& folder)
{
    start(of, What::Labels, folder,
          [name = "labels-" + run::codeOf(of) + ".pdf", labels = std::move(labels),
           language = tablet_.language()]() -> Result<Made> {
              const auto words = words::Words::in(language);
              return words ? Result<Made>(Made{name, paper::labelsPdf(*words, labels)}) : fail(words.error());
          });
}

report::NameOf RecordOut::nameOf() const
{
    return [this](const Id& person) { return tablet_.nameOf(person).toStdString(); };
}

void RecordOut::finish()
{
    if (isBusy() && running_.wait_for(std::chrono::seconds(0)) == std::future_status::ready) {
        written_ = running_.get();
        if (what_ == What::Record && isOwn_ && *written_ && tablet_.hasHub()) {
            handing_ = attach(**written_);
        }
        Q_EMIT changed();
    }
}

RecordOut::Handing RecordOut::attach(const std::string& path)
{
    QFile file(QString::fromStdString(path));
    const run::RunState* run = tablet_.state().runOf(run_);
    if (run == nullptr || !file.open(QIODevice::ReadOnly)) {
        return Handing::None;
    }
    if (isRecordAttached(*run)) {
        return Handing::Goes;
    }
    bytes_ = file.size();
    if (bytes_ > run::attachmentBytesMax) {
        return Handing::TooLarge;
    }
    const std::string content = file.readAll().toStdString();
    const auto hash = tablet_.keepAttachment(*run, content);
    const run::AttachmentAdded added{
        run::AttachmentKind::Document, {}, hash.value_or(std::string()), bytes_, "application/pdf"};
    return hash && tablet_.submit(run::Say{run_, added}) ? Handing::Goes : Handing::None;
}

bool hasLabels(const Tablet& tablet, const run::RunState& run)
{
    return !report::labelsOf(tablet.words(), run, [](const Id&) { return std::string(); }).empty();
}

QList<RowModel::Row> labelKeysFor(const Tablet& tablet, const QStringList& sticks)
{
    QList<RowModel::Row> keys = {{tablet.label("app.key.labels"), labelsKey}};
    for (const QString& root : sticks) {
        keys.append({tablet.say({"app.key.labels-on-stick", {{"stick", QDir(root).dirName().toStdString()}}}),
                     labelsKey + root});
    }
    return keys;
}

std::optional<std::string> labelsFolder(const QString& say)
{
    return say.startsWith(labelsKey) ? std::optional(say.mid(labelsKey.size()).toStdString()) : std::nullopt;
}

QString writtenText(const Tablet& tablet, const RecordOut& records, RecordOut::What what, const Id& run)
{
    if (records.what() != what || records.run() != run) {
        return {};
    }
    const std::string ids = what == RecordOut::What::Record ? "app.closeout.record-" : "app.kit.labels-";
    if (records.isBusy()) {
        return tablet.say({ids + "under-way", {}});
    }
    const auto& written = records.written();
    return !written ? QString()
        : *written  ? tablet.say({ids + "written", {{"file", **written}}}) + handingText(tablet, records)
                    : tablet.say({ids + "failed", {{"reason", store::keepFailure(tablet.words(), written->error())}}});
}

} // namespace loopside::app
