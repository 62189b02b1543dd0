-- SPDX-FileCopyrightText: The Loopside authors
-- SPDX-License-Identifier: GPL-3.0-or-later

-- What became of the journal's file itself. Every column is told in schema/README.md.

CREATE TABLE restores (
    restore_id   INTEGER PRIMARY KEY,
    restored_at  INTEGER NOT NULL,
    position     INTEGER NOT NULL CHECK (position >= 0),
    why          TEXT    NOT NULL
) STRICT;

CREATE TABLE losses (
    loss_id          INTEGER PRIMARY KEY,
    restore_id       INTEGER NOT NULL REFERENCES restores,
    chain_id         BLOB    NOT NULL CHECK (length(chain_id) = 16),
    after_sequence   INTEGER NOT NULL CHECK (after_sequence >= 0),
    before_sequence  INTEGER NOT NULL CHECK (before_sequence > after_sequence + 1)
) STRICT;

-- How far the checks of each start have come, and how many torn writes were dropped.
CREATE TABLE counters (
    name   TEXT    PRIMARY KEY,
    value  INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
