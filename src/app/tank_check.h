// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/photo_camera.h"
#include "app/wrong_tank.h"
#include "run/right_tank.h"

#include <QStringList>

#include <optional>
#include <vector>

namespace loopside::app {

/// Is this the right tank? Looks at it, each held against the tank that was chosen, before there is a run to write them
/// to: they are read anew each time and no draft outlives the program.
///
/// A look that does not fit takes the whole screen until somebody says what is so. There are two ways on and no third:
/// to the right tank, or with a reason that is kept and marked for the supervisor.
class TankCheck final : public WrongTank
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")

    Q_PROPERTY(QString title READ title NOTIFY changed)
    /// How well it is known, in a sentence, with its shape.
    Q_PROPERTY(QString knownText READ knownText NOTIFY changed)
    Q_PROPERTY(QString knownSign READ knownSign NOTIFY changed)
    /// What was looked at, the latest first. Rows: kind (a shape of `Sign`), text.
    Q_PROPERTY(loopside::app::RowModel* looks READ looks CONSTANT)
    /// The oils that a plate may name. Rows: name, detail (empty), isChosen.
    Q_PROPERTY(loopside::app::RowModel* oils READ oils CONSTANT)

    /// This tablet has a camera; it looks for a tag; what it sees.
    Q_PROPERTY(bool hasCamera READ hasCamera NOTIFY changed)
    Q_PROPERTY(bool isCameraOn READ isCameraOn NOTIFY cameraChanged)
    Q_PROPERTY(QImage seen READ seen NOTIFY cameraChanged)
    /// Pictures among which one may show the tag, the youngest first. Rows: name, detail (how old), isChosen (never).
    Q_PROPERTY(loopside::app::RowModel* pictures READ pictures CONSTANT)
    /// They are shown, and what became of the last one.
    Q_PROPERTY(bool isChoosingPicture READ isChoosingPicture NOTIFY changed)
    Q_PROPERTY(QString pictureText READ pictureText NOTIFY changed)

public:
    explicit TankCheck(Tablet& tablet, QObject* parent = nullptr);

    [[nodiscard]] QString title() const;
    [[nodiscard]] QString knownText() const;
    [[nodiscard]] QString knownSign() const;
    [[nodiscard]] RowModel* looks() { return &looks_; }
    [[nodiscard]] RowModel* oils() { return &oils_; }
    [[nodiscard]] bool hasCamera() const { return PhotoCamera::isThere(); }
    [[nodiscard]] bool isCameraOn() const { return isCameraOn_; }
    [[nodiscard]] QImage seen() const { return camera_.image(); }
    [[nodiscard]] bool isMismatch() const override { return pending_.has_value(); }
    [[nodiscard]] QString mismatchTitle() const override;
    [[nodiscard]] QString mismatchText() const override;
    [[nodiscard]] QString rightText() const override;
    [[nodiscard]] QString wrongText() const override;
    [[nodiscard]] QString askText() const override;
    [[nodiscard]] RowModel* pictures() { return &pictures_; }
    [[nodiscard]] bool isChoosingPicture() const { return isChoosingPicture_; }
    [[nodiscard]] QString pictureText() const { return pictureText_; }

    [[nodiscard]] run::TankKnown known() const;

    /// The tank of that row is chosen; below 0: none is. What was looked at stays, held against what it was.
    void about(int tank);
    /// The planned job that names the tank; empty: none.
    void forOrder(const std::string& order) { order_ = order; }
    /// Nothing was looked at.
    void begin();
    /// A tag was read. One that nobody knows is told and is no look: it may stand on anything.
    void takeTag(const QString& code, run::LookBy by);
    /// A position that tells one tank from every other, by its name.
    void takePosition(const std::string& tank);
    /// A picture, as from the camera. True if a tag is in it; then it is taken.
    bool takePicture(const QImage& picture);
    /// Writes what concerns the chosen tank to the shown run, in the name of who looked, at the time of the look. False
    /// if it could not be written.
    bool say();

    /// What plate or tag reads, typed. It fits or it does not: somebody read it.
    Q_INVOKABLE void takeTyped(const QString& text);
    /// Looks through the camera until it sees a tag, or until somebody stops it.
    Q_INVOKABLE void lookByCamera();
    Q_INVOKABLE void stopCamera();
    /// Where pictures are looked for: without it the folder of this system for them.
    void lookIn(const QString& folder);
    /// Shows the pictures, or hides them.
    Q_INVOKABLE void choosePicture();
    /// Reads the tag off one of them: it is told if there is none.
    Q_INVOKABLE void takePictureFile(int row);
    /// The oil that the plate names.
    Q_INVOKABLE void takeOil(int row);
    /// The first way: to the right tank, to look again there.
    Q_INVOKABLE void goToRight() override;
    /// The second way: order, plate or record is wrong, for this reason.
    Q_INVOKABLE void goOnBecause(const QString& why) override;
    Q_INVOKABLE void askWhy() override;

Q_SIGNALS:
    void cameraChanged();
    /// The order is wrong: the tank of that row is meant.
    void isOther(int tank);

private:
    struct Looked
    {
        run::TankLook look;
        Id person;
        Stamp at;
    };

    void take(run::TankLook look, std::optional<std::size_t> of);
    void keep(run::TankLook look);
    void refresh();
    [[nodiscard]] std::string name() const;
    [[nodiscard]] std::vector<run::TankLook> all() const;
    [[nodiscard]] bool concernsTank(const run::TankLook& look) const;

    Tablet& tablet_;
    RowModel looks_;
    RowModel oils_;
    RowModel pictures_;
    QString folder_;
    QStringList paths_;
    QString pictureText_;
    bool isChoosingPicture_ = false;
    PhotoCamera camera_;
    bool isCameraOn_ = false;
    int tank_ = -1;
    std::string order_;
    std::vector<Looked> looked_ = {};
    std::optional<run::TankLook> pending_ = {};
    std::optional<std::size_t> pendingOf_ = {}; ///< Whose tag it is.
};

} // namespace loopside::app
