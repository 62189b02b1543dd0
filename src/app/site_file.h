// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/site.h"
#include "site/people_text.h"

#include <string>

namespace loopside::app {

/// The file of a site, the one place where names of people stand.
class SiteFile
{
public:
    /// `otherwise` is the text as long as there is no file.
    explicit SiteFile(std::string path, std::string otherwise = {});

    [[nodiscard]] Result<std::string> text() const;
    [[nodiscard]] Result<Site> read() const;

    /// The text and the site with `person` told otherwise; of what the file says now, whoever changed it.
    struct Told
    {
        std::string text;
        Site site;
    };
    [[nodiscard]] Result<Told> with(const site::PersonTold& person) const;

    /// Puts `text` in its place; on disk when it returns. Whatever fails, the file before stands.
    [[nodiscard]] Done put(const std::string& text) const;

private:
    std::string path_;
    std::string otherwise_;
};

} // namespace loopside::app
