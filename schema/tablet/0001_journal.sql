-- SPDX-FileCopyrightText: The Loopside authors
-- SPDX-License-Identifier: GPL-3.0-or-later

-- The journal of a tablet. Every column is told in schema/README.md.

PRAGMA application_id = 0x4C6F6F70; -- "Loop"

CREATE TABLE entries (
    position            INTEGER PRIMARY KEY,
    format              INTEGER NOT NULL CHECK (format BETWEEN 0 AND 65535),
    entry_id            BLOB    NOT NULL UNIQUE CHECK (length(entry_id) = 16),
    device_id           BLOB    NOT NULL CHECK (length(device_id) = 16),
    chain_id            BLOB    NOT NULL CHECK (length(chain_id) = 16),
    sequence            INTEGER NOT NULL CHECK (sequence >= 1),
    clock               INTEGER NOT NULL,
    run_id              BLOB    CHECK (length(run_id) = 16),
    person_id           BLOB    NOT NULL CHECK (length(person_id) = 16),
    entered_at          INTEGER NOT NULL,
    entered_offset_min  INTEGER NOT NULL CHECK (entered_offset_min BETWEEN -2147483648 AND 2147483647),
    mono_ns             INTEGER NOT NULL,
    boot_id             BLOB    NOT NULL CHECK (length(boot_id) = 16),
    observed_ago_ms     INTEGER NOT NULL,
    observed_how        TEXT    NOT NULL,
    kind                TEXT    NOT NULL,
    body                BLOB    NOT NULL,
    previous_hash       BLOB    NOT NULL CHECK (length(previous_hash) = 32),
    hash                BLOB    NOT NULL CHECK (length(hash) = 32),
    signature           BLOB    NOT NULL CHECK (length(signature) = 64),
    UNIQUE (chain_id, sequence)
) STRICT;

-- Small, and written to once a chain: finds a device's chains without going through all entries.
CREATE INDEX chain_openings ON entries (device_id, position) WHERE sequence = 1;

-- Entries are only ever added. This stops a slip of ours, not a forger: the chain and the signatures do that.
CREATE TRIGGER entries_stay BEFORE DELETE ON entries
BEGIN
    SELECT RAISE(ABORT, 'an entry of the journal is never removed');
END;

CREATE TRIGGER entries_keep BEFORE UPDATE ON entries
BEGIN
    SELECT RAISE(ABORT, 'an entry of the journal is never changed');
END;
