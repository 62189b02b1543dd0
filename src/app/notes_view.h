// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/note_draft.h"
#include "app/own_words.h"
#include "app/photo_camera.h"
#include "app/row_model.h"
#include "app/speaking.h"
#include "app/tablet.h"
#include "run/notes.h"

#include <QImage>
#include <QObject>
#include <QPointF>
#include <QSet>
#include <QtQml/qqmlregistration.h>

namespace loopside::app {

/// Notes and pictures of the run on the screen, or of one entry of it: typed, drawn, spoken, from the camera, from a
/// file; and what was seen or heard. Everything that is kept is an entry; a picture is withdrawn with a reason.
class NotesView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")

    Q_PROPERTY(bool isOpen READ isOpen NOTIFY changed)
    Q_PROPERTY(Mode mode READ mode NOTIFY changed)
    Q_PROPERTY(QString title READ title NOTIFY changed)
    /// Which entry it is about, or that it is about the run.
    Q_PROPERTY(QString aboutText READ aboutText NOTIFY changed)
    /// The youngest first. Rows: text, byText, sign.
    Q_PROPERTY(loopside::app::RowModel* rows READ rows CONSTANT)
    /// What may be seen or heard. Rows: name, detail (empty), isChosen.
    Q_PROPERTY(loopside::app::RowModel* signs READ signs CONSTANT)
    /// How to know what is ticked; that it is to be ticked where nothing is.
    Q_PROPERTY(QString signsText READ signsText NOTIFY changed)
    Q_PROPERTY(bool canLogSigns READ canLogSigns NOTIFY changed)
    /// Why there is no spoken note, no photo: the hardware is not there. Empty where it is.
    Q_PROPERTY(QString noSoundText READ noSoundText NOTIFY changed)
    Q_PROPERTY(QString noCameraText READ noCameraText NOTIFY changed)
    /// All that is not there, in a line.
    Q_PROPERTY(QString notThereText READ notThereText NOTIFY changed)
    /// The drawing, what the camera sees, the picture that was chosen or is shown.
    Q_PROPERTY(QImage picture READ picture NOTIFY pictureChanged)
    Q_PROPERTY(bool canKeep READ canKeep NOTIFY pictureChanged)
    /// "45 kB of at most 300 kB" for a picture that was chosen; what is wrong with it; or empty.
    Q_PROPERTY(QString pictureText READ pictureText NOTIFY pictureChanged)
    /// Where pictures are looked for, and what is there: folders, then pictures. Rows: name, detail, isChosen.
    Q_PROPERTY(QString folderText READ folderText NOTIFY changed)
    Q_PROPERTY(loopside::app::RowModel* files READ files CONSTANT)
    Q_PROPERTY(bool isFolderEmpty READ isFolderEmpty NOTIFY changed)
    /// What is typed and not logged yet: of the note, and of the picture's caption. Stored as it is typed.
    Q_PROPERTY(QString draft READ draft WRITE setDraft NOTIFY changed)
    Q_PROPERTY(QString caption READ caption WRITE setCaption NOTIFY changed)
    /// Height by width of a drawing.
    Q_PROPERTY(qreal drawingShape READ drawingShape CONSTANT)
    /// How long is spoken already, or that what was spoken waits to be kept; empty before it begins.
    Q_PROPERTY(QString spokenText READ spokenText NOTIFY spokenChanged)
    Q_PROPERTY(bool isListening READ isListening NOTIFY spokenChanged)
    Q_PROPERTY(bool isSpokenWaiting READ isSpokenWaiting NOTIFY spokenChanged)
    /// What is shown large: its line in the record; whether there is a picture of it, whether it can be heard.
    Q_PROPERTY(QString shownText READ shownText NOTIFY changed)
    Q_PROPERTY(bool shownHasPicture READ shownHasPicture NOTIFY pictureChanged)
    Q_PROPERTY(bool shownCanPlay READ shownCanPlay NOTIFY changed)
    Q_PROPERTY(bool shownCanBeWithdrawn READ shownCanBeWithdrawn NOTIFY changed)
    /// Reasons to withdraw it. Rows: text.
    Q_PROPERTY(loopside::app::RowModel* reasons READ reasons CONSTANT)
    /// A reason in own words, a draft until it is withdrawn.
    Q_PROPERTY(loopside::app::OwnWords* ownWords READ ownWords CONSTANT)

public:
    enum class Mode
    {
        List,
        Write,
        Draw,
        Speak,
        Look,
        Pick,
        Preview,
        Show,
        Withdraw
    };
    Q_ENUM(Mode)

    explicit NotesView(Tablet& tablet, QObject* parent = nullptr);

    [[nodiscard]] bool isOpen() const { return isOpen_; }
    [[nodiscard]] Mode mode() const { return mode_; }
    [[nodiscard]] QString title() const;
    [[nodiscard]] QString aboutText() const;
    [[nodiscard]] RowModel* rows() { return &rows_; }
    [[nodiscard]] RowModel* signs() { return &signs_; }
    [[nodiscard]] QString signsText() const;
    [[nodiscard]] bool canLogSigns() const { return !seen_.isEmpty(); }
    [[nodiscard]] QString noSoundText() const;
    [[nodiscard]] QString noCameraText() const;
    [[nodiscard]] QString notThereText() const;
    [[nodiscard]] QImage picture() const { return picture_; }
    [[nodiscard]] bool canKeep() const;
    [[nodiscard]] QString pictureText() const;
    [[nodiscard]] QString folderText() const { return folder_; }
    [[nodiscard]] RowModel* files() { return &files_; }
    [[nodiscard]] bool isFolderEmpty() const { return paths_.isEmpty(); }
    [[nodiscard]] QString draft() const { return begun_.text(); }
    void setDraft(const QString& text) { begun_.setText(text); }
    [[nodiscard]] QString caption() const { return begun_.caption(); }
    void setCaption(const QString& caption) { begun_.setCaption(caption); }
    [[nodiscard]] static qreal drawingShape();
    [[nodiscard]] QString spokenText() const;
    [[nodiscard]] bool isListening() const { return speaking_.isListening(); }
    [[nodiscard]] bool isSpokenWaiting() const { return !speaking_.heardAbout(subject()).isEmpty(); }
    [[nodiscard]] QString shownText() const;
    [[nodiscard]] bool shownHasPicture() const { return mode_ == Mode::Show && !picture_.isNull(); }
    [[nodiscard]] bool shownCanPlay() const;
    [[nodiscard]] bool shownCanBeWithdrawn() const;
    [[nodiscard]] RowModel* reasons() { return &reasons_; }
    [[nodiscard]] OwnWords* ownWords() { return &ownWords_; }

    /// Opens the sheet for the run on the screen: about the entry `of`, or about the run where that is empty. A note or
    /// an attachment is shown at once. What was begun about the same is taken up again.
    Q_INVOKABLE void open(const QString& of = {});
    /// What is begun stays.
    Q_INVOKABLE void close();
    Q_INVOKABLE void go(Mode mode);

    /// Something is seen or heard: each its own tick, logged together.
    Q_INVOKABLE void toggleSign(int row);
    Q_INVOKABLE void logSigns();
    Q_INVOKABLE void write(const QString& text);

    /// A finger on the drawing: its place as parts (0 to 1) of width and height.
    Q_INVOKABLE void beginStroke(qreal x, qreal y);
    Q_INVOKABLE void moveStroke(qreal x, qreal y);
    Q_INVOKABLE void endStroke();
    Q_INVOKABLE void undoStroke();

    Q_INVOKABLE void beginSpeaking();
    /// Ends it and keeps what was heard; where it cannot be kept it waits.
    Q_INVOKABLE void keepSpoken();

    /// Takes what the camera sees for a picture to be kept.
    Q_INVOKABLE void take();
    Q_INVOKABLE void chooseFile(int row);
    Q_INVOKABLE void upFolder();
    /// Where pictures are looked for.
    void lookIn(const QString& folder);

    /// Attaches the drawing or the picture.
    Q_INVOKABLE void keepPicture(const QString& caption);

    Q_INVOKABLE void show(int row);
    Q_INVOKABLE void play();
    Q_INVOKABLE void withdraw(int reason);
    Q_INVOKABLE void withdrawFor(const QString& why);

Q_SIGNALS:
    void changed();
    void pictureChanged();
    void spokenChanged();

private:
    /// What a note is about: the entry, or the run.
    [[nodiscard]] const Id& subject() const { return of_.isNone() ? run_ : of_; }
    void refresh();
    void refreshFiles();
    void redraw();
    void setPicture(const QImage& picture);
    void showSigns();
    void showEntry(const Id& entry);
    [[nodiscard]] bool attach(run::AttachmentKind kind, const QByteArray& content, const char* mediaType,
                              const QString& caption);
    [[nodiscard]] std::optional<run::Attachment> shown() const;
    [[nodiscard]] std::optional<run::Note> shownNote() const;
    void tellUnread(const run::Attachment& attachment, const Error& error);
    void onSecond();

    Tablet& tablet_;
    RowModel rows_;
    RowModel signs_;
    RowModel files_;
    RowModel reasons_;
    NoteDraft begun_;
    OwnWords ownWords_;
    Speaking speaking_;
    PhotoCamera camera_;
    QSet<int> seen_; ///< Rows of `signs`.
    bool isOpen_ = false;
    Mode mode_ = Mode::List;
    Id run_;
    Id of_;
    QList<Id> rowEntries_; ///< Of `rows`, the entry of each.
    QImage picture_;
    QByteArray bytes_; ///< Of the picture that was chosen, as it is kept.
    QString fault_;    ///< Why there is no picture of the file that was chosen.
    QImage waiting_;   ///< Taken or chosen, not attached when the sheet was closed.
    Id waitingFor_;
    QString folder_;
    QStringList paths_; ///< Of `files`.
    Id shown_;
    QByteArray shownSound_;
};

} // namespace loopside::app
