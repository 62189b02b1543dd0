-- SPDX-FileCopyrightText: The Loopside authors
-- SPDX-License-Identifier: GPL-3.0-or-later

-- How far this tablet has brought the files of its attachments to each hub. Every column is told in schema/README.md.

CREATE TABLE hub_files (
    site_id  BLOB    PRIMARY KEY REFERENCES hubs CHECK (length(site_id) = 16),
    up_to    INTEGER NOT NULL CHECK (up_to >= 0)
) STRICT, WITHOUT ROWID;
