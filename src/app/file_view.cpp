// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/file_view.h"

#include "app/as_shown.h"
#include "app/mounted_media.h"
#include "app/wording.h"
#include "site/columns.h"
#include "site/results_file.h"
#include "site/value_table.h"

#include <QDateTime>
#include <QDir>
#include <QFile>
#include <QFileInfo>

#include <algorithm>
#include <array>

namespace loopside::app {

namespace {

constexpr qsizetype longestValue = 40; ///< Of a field, as it is shown.

/// What has to be looked at first.
constexpr std::array<site::RowFate, 4> orderShown = {site::RowFate::Unreadable, site::RowFate::Changed,
                                                     site::RowFate::New, site::RowFate::Same};

QString signOf(site::RowFate fate)
{
    constexpr std::array<const char*, 4> signs = {"now", "caution", "done", "no-go"};
    return QString::fromLatin1(signs.at(static_cast<std::size_t>(fate)));
}

/// The bytes of a file, one more than a table may have at most: what is longer shows as such.
Result<std::string> contentOf(const QString& path)
{
    QFile file(path);
    if (!file.open(QIODevice::ReadOnly)) {
        return fail(Errc::Io, file.errorString().toStdString(),
                    {"app.file.cannot-open", {{"why", file.errorString().toStdString()}}});
    }
    const QByteArray text = file.read(static_cast<qint64>(site::tableBytesMax) + 1);
    if (file.error() != QFileDevice::NoError) { // half a file would look like a whole one
        return fail(Errc::Io, file.errorString().toStdString(),
                    {"app.file.cannot-open", {{"why", file.errorString().toStdString()}}});
    }
    return text.toStdString();
}

} // namespace

FileView::FileView(Tablet& tablet, QObject* parent)
    : QObject{parent},
      tablet_{tablet},
      kinds_{{"name", "detail", "isChosen"}},
      files_{{"name", "detail", "isChosen"}},
      rows_{{"sign", "title", "text"}},
      media_{mountedMedia}
{
    connect(&tablet_, &Tablet::siteChanged, this, &FileView::preview);
    look();
}

void FileView::open()
{
    look();
    preview();
}

void FileView::lookAt(std::function<QStringList()> media)
{
    media_ = std::move(media);
    open();
}

void FileView::look()
{
    found_.clear();
    if (!tablet_.importFolder().empty()) {
        lookIn(toQt(tablet_.importFolder()), {});
    }
    for (const QString& root : media_()) {
        lookIn(root, QDir(root).dirName());
        lookIn(QDir(root).filePath(QStringLiteral("import")), QDir(root).dirName());
    }
    if (std::ranges::find(found_, file_, &Found::path) == found_.end()) {
        file_.clear();
    }
    refresh();
}

/// `stick` is its name; empty: the folder is the tablet's own.
void FileView::lookIn(const QString& folder, const QString& stick)
{
    const auto filter = stick.isEmpty() ? QDir::Files : QDir::Files | QDir::NoSymLinks; // a link may lead off the stick
    const QStringList endings = {QStringLiteral("*.csv"), QStringLiteral("*.tsv"), QStringLiteral("*.txt")};
    for (const QFileInfo& file : QDir(folder).entryInfoList(endings, filter, QDir::Name)) {
        const QString age = file.lastModified().toString(QStringLiteral("yyyy-MM-dd HH:mm"));
        found_.push_back({file.filePath(), file.fileName(),
                          stick.isEmpty() ? age
                                          : tablet_.say({"app.file.on-stick", {{"stick", stick.toStdString()}}})
                                  + QStringLiteral(" · ") + age});
    }
}

void FileView::refresh()
{
    QList<RowModel::Row> rows;
    for (const std::string_view kind : site::fileKinds) {
        rows.append({tablet_.say({"app.file.kind." + std::string(kind), {}}), QString(), rows.size() == kind_});
    }
    rows.append({tablet_.label("app.file.kind.results"), QString(), rows.size() == kind_});
    kinds_.setRows(std::exchange(rows, {}));
    for (const Found& file : found_) {
        rows.append({file.name, file.detail, file.path == file_});
    }
    files_.setRows(std::exchange(rows, {}));
    for (const site::RowFate fate : orderShown) {
        for (std::size_t i = 0; preview_ && i < preview_->rows.size(); ++i) {
            if (preview_->rows[i].fate == fate) {
                rows.append(rowOf(preview_->rows[i]));
            }
        }
    }
    rows_.setRows(std::move(rows));
    Q_EMIT changed();
}

void FileView::preview()
{
    preview_.reset();
    trouble_.clear();
    if (kind_ >= 0 && !file_.isEmpty()) {
        auto text = contentOf(file_);
        auto read = text ? previewOf(QFileInfo(file_).fileName().toStdString(), *std::move(text)) : fail(text.error());
        if (read) {
            preview_ = *std::move(read);
        } else {
            trouble_ = asShown(tablet_.words().say(read.error()));
        }
    }
    refresh();
}

Result<site::Preview> FileView::previewOf(const std::string& file, std::string text) const
{
    const auto kind = static_cast<std::size_t>(kind_);
    return kind < site::fileKinds.size()
        ? site::previewOf(file, std::move(text), *site::recordKindOf(site::fileKinds.at(kind)), tablet_.site(),
                          tablet_.state().stock)
        : site::resultsPreviewOf(file, std::move(text), tablet_.state());
}

QString FileView::textOf(const site::RowFault& fault) const
{
    const QString place = fault.column.empty()
        ? QString()
        : tablet_.say({"file.column", {{"column", fault.column}}}) + QStringLiteral(": ");
    QString value = toQt(fault.value);
    if (value.size() > longestValue) {
        value = value.left(longestValue) + QStringLiteral("…");
    }
    const QString quoted = value.isEmpty()
        ? QString()
        : tablet_.say({"app.file.quoted", {{"text", value.toStdString()}}}) + QLatin1Char(' ');
    return place + quoted + tablet_.say(fault.what) + QStringLiteral(". ") + tablet_.say(fault.todo);
}

RowModel::Row FileView::rowOf(const site::PreviewRow& row) const
{
    QStringList title = {tablet_.say({"file.row", {{"line", std::to_string(row.line)}}}),
                         tablet_.say({"file.fate." + std::string(site::nameOf(row.fate)), {}}),
                         toQt(row.name).left(longestValue)};
    title.removeAll(QString());
    QStringList lines;
    for (const site::RowFault& fault : row.faults) {
        lines.append(textOf(fault));
    }
    for (const Message& odd : row.odd) {
        lines.append(tablet_.say(odd));
    }
    QStringList changes;
    for (const site::Change& change : row.changes) {
        changes.append(asHead(asShown(row.fate == site::RowFate::New ? site::valueText(tablet_.words(), change)
                                                                     : site::changeText(tablet_.words(), change))));
    }
    if (!changes.isEmpty()) {
        lines.append(changes.join(QStringLiteral("; ")));
    }
    return {signOf(row.fate), title.join(QStringLiteral(" · ")), lines.join(QLatin1Char('\n'))};
}

QString FileView::folderText() const
{
    if (tablet_.importFolder().empty()) {
        return tablet_.label("app.file.no-folder");
    }
    return tablet_.say({found_.empty() ? "app.file.none" : "app.file.where", {{"folder", tablet_.importFolder()}}});
}

QString FileView::summary() const
{
    if (!preview_) {
        return {};
    }
    const auto number = [this](site::RowFate fate) { return std::to_string(preview_->count(fate)); };
    QStringList parts = {tablet_.say({"file.summary",
                                      {{"new", number(site::RowFate::New)},
                                       {"changed", number(site::RowFate::Changed)},
                                       {"same", number(site::RowFate::Same)},
                                       {"unreadable", number(site::RowFate::Unreadable)}}})};
    QStringList columns;
    for (const std::string& column : preview_->passedOver) {
        columns.append(toQt(column));
    }
    if (!columns.isEmpty()) {
        parts.append(
            tablet_.say({"file.passed-over", {{"columns", columns.join(QStringLiteral(", ")).toStdString()}}}));
    }
    if (preview_->count(site::RowFate::Unreadable) > 0) {
        parts.append(tablet_.label("file.good-only"));
    }
    return parts.join(QLatin1Char('\n'));
}

QString FileView::mainText() const
{
    return tablet_.say({"app.file.take", {{"records", std::to_string(preview_ ? preview_->takes() : 0)}}});
}

QString FileView::problem() const
{
    if (file_.isEmpty()) {
        return found_.empty() ? folderText() : tablet_.label("app.file.choose");
    }
    if (kind_ < 0) {
        return tablet_.label("app.file.choose-kind");
    }
    if (!trouble_.isEmpty()) {
        return trouble_;
    }
    return preview_ && preview_->takes() > 0 ? QString() : tablet_.label("file.nothing-new");
}

void FileView::chooseKind(int row)
{
    if (row >= 0 && row < kinds_.rowCount()) {
        kind_ = row;
        notice_.clear();
        preview();
    }
}

void FileView::chooseFile(int row)
{
    if (row >= 0 && row < static_cast<int>(found_.size())) {
        file_ = found_[static_cast<std::size_t>(row)].path;
        notice_.clear();
        preview();
    }
}

/// The file is read again first: what is taken is what it says now, and it has to be what was shown.
void FileView::take()
{
    if (!problem().isEmpty()) {
        return;
    }
    const QList<RowModel::Row> shown = rows_.rows();
    preview();
    if (rows_.rows() != shown) {
        notice_ = tablet_.label("app.file.changed-meanwhile");
        Q_EMIT changed();
        return;
    }
    const std::vector<run::Command> commands = preview_->commands(); // what is known, and so the preview, changes by it
    const int atOnce = preview_->recordKind.empty() ? 1 : preview_->takes();
    int taken = 0;
    for (const run::Command& command : commands) { // results are one each: those that were taken stay
        if (!tablet_.submit(command)) {
            break;
        }
        taken += atOnce;
    }
    if (taken > 0) {
        notice_ = tablet_.say(
            {"file.taken", {{"records", std::to_string(taken)}, {"person", tablet_.person().toStdString()}}});
        preview();
    }
}

} // namespace loopside::app
