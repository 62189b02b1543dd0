// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/backup_timer.h"

#include "app/wording.h"
#include "store/aside_file.h"
#include "store/attachment_folder.h"
#include "store/restore_reason.h"

#include <algorithm>
#include <chrono>
#include <set>
#include <utility>

namespace loopside::app {

namespace {

constexpr std::uint64_t hourNs = 3'600'000'000'000;

BackupTimer::Made backUpNow(const std::string& path, const std::string& folder, std::int64_t wallMs,
                            const std::set<std::string>& withdrawn)
{
    const auto journal = store::SqliteJournal::openToRead(path);
    if (!journal) {
        return fail(journal.error());
    }
    return store::backUp(**journal, folder, wallMs).and_then([&](std::optional<store::Backup> made) {
        const auto aside = store::AsideFile::inBackups(folder).takeFrom(store::AsideFile(path));
        if (!aside) {
            return BackupTimer::Made(fail(aside.error()));
        }
        return store::AttachmentFolder::inBackups(folder)
            .takeFrom(store::AttachmentFolder::besideJournal(path), withdrawn)
            .transform([&](std::size_t) { return made; });
    });
}

} // namespace

BackupTimer::BackupTimer(Tablet& tablet, std::string path, std::string folder)
    : tablet_{tablet},
      path_{std::move(path)},
      folder_{std::move(folder)},
      closedBefore_{closedRuns()},
      lastNs_{tablet.now().monoNs}
{
    connect(&tablet, &Tablet::changed, this, &BackupTimer::look);
    connect(&tablet, &Tablet::secondPassed, this, &BackupTimer::look);
}

void BackupTimer::begin()
{
    if (isBusy()) {
        return;
    }
    closedBefore_ = closedRuns();
    const Stamp now = tablet_.now();
    lastNs_ = now.monoNs;
    running_ = std::async(std::launch::async, backUpNow, path_, folder_, now.wallMs,
                          store::withdrawnIn(tablet_.state()));
    Q_EMIT changed();
}

void BackupTimer::look()
{
    finish();
    if (closedRuns() > closedBefore_ || tablet_.now().monoNs - lastNs_ >= hourNs) {
        begin();
    }
}

void BackupTimer::finish()
{
    if (!isBusy() || running_.wait_for(std::chrono::seconds(0)) != std::future_status::ready) {
        return;
    }
    made_ = running_.get();
    if (!*made_ && !std::exchange(isTold_, true)) {
        tablet_.setNotice(
            tablet_.say({"backup-failed", {{"reason", store::keepFailure(tablet_.words(), made_->error())}}}));
    }
    isTold_ = isTold_ && !*made_;
    Q_EMIT changed();
}

std::size_t BackupTimer::closedRuns() const
{
    const auto& runs = tablet_.state().runs;
    return static_cast<std::size_t>(
        std::ranges::count_if(runs, [](const auto& run) { return run.second.phase == run::Phase::Closed; }));
}

} // namespace loopside::app
