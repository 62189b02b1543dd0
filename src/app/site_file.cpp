// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/site_file.h"

#include "app/wording.h"
#include "store/durable_file.h"

#include <QFile>
#include <QFileInfo>

namespace loopside::app {

SiteFile::SiteFile(std::string path, std::string otherwise) : path_{std::move(path)}, otherwise_{std::move(otherwise)}
{
}

Result<std::string> SiteFile::text() const
{
    QFile file(toQt(path_));
    if (!otherwise_.empty() && !file.exists()) {
        return otherwise_;
    }
    if (!file.open(QIODevice::ReadOnly)) {
        return fail(Errc::Io, path_ + " cannot be opened: " + file.errorString().toStdString(),
                    {"app.file.cannot-open", {{"why", file.errorString().toStdString()}}});
    }
    return file.readAll().toStdString();
}

Result<Site> SiteFile::read() const
{
    return text().and_then([](const std::string& json) { return siteFrom(json); });
}

Result<SiteFile::Told> SiteFile::with(const site::PersonTold& person) const
{
    const auto before = text();
    const auto after = before ? site::textWithPerson(*before, person) : before;
    if (!after) {
        return fail(after.error());
    }
    return siteFrom(*after).transform([&](Site site) { return Told{*after, std::move(site)}; });
}

Done SiteFile::put(const std::string& text) const
{
    const QString whole = QFileInfo(toQt(path_)).canonicalFilePath(); // what a link points to, not the link
    return store::replacePrivateFile(whole.isEmpty() ? path_ : whole.toStdString(), text);
}

} // namespace loopside::app
