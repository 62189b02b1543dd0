// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/notes_view.h"

#include "app/as_shown.h"
#include "app/draft_places.h"
#include "app/picture_bytes.h"
#include "app/spoken_note.h"
#include "app/wording.h"
#include "run/notes.h"
#include "words/record_told.h"

#include <QDir>
#include <QPainter>
#include <QStandardPaths>

#include <algorithm>
#include <array>

namespace loopside::app {

namespace {

/// As the journal has them, what is most urgent first.
constexpr std::array<const char*, 5> signNames = {"leak", "clicking", "whine", "foam", "haze"};
constexpr std::array<const char*, 3> reasonNames = {"person", "wrong", "unreadable"};
constexpr QSize drawingSize(1200, 640);
constexpr double penPx = 7.0;

const char* signOf(run::AttachmentKind kind)
{
    return kind == run::AttachmentKind::Sound ? "flow" : "note";
}

} // namespace

NotesView::NotesView(Tablet& tablet, QObject* parent)
    : QObject{parent},
      tablet_{tablet},
      rows_{{"text", "byText", "sign"}},
      signs_{{"name", "detail", "isChosen"}},
      files_{{"name", "detail", "isChosen"}},
      reasons_{{"text"}},
      begun_{tablet},
      ownWords_{tablet, withdrawDrafts},
      folder_{QStandardPaths::writableLocation(QStandardPaths::PicturesLocation)}
{
    QList<RowModel::Row> rows;
    for (const char* reason : reasonNames) {
        rows.append({tablet_.say({std::string("app.note.withdraw.") + reason, {}})});
    }
    reasons_.setRows(std::move(rows));
    showSigns();
    connect(&tablet_, &Tablet::changed, this, &NotesView::refresh);
    connect(&tablet_, &Tablet::secondPassed, this, &NotesView::onSecond);
    connect(&tablet_, &Tablet::shownChanged, this, &NotesView::close); // it is about the run that was shown
    connect(&camera_, &PhotoCamera::failed, this,
            [this] { tablet_.setTrouble(tablet_.label("app.note.camera-fails")); });
    connect(&camera_, &PhotoCamera::seen, this, [this] {
        if (mode_ == Mode::Look) {
            setPicture(camera_.image());
        }
    });
}

QString NotesView::title() const
{
    const run::RunState* run = tablet_.state().runOf(run_);
    return run == nullptr ? QString() : tablet_.say({"app.note.title", {{"tank", run->setup.tank.name}}});
}

QString NotesView::aboutText() const
{
    const run::RunState* run = tablet_.state().runOf(run_);
    const run::Fact* fact = run == nullptr ? nullptr : run->factOf(of_);
    return fact == nullptr ? tablet_.label("app.note.of-run")
                           : tablet_.say({"app.note.of-entry", {{"at", words::runTimeText(fact->seen)}}});
}

QString NotesView::noSoundText() const
{
    return Microphone::isThere() ? QString() : tablet_.label("app.note.no-microphone");
}

QString NotesView::noCameraText() const
{
    return PhotoCamera::isThere() ? QString() : tablet_.label("app.note.no-camera");
}

QString NotesView::notThereText() const
{
    return (noSoundText() + QLatin1Char(' ') + noCameraText()).trimmed();
}

void NotesView::open(const QString& of)
{
    const Id entry = idFromText(of.toStdString()).value_or(Id{});
    isOpen_ = tablet_.shown() != nullptr;
    run_ = isOpen_ ? tablet_.shown()->id : Id{};
    shown_ = entry;
    const bool isNote = shown() || shownNote();
    of_ = isNote ? Id{} : entry;
    seen_.clear();
    showSigns();
    begun_.open(subject());
    go(Mode::List);
    if (isNote) {
        showEntry(entry);
    } else if (!waiting_.isNull() && waitingFor_ == subject()) {
        go(Mode::Preview);
        setPicture(std::exchange(waiting_, {}));
    }
}

void NotesView::close()
{
    if (!isOpen_) {
        return;
    }
    if (mode_ == Mode::Preview && !picture_.isNull()) {
        waiting_ = picture_;
        waitingFor_ = subject();
    }
    speaking_.end();
    isOpen_ = false;
    go(Mode::List);
}

void NotesView::go(Mode mode)
{
    mode_ = mode;
    if (mode != Mode::Speak && speaking_.isListening()) {
        speaking_.forget(); // given up
    }
    if (mode == Mode::Look) {
        camera_.begin();
    } else {
        camera_.end();
    }
    if (mode == Mode::Draw) {
        redraw();
    } else if (mode != Mode::Preview && mode != Mode::Show && mode != Mode::Withdraw) {
        setPicture({});
    }
    if (mode == Mode::Withdraw) {
        ownWords_.about(toText(shown_));
    }
    if (mode == Mode::Pick) {
        refreshFiles();
    }
    refresh();
    Q_EMIT spokenChanged();
}

void NotesView::refresh()
{
    QList<RowModel::Row> rows;
    rowEntries_.clear();
    const run::RunState* run = isOpen_ ? tablet_.state().runOf(run_) : nullptr;
    if (run != nullptr) {
        const auto byText = [&](const Id& person, run::RunTime at) {
            return toQt(words::runTimeText(at)) + QStringLiteral("  ") + tablet_.nameOf(person);
        };
        const auto isWanted = [&](const Id& of) { return of_.isNone() || of == of_; };
        const auto notes = run::notesOf(*run);
        const auto attachments = run::attachmentsOf(*run);
        for (auto fact = run->facts.rbegin(); fact != run->facts.rend(); ++fact) {
            const auto note = std::ranges::find(notes, fact->header.id, &run::Note::entry);
            if (note != notes.end() && isWanted(note->of)) {
                rows.append({asShown(words::noteLine(tablet_.words(), *note, *run)), byText(note->person, note->at),
                             QStringLiteral("note")});
                rowEntries_.append(note->entry);
            }
            const auto attachment = std::ranges::find(attachments, fact->header.id, &run::Attachment::entry);
            if (attachment != attachments.end() && isWanted(attachment->added.of)) {
                const bool isWithdrawn = attachment->withdrawn.has_value();
                rows.append({asShown(words::attachmentLine(tablet_.words(), *attachment)),
                             byText(attachment->person, attachment->at),
                             QString::fromLatin1(isWithdrawn ? "no-go" : signOf(attachment->added.kind))});
                rowEntries_.append(attachment->entry);
            }
        }
    }
    rows_.setRows(std::move(rows));
    Q_EMIT changed();
}

void NotesView::showSigns()
{
    QList<RowModel::Row> rows;
    for (const std::string sign : signNames) {
        rows.append(
            {tablet_.say({"app.note.sign." + sign, {}}), QString(), seen_.contains(static_cast<int>(rows.size()))});
    }
    signs_.setRows(std::move(rows));
}

QString NotesView::signsText() const
{
    QStringList texts;
    for (std::size_t i = 0; i < signNames.size(); ++i) {
        if (seen_.contains(static_cast<int>(i))) {
            const std::string sign = signNames.at(i);
            texts.append(tablet_.say({"app.sign.told",
                                      {{"sign", tablet_.say({"app.note.sign." + sign, {}}).toStdString()},
                                       {"by", tablet_.say({"app.sign." + sign + ".known-by", {}}).toStdString()}}}));
        }
    }
    return texts.isEmpty() ? tablet_.label("app.sign.ask") : texts.join(QLatin1Char(' '));
}

void NotesView::toggleSign(int row)
{
    if (row >= 0 && row < static_cast<int>(signNames.size()) && !seen_.remove(row)) {
        seen_.insert(row);
    }
    showSigns();
    Q_EMIT changed();
}

void NotesView::logSigns()
{
    run::SignsSeen seen;
    for (std::size_t i = 0; i < signNames.size(); ++i) {
        if (seen_.contains(static_cast<int>(i))) {
            seen.signs.emplace_back(signNames.at(i));
        }
    }
    if (!seen.signs.empty() && tablet_.submit(run::Say{run_, std::move(seen)})) {
        close();
    }
}

void NotesView::write(const QString& text)
{
    const std::string note = text.trimmed().toStdString();
    if (!note.empty() && tablet_.submit(run::Say{run_, run::Noted{note, of_}})) {
        begun_.setText({});
        go(Mode::List);
    }
}

void NotesView::beginStroke(qreal x, qreal y)
{
    begun_.beginStroke({x, y});
    redraw();
}

void NotesView::moveStroke(qreal x, qreal y)
{
    begun_.moveStroke({x, y});
    redraw();
}

void NotesView::endStroke()
{
    begun_.endStroke();
}

void NotesView::undoStroke()
{
    begun_.undoStroke();
    redraw();
}

qreal NotesView::drawingShape()
{
    return static_cast<qreal>(drawingSize.height()) / drawingSize.width();
}

/// Black on white: it is read on paper too.
void NotesView::redraw()
{
    QImage drawing(drawingSize, QImage::Format_RGB32);
    drawing.fill(Qt::white);
    QPainter painter(&drawing);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(Qt::black, penPx, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    for (const NoteDraft::Stroke& stroke : begun_.strokes()) {
        QPolygonF line;
        for (const QPointF& place : stroke) {
            line.append({place.x() * drawing.width(), place.y() * drawing.height()});
        }
        if (line.size() == 1) {
            painter.drawPoint(line.first());
        } else {
            painter.drawPolyline(line);
        }
    }
    painter.end();
    setPicture(drawing);
}

void NotesView::setPicture(const QImage& picture)
{
    picture_ = picture;
    bytes_ = mode_ == Mode::Preview ? photoBytes(picture) : QByteArray();
    Q_EMIT pictureChanged();
}

bool NotesView::canKeep() const
{
    return mode_ == Mode::Draw   ? !begun_.strokes().isEmpty()
        : mode_ == Mode::Preview ? !bytes_.isEmpty()
                                 : mode_ == Mode::Look && !picture_.isNull();
}

QString NotesView::pictureText() const
{
    if (mode_ != Mode::Preview) {
        return {};
    }
    return bytes_.isEmpty() ? fault_
                            : tablet_.say({"app.note.size",
                                           {{"size", std::to_string((bytes_.size() + 999) / 1000)},
                                            {"most", std::to_string(run::attachmentBytesMax / 1000)}}});
}

void NotesView::beginSpeaking()
{
    if (!speaking_.begin(subject())) {
        tablet_.setTrouble(
            tablet_.label(Microphone::isThere() ? "app.note.microphone-fails" : "app.note.no-microphone"));
    }
    Q_EMIT spokenChanged();
}

void NotesView::keepSpoken()
{
    speaking_.end();
    const QByteArray wav = speaking_.heardAbout(subject());
    if (wav.isEmpty()) {
        tablet_.setTrouble(tablet_.label("app.note.nothing-heard"));
    } else if (attach(run::AttachmentKind::Sound, wav, "audio/wav", {})) {
        speaking_.forget();
        go(Mode::List);
    }
    Q_EMIT spokenChanged();
}

QString NotesView::spokenText() const
{
    if (!isListening()) {
        return isSpokenWaiting() ? tablet_.label("app.note.spoken-waits") : QString();
    }
    return tablet_.say(
        {"app.note.spoken",
         {{"seconds", std::to_string(speaking_.seconds())}, {"most", std::to_string(spokenSecondsMax)}}});
}

void NotesView::onSecond()
{
    if (speaking_.isFull()) {
        keepSpoken();
    } else if (speaking_.isListening()) {
        Q_EMIT spokenChanged();
    }
}

void NotesView::take()
{
    if (!picture_.isNull()) {
        const QImage taken = picture_;
        go(Mode::Preview);
        setPicture(taken);
    }
}

void NotesView::lookIn(const QString& folder)
{
    folder_ = folder;
    refreshFiles();
    Q_EMIT changed();
}

void NotesView::refreshFiles()
{
    QList<RowModel::Row> rows;
    paths_.clear();
    const QDir folder(folder_);
    for (const QFileInfo& inside : folder.entryInfoList(QDir::Dirs | QDir::NoDotAndDotDot, QDir::Name)) {
        rows.append({inside.fileName(), tablet_.label("app.note.folder"), false});
        paths_.append(inside.absoluteFilePath());
    }
    for (const QFileInfo& file : picturesIn(folder_)) {
        rows.append({file.fileName(), QStringLiteral("%1 kB").arg((file.size() + 999) / 1000), false});
        paths_.append(file.absoluteFilePath());
    }
    files_.setRows(std::move(rows));
}

void NotesView::chooseFile(int row)
{
    const QString path = paths_.value(row);
    if (QFileInfo(path).isDir()) {
        lookIn(path);
        return;
    }
    const PictureRead read = pictureIn(path);
    go(Mode::Preview);
    fault_ = read.fault == nullptr ? QString() : tablet_.label(read.fault);
    setPicture(read.picture);
}

void NotesView::upFolder()
{
    QDir folder(folder_);
    if (folder.cdUp()) {
        lookIn(folder.absolutePath());
    }
}

bool NotesView::attach(run::AttachmentKind kind, const QByteArray& content, const char* mediaType,
                       const QString& caption)
{
    const run::RunState* run = tablet_.state().runOf(run_);
    const auto hash = run == nullptr
        ? std::nullopt
        : tablet_.keepAttachment(*run, {content.constData(), static_cast<std::size_t>(content.size())});
    return hash
        && tablet_.submit(run::Say{
            run_, run::AttachmentAdded{kind, of_, *hash, content.size(), mediaType, caption.trimmed().toStdString()}});
}

void NotesView::keepPicture(const QString& caption)
{
    const bool isDrawing = mode_ == Mode::Draw;
    if (canKeep()
        && (isDrawing ? attach(run::AttachmentKind::Drawing, drawingBytes(picture_), "image/png", caption)
                      : attach(run::AttachmentKind::Photo, bytes_, "image/jpeg", caption))) {
        begun_.setCaption({});
        if (isDrawing) {
            begun_.forgetStrokes();
        }
        go(Mode::List);
    }
}

std::optional<run::Attachment> NotesView::shown() const
{
    const run::RunState* run = tablet_.state().runOf(run_);
    if (run == nullptr) {
        return std::nullopt;
    }
    for (run::Attachment& attachment : run::attachmentsOf(*run)) {
        if (attachment.entry == shown_) {
            return std::move(attachment);
        }
    }
    return std::nullopt;
}

std::optional<run::Note> NotesView::shownNote() const
{
    const run::RunState* run = tablet_.state().runOf(run_);
    const auto notes = run == nullptr ? std::vector<run::Note>() : run::notesOf(*run);
    const auto found = std::ranges::find(notes, shown_, &run::Note::entry);
    return found == notes.end() ? std::nullopt : std::optional(*found);
}

QString NotesView::shownText() const
{
    if (const auto note = shownNote()) {
        return asShown(words::noteLine(tablet_.words(), *note, *tablet_.state().runOf(run_)));
    }
    const auto attachment = shown();
    return attachment ? asShown(words::attachmentLine(tablet_.words(), *attachment)) : QString();
}

bool NotesView::shownCanPlay() const
{
    return !shownSound_.isEmpty() && Microphone::canPlay();
}

bool NotesView::shownCanBeWithdrawn() const
{
    const auto attachment = shown();
    return attachment && !attachment->withdrawn;
}

void NotesView::show(int row)
{
    showEntry(rowEntries_.value(row));
}

/// A note in full, a picture large, a sound to be heard; of what was withdrawn its line alone.
void NotesView::showEntry(const Id& entry)
{
    shown_ = entry;
    const auto attachment = shown();
    if (!attachment && !shownNote()) {
        return;
    }
    go(Mode::Show);
    shownSound_.clear();
    if (!attachment || attachment->withdrawn) {
        setPicture({});
        Q_EMIT changed();
        return;
    }
    const auto content = tablet_.attachment(attachment->added.hash);
    const QByteArray bytes = content ? QByteArray::fromStdString(*content) : QByteArray();
    if (!content) {
        tellUnread(*attachment, content.error());
    } else if (attachment->added.kind == run::AttachmentKind::Sound) {
        shownSound_ = bytes;
    }
    setPicture(shownSound_.isEmpty() ? QImage::fromData(bytes) : QImage());
    Q_EMIT changed();
}

/// Only what was read and is other than it was kept is called altered.
void NotesView::tellUnread(const run::Attachment& attachment, const Error& error)
{
    const std::string kind =
        tablet_.say({"attachment." + std::string(run::nameOf(attachment.added.kind)), {}}).toStdString();
    tablet_.setNotice(error.code == Errc::NotFound      ? tablet_.say({"attachment.missing", {{"kind", kind}}})
                          : error.code == Errc::Corrupt ? tablet_.say({"attachment.altered", {{"kind", kind}}})
                                                        : asShown(tablet_.words().say(error)));
}

void NotesView::play()
{
    speaking_.play(shownSound_);
}

void NotesView::withdraw(int reason)
{
    if (reason >= 0 && reason < reasons_.rowCount()) {
        withdrawFor(reasons_.rows()[reason][0].toString());
    }
}

/// The entry first, then the file: what the journal calls withdrawn may be gone, nothing else.
void NotesView::withdrawFor(const QString& why)
{
    const auto attachment = shown();
    if (!attachment || why.trimmed().isEmpty()) {
        return;
    }
    if (tablet_.submit(run::Say{run_, run::AttachmentWithdrawn{shown_, why.trimmed().toStdString()}})) {
        tablet_.forgetAttachment(attachment->added.hash);
        ownWords_.clear();
        go(Mode::List);
    }
}

} // namespace loopside::app
