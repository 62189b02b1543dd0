// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/tank_check.h"

#include "app/draft_places.h"
#include "app/job_words.h"
#include "app/picture_bytes.h"
#include "app/wording.h"
#include "ledger/tank_look.h"
#include "paper/tag_picture.h"
#include "words/look_told.h"

#include <QDateTime>
#include <QFileInfo>
#include <QStandardPaths>

#include <algorithm>
#include <array>
#include <ranges>

namespace loopside::app {

namespace {

/// Where the order may be wrong, and where plate or record may be.
constexpr std::array<const char*, 3> orderReasons = {"order-slip", "work-is-here", "told-to"};
constexpr std::array<const char*, 3> recordReasons = {"plate-old", "oil-changed", "told-to"};

std::vector<std::string> oilsOf(const Site& site)
{
    std::vector<std::string> oils;
    for (const run::TankRecord& tank : site.tanks) {
        const std::string oil = run::fluidText(tank.fluid);
        if (!oil.empty() && std::ranges::find(oils, oil) == oils.end()) {
            oils.push_back(oil);
        }
    }
    return oils;
}

} // namespace

TankCheck::TankCheck(Tablet& tablet, QObject* parent)
    : WrongTank{tablet, tankReasonDrafts, parent},
      tablet_{tablet},
      looks_{{"kind", "text"}},
      oils_{{"name", "detail", "isChosen"}},
      pictures_{{"name", "detail", "isChosen"}},
      folder_{QStandardPaths::writableLocation(QStandardPaths::PicturesLocation)}
{
    connect(&tablet_, &Tablet::siteChanged, this, [this](const Site& before) {
        tank_ = keptRow(tankNames(before), tank_, tankNames(tablet_.site()));
        refresh();
    });
    connect(&camera_, &PhotoCamera::seen, this, [this] {
        if (isCameraOn_ && !takePicture(camera_.image())) {
            Q_EMIT cameraChanged();
        }
    });
    connect(&camera_, &PhotoCamera::failed, this, [this] {
        stopCamera();
        tablet_.setTrouble(tablet_.label("app.note.camera-fails"));
    });
    refresh();
}

std::string TankCheck::name() const
{
    return tank_ < 0 ? std::string() : tablet_.site().tanks[static_cast<std::size_t>(tank_)].name;
}

std::vector<run::TankLook> TankCheck::all() const
{
    std::vector<run::TankLook> looks;
    std::ranges::transform(looked_, std::back_inserter(looks), &Looked::look);
    if (pending_) {
        looks.push_back(*pending_);
    }
    return looks;
}

run::TankKnown TankCheck::known() const
{
    return run::knownFrom(all(), name());
}

QString TankCheck::title() const
{
    return tank_ < 0 ? QString() : tablet_.say({"app.right-tank.title", {{"tank", name()}}});
}

QString TankCheck::knownText() const
{
    return tank_ < 0 ? QString() : toQt(words::knownText(tablet_.words(), known()));
}

QString TankCheck::knownSign() const
{
    switch (known()) {
    case run::TankKnown::Twice:
        return QStringLiteral("done");
    case run::TankKnown::AgainstIt:
        return QStringLiteral("caution");
    default:
        return QStringLiteral("note");
    }
}

QString TankCheck::mismatchTitle() const
{
    return pending_ ? tablet_.say({"app.right-tank.not-this", {{"tank", pending_->expected}}}) : QString();
}

QString TankCheck::mismatchText() const
{
    return pending_ ? toQt(words::lookLine(tablet_.words(), *pending_)) + QLatin1Char(' ')
            + tablet_.label("app.right-tank.do-not-pump")
                    : QString();
}

QString TankCheck::rightText() const
{
    return pending_ ? tablet_.say({"app.right-tank.go-to", {{"tank", pending_->expected}}}) : QString();
}

QString TankCheck::wrongText() const
{
    if (!pending_) {
        return {};
    }
    return pendingOf_ ? tablet_.say({"app.right-tank.order-wrong", {{"tank", pending_->of}}})
                      : tablet_.say({"app.right-tank.record-wrong", {{"tank", pending_->expected}}});
}

void TankCheck::refresh()
{
    QList<RowModel::Row> rows;
    for (const run::TankLook& look : std::views::reverse(all())) {
        rows.append({look.fits ? QStringLiteral("done") : QStringLiteral("caution"),
                     toQt(words::lookLine(tablet_.words(), look))});
    }
    looks_.setRows(std::exchange(rows, {}));
    for (const std::string& oil : oilsOf(tablet_.site())) {
        const bool isChosen = std::ranges::any_of(all(), [&](const run::TankLook& look) {
            return look.by == run::LookBy::Oil && look.read == oil && look.expected == name();
        });
        rows.append({oilAsShown(tablet_, oil), QString(), isChosen});
    }
    oils_.setRows(std::exchange(rows, {}));
    for (const char* reason : pendingOf_ ? orderReasons : recordReasons) {
        rows.append({tablet_.say({std::string("app.right-tank.why.") + reason, {}})});
    }
    reasons_.setRows(std::move(rows));
    Q_EMIT changed();
}

void TankCheck::about(int tank)
{
    tank_ = tank;
    if (pending_) { // another tank is chosen over it: that it did not fit stays
        keep(*std::exchange(pending_, std::nullopt));
    }
    pendingOf_.reset();
    refresh();
}

void TankCheck::begin()
{
    isChoosingPicture_ = false;
    pictureText_.clear();
    order_.clear();
    pending_.reset();
    looked_.clear();
    reasonWords_.clear();
    about(-1);
}

void TankCheck::keep(run::TankLook look)
{
    looked_.push_back({std::move(look), tablet_.personId(), tablet_.now()});
}

/// A mismatch that nobody answered is kept as it was read: what is read next may be the right tank's.
void TankCheck::take(run::TankLook look, std::optional<std::size_t> of)
{
    if (pending_) {
        keep(*std::exchange(pending_, std::nullopt));
    }
    pendingOf_.reset();
    if (look.fits) {
        keep(std::move(look));
    } else {
        pending_ = std::move(look);
        pendingOf_ = of;
    }
    refresh();
}

void TankCheck::takeTag(const QString& code, run::LookBy by)
{
    const std::string read = code.trimmed().toStdString();
    if (tank_ < 0 || read.empty()) {
        return;
    }
    const Tagged tagged = taggedIn(tablet_.site(), read);
    run::TankLook look{.by = by, .read = read, .expected = name()};
    look.fits = tagged.tank && static_cast<int>(*tagged.tank) == tank_;
    const bool isOther = tagged.tank && !look.fits;
    if (isOther) {
        look.of = tablet_.site().tanks[*tagged.tank].name;
    }
    if (by != run::LookBy::Typed && !tagged.tank) {
        tablet_.setTrouble(tablet_.say({tagged.cart ? "app.tag.of-cart" : "app.tag.unknown", {{"tag", read}}}));
        return;
    }
    take(std::move(look), isOther ? tagged.tank : std::nullopt);
}

void TankCheck::takeTyped(const QString& text)
{
    takeTag(text, run::LookBy::Typed);
}

bool TankCheck::takePicture(const QImage& picture)
{
    const auto tag = paper::tagIn(picture);
    if (tag) {
        stopCamera();
        takeTag(toQt(*tag), run::LookBy::Camera);
    }
    return tag.has_value();
}

QString TankCheck::askText() const
{
    return tablet_.label("app.right-tank.ask-why");
}

void TankCheck::lookIn(const QString& folder)
{
    folder_ = folder;
}

void TankCheck::choosePicture()
{
    isChoosingPicture_ = !isChoosingPicture_;
    pictureText_.clear();
    QList<RowModel::Row> rows;
    paths_.clear();
    for (const QFileInfo& file : picturesIn(folder_)) {
        rows.append({file.fileName(), file.lastModified().toString(QStringLiteral("yyyy-MM-dd HH:mm")), false});
        paths_.append(file.absoluteFilePath());
    }
    if (isChoosingPicture_ && rows.isEmpty()) {
        pictureText_ = tablet_.say({"app.right-tank.no-pictures", {{"folder", folder_.toStdString()}}});
    }
    pictures_.setRows(std::move(rows));
    Q_EMIT changed();
}

void TankCheck::takePictureFile(int row)
{
    if (row < 0 || row >= paths_.size()) {
        return;
    }
    const PictureRead read = pictureIn(paths_[row]);
    if (read.fault != nullptr) {
        pictureText_ = tablet_.label(read.fault);
    } else if (!takePicture(read.picture)) {
        pictureText_ = tablet_.say(
            {"app.right-tank.no-tag", {{"file", QFileInfo(paths_[row]).fileName().toStdString()}}});
    } else {
        isChoosingPicture_ = false;
        pictureText_.clear();
    }
    Q_EMIT changed();
}

void TankCheck::lookByCamera()
{
    isCameraOn_ = hasCamera();
    if (isCameraOn_) {
        camera_.begin();
    }
    Q_EMIT cameraChanged();
}

void TankCheck::stopCamera()
{
    isCameraOn_ = false;
    camera_.end();
    Q_EMIT cameraChanged();
}

void TankCheck::takePosition(const std::string& tank)
{
    if (tank_ >= 0 && tank == name()) {
        take({.by = run::LookBy::Position, .read = tank, .expected = name(), .fits = true}, {});
    }
}

void TankCheck::takeOil(int row)
{
    const auto oils = oilsOf(tablet_.site());
    if (tank_ < 0 || row < 0 || row >= static_cast<int>(oils.size())) {
        return;
    }
    const std::string& read = oils[static_cast<std::size_t>(row)];
    const auto& tank = tablet_.site().tanks[static_cast<std::size_t>(tank_)];
    take({.by = run::LookBy::Oil, .read = read, .expected = name(), .fits = read == run::fluidText(tank.fluid)}, {});
}

void TankCheck::goToRight()
{
    if (pending_) {
        keep(*std::exchange(pending_, std::nullopt));
        pendingOf_.reset();
        refresh();
    }
}

void TankCheck::askWhy()
{
    reasonWords_.about(pending_ ? pending_->expected + " / " + pending_->read : std::string());
}

void TankCheck::goOnBecause(const QString& why)
{
    if (!pending_ || why.trimmed().isEmpty()) {
        return;
    }
    pending_->why = why.trimmed().toStdString();
    if (pendingOf_ && !order_.empty()) {
        pending_->why = tablet_.words().say({"app.right-tank.order", {{"why", pending_->why}, {"order", order_}}});
    }
    keep(*std::exchange(pending_, std::nullopt));
    reasonWords_.clear();
    if (const auto of = std::exchange(pendingOf_, std::nullopt)) {
        Q_EMIT isOther(static_cast<int>(*of)); // who listens chooses it
    }
    refresh();
}

/// A tag that was read for another tank fits nothing here, but that it did not fit is told.
bool TankCheck::concernsTank(const run::TankLook& look) const
{
    return !look.fits || look.expected == name();
}

bool TankCheck::say()
{
    return std::ranges::all_of(looked_, [&](const Looked& looked) {
        const auto agoMs = static_cast<std::int64_t>((tablet_.now().monoNs - looked.at.monoNs) / 1'000'000U);
        return !concernsTank(looked.look)
            || tablet_.sayAs(looked.person, ledger::asKept(looked.look), {agoMs, agoMs > 0 ? "touched" : ""});
    });
}

} // namespace loopside::app
