-- SPDX-FileCopyrightText: The Loopside authors
-- SPDX-License-Identifier: GPL-3.0-or-later

-- The files of attachments, in PostgreSQL 15. Every column is told in schema/hub/README.md.

CREATE TABLE files (
    site_id     BYTEA   NOT NULL CHECK (octet_length(site_id) = 16),
    entry_id    BYTEA   NOT NULL CHECK (octet_length(entry_id) = 16),
    bytes       BYTEA   NOT NULL,
    PRIMARY KEY (site_id, entry_id)
) PARTITION BY HASH (site_id);

CREATE TABLE files_0 PARTITION OF files FOR VALUES WITH (MODULUS 8, REMAINDER 0);
CREATE TABLE files_1 PARTITION OF files FOR VALUES WITH (MODULUS 8, REMAINDER 1);
CREATE TABLE files_2 PARTITION OF files FOR VALUES WITH (MODULUS 8, REMAINDER 2);
CREATE TABLE files_3 PARTITION OF files FOR VALUES WITH (MODULUS 8, REMAINDER 3);
CREATE TABLE files_4 PARTITION OF files FOR VALUES WITH (MODULUS 8, REMAINDER 4);
CREATE TABLE files_5 PARTITION OF files FOR VALUES WITH (MODULUS 8, REMAINDER 5);
CREATE TABLE files_6 PARTITION OF files FOR VALUES WITH (MODULUS 8, REMAINDER 6);
CREATE TABLE files_7 PARTITION OF files FOR VALUES WITH (MODULUS 8, REMAINDER 7);
