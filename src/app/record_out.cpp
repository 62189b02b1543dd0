// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/record_out.h"

#include "ledger/read_all.h"
#include "paper/record_pdf.h"
#include "run/notes.h"
#include "store/attachment_folder.h"
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

RecordOut::Written writeRecord(const std::string& path, const Id& run, const report::Telling& telling,
                               paper::PaperSize size, const std::string& folder)
{
    const auto attachments = store::AttachmentFolder::besideJournal(path);
    const auto file = recordIn(path, run, telling);
    const auto pdf = file
        ? paper::recordPdf(*file, size, [&](const std::string& hash) { return attachments.read(hash); })
        : fail(file.error());
    if (!pdf) {
        return fail(pdf.error());
    }
    constexpr std::size_t digitsOfDigest = 8;
    const std::string name = folder + "/record-" + file->record.code + "-"
        + file->record.digest.substr(0, digitsOfDigest) + ".pdf";
    QDir().mkpath(QString::fromStdString(folder)); // where it cannot be made, writing says so
    return store::writeWhole(name,
                             [&](std::ostream& target) -> Done {
                                 target << *pdf;
                                 return {};
                             })
        .transform([&] { return name; });
}

/// Whether nothing was said of `run` since its record was attached.
bool isRecordAttached(const run::RunState& run)
{
    const auto* last = run.facts.empty() ? nullptr : std::get_if<run::AttachmentAdded>(&run.facts.back().effective);
    return last != nullptr && last->kind == run::AttachmentKind::Document && !run.facts.back().struck;
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

void RecordOut::begin(const Id& run, const std::string& folder)
{
    if (isBusy()) {
        return;
    }
    run_ = run;
    written_.reset();
    isOwn_ = folder.empty();
    handing_ = Handing::None;
    report::Telling telling{
        .language = tablet_.language(), .wanted = tablet_.wanted(), .names = site::namesOf(tablet_.site())};
    const auto promise = std::make_shared<std::promise<Written>>();
    running_ = promise->get_future();
    // A thread of Qt, which texts that are laid out want.
    QThreadPool::globalInstance()->start(
        [promise, run, telling = std::move(telling), path = path_, onto = folder.empty() ? folder_ : folder] {
            promise->set_value(writeRecord(path, run, telling, paperHere(), onto));
        });
    Q_EMIT changed();
}

void RecordOut::finish()
{
    if (isBusy() && running_.wait_for(std::chrono::seconds(0)) == std::future_status::ready) {
        written_ = running_.get();
        if (isOwn_ && *written_ && tablet_.hasHub()) {
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

} // namespace loopside::app
