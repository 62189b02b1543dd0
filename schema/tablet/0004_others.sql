-- SPDX-FileCopyrightText: The Loopside authors
-- SPDX-License-Identifier: GPL-3.0-or-later

-- What this tablet holds of other devices, and how far it has come with each hub. Every column is told in
-- schema/README.md. All of it can be heard again from the hub; a journal that is made anew begins without it.

CREATE TABLE other_entries (
    arrival    INTEGER PRIMARY KEY,
    site_id    BLOB    NOT NULL CHECK (length(site_id) = 16),
    device_id  BLOB    NOT NULL CHECK (length(device_id) = 16),
    chain_id   BLOB    NOT NULL CHECK (length(chain_id) = 16),
    sequence   INTEGER NOT NULL CHECK (sequence >= 1),
    hash       BLOB    NOT NULL CHECK (length(hash) = 32),
    is_ahead   INTEGER NOT NULL CHECK (is_ahead IN (0, 1)),
    line       TEXT    NOT NULL,
    UNIQUE (site_id, chain_id, sequence)
) STRICT;

CREATE TABLE other_asides (
    arrival   INTEGER PRIMARY KEY,
    site_id   BLOB    NOT NULL CHECK (length(site_id) = 16),
    chain_id  BLOB    NOT NULL CHECK (length(chain_id) = 16),
    hash      BLOB    NOT NULL CHECK (length(hash) = 32),
    line      TEXT    NOT NULL,
    UNIQUE (site_id, hash)
) STRICT;

CREATE TRIGGER other_entries_stay BEFORE DELETE ON other_entries
BEGIN
    SELECT RAISE(ABORT, 'an entry of another device is never removed');
END;

CREATE TRIGGER other_entries_keep BEFORE UPDATE ON other_entries
BEGIN
    SELECT RAISE(ABORT, 'an entry of another device is never changed');
END;

CREATE TABLE hubs (
    site_id     BLOB    PRIMARY KEY CHECK (length(site_id) = 16),
    log_id      BLOB    NOT NULL CHECK (length(log_id) = 16),
    reached_at  INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE hub_receipts (
    site_id    BLOB    NOT NULL REFERENCES hubs CHECK (length(site_id) = 16),
    chain_id   BLOB    NOT NULL CHECK (length(chain_id) = 16),
    device_id  BLOB    NOT NULL CHECK (length(device_id) = 16),
    key        BLOB    NOT NULL CHECK (length(key) = 32),
    sequence   INTEGER NOT NULL CHECK (sequence >= 1),
    hash       BLOB    NOT NULL CHECK (length(hash) = 32),
    is_aside   INTEGER NOT NULL CHECK (is_aside IN (0, 1)),
    marked_at  INTEGER NOT NULL,
    signature  BLOB    NOT NULL CHECK (length(signature) = 64),
    PRIMARY KEY (site_id, chain_id)
) STRICT, WITHOUT ROWID;

CREATE TABLE hub_places (
    site_id  BLOB    NOT NULL REFERENCES hubs CHECK (length(site_id) = 16),
    topic    TEXT    NOT NULL,
    entries  INTEGER NOT NULL CHECK (entries >= 0),
    PRIMARY KEY (site_id, topic)
) STRICT, WITHOUT ROWID;
