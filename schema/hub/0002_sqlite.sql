-- SPDX-FileCopyrightText: The Loopside authors
-- SPDX-License-Identifier: GPL-3.0-or-later

-- The files of attachments. Every column is told in schema/hub/README.md.

CREATE TABLE files (
    site_id     BLOB    NOT NULL CHECK (length(site_id) = 16),
    entry_id    BLOB    NOT NULL CHECK (length(entry_id) = 16),
    bytes       BLOB    NOT NULL,
    PRIMARY KEY (site_id, entry_id)
) STRICT;
