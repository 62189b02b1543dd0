-- SPDX-FileCopyrightText: The Loopside authors
-- SPDX-License-Identifier: GPL-3.0-or-later

-- What a site hub keeps, in its own file. Every table is told in schema/hub/README.md.

CREATE TABLE sites (
    site_id     BLOB    NOT NULL PRIMARY KEY CHECK (length(site_id) = 16),
    log_id      BLOB    NOT NULL CHECK (length(log_id) = 16),
    made_at     INTEGER NOT NULL
) STRICT;

CREATE TABLE entries (
    site_id             BLOB    NOT NULL CHECK (length(site_id) = 16),
    chain_id            BLOB    NOT NULL CHECK (length(chain_id) = 16),
    sequence            INTEGER NOT NULL CHECK (sequence >= 1),
    device_id           BLOB    NOT NULL CHECK (length(device_id) = 16),
    format              INTEGER NOT NULL,
    entry_id            BLOB    NOT NULL CHECK (length(entry_id) = 16),
    clock               INTEGER NOT NULL,
    run_id              BLOB    NOT NULL CHECK (length(run_id) = 16),
    person_id           BLOB    NOT NULL CHECK (length(person_id) = 16),
    entered_at          INTEGER NOT NULL,
    entered_offset_min  INTEGER NOT NULL,
    mono_ns             INTEGER NOT NULL,
    boot_id             BLOB    NOT NULL CHECK (length(boot_id) = 16),
    observed_ago_ms     INTEGER NOT NULL,
    observed_how        BLOB    NOT NULL,
    kind                BLOB    NOT NULL,
    body                BLOB    NOT NULL,
    previous_hash       BLOB    NOT NULL CHECK (length(previous_hash) = 32),
    hash                BLOB    NOT NULL CHECK (length(hash) = 32),
    signature           BLOB    NOT NULL CHECK (length(signature) = 64),
    is_ahead            INTEGER NOT NULL CHECK (is_ahead IN (0, 1)),
    PRIMARY KEY (site_id, chain_id, sequence)
) STRICT;

CREATE INDEX entries_of_run ON entries (site_id, run_id);

CREATE TABLE asides (
    site_id             BLOB    NOT NULL CHECK (length(site_id) = 16),
    chain_id            BLOB    NOT NULL CHECK (length(chain_id) = 16),
    sequence            INTEGER NOT NULL CHECK (sequence >= 1),
    device_id           BLOB    NOT NULL CHECK (length(device_id) = 16),
    format              INTEGER NOT NULL,
    entry_id            BLOB    NOT NULL CHECK (length(entry_id) = 16),
    clock               INTEGER NOT NULL,
    run_id              BLOB    NOT NULL CHECK (length(run_id) = 16),
    person_id           BLOB    NOT NULL CHECK (length(person_id) = 16),
    entered_at          INTEGER NOT NULL,
    entered_offset_min  INTEGER NOT NULL,
    mono_ns             INTEGER NOT NULL,
    boot_id             BLOB    NOT NULL CHECK (length(boot_id) = 16),
    observed_ago_ms     INTEGER NOT NULL,
    observed_how        BLOB    NOT NULL,
    kind                BLOB    NOT NULL,
    body                BLOB    NOT NULL,
    previous_hash       BLOB    NOT NULL CHECK (length(previous_hash) = 32),
    hash                BLOB    NOT NULL CHECK (length(hash) = 32),
    signature           BLOB    NOT NULL CHECK (length(signature) = 64),
    is_ahead            INTEGER NOT NULL CHECK (is_ahead IN (0, 1)),
    number              INTEGER NOT NULL,
    PRIMARY KEY (site_id, chain_id, hash)
) STRICT;

CREATE TABLE chains (
    site_id     BLOB    NOT NULL CHECK (length(site_id) = 16),
    chain_id    BLOB    NOT NULL CHECK (length(chain_id) = 16),
    device_id   BLOB    NOT NULL CHECK (length(device_id) = 16),
    sequence    INTEGER NOT NULL,
    hash        BLOB    NOT NULL CHECK (length(hash) = 32),
    PRIMARY KEY (site_id, chain_id)
) STRICT;

CREATE INDEX chains_of_device ON chains (site_id, device_id);

CREATE TABLE gaps (
    site_id         BLOB    NOT NULL CHECK (length(site_id) = 16),
    chain_id        BLOB    NOT NULL CHECK (length(chain_id) = 16),
    after_sequence  INTEGER NOT NULL,
    before_sequence INTEGER NOT NULL,
    PRIMARY KEY (site_id, chain_id, after_sequence)
) STRICT;

CREATE TABLE listed (
    site_id     BLOB    NOT NULL CHECK (length(site_id) = 16),
    topic       BLOB    NOT NULL,
    place       INTEGER NOT NULL CHECK (place >= 1),
    device_id   BLOB    NOT NULL CHECK (length(device_id) = 16),
    chain_id    BLOB    NOT NULL CHECK (length(chain_id) = 16),
    sequence    INTEGER NOT NULL,
    PRIMARY KEY (site_id, topic, place)
) STRICT, WITHOUT ROWID;

CREATE TABLE run_topics (
    site_id         BLOB    NOT NULL CHECK (length(site_id) = 16),
    run_id          BLOB    NOT NULL CHECK (length(run_id) = 16),
    topic           BLOB    NOT NULL,
    lasting_only    INTEGER NOT NULL CHECK (lasting_only IN (0, 1)),
    PRIMARY KEY (site_id, run_id, topic)
) STRICT;

CREATE TABLE devices (
    site_id     BLOB    NOT NULL CHECK (length(site_id) = 16),
    device_id   BLOB    NOT NULL CHECK (length(device_id) = 16),
    public_key  BLOB    NOT NULL CHECK (length(public_key) = 32),
    name        BLOB    NOT NULL,
    enrolled_at INTEGER NOT NULL,
    revoked_at  INTEGER,
    PRIMARY KEY (site_id, device_id)
) STRICT;

CREATE TABLE enrolment_codes (
    site_id     BLOB    NOT NULL CHECK (length(site_id) = 16),
    secret_hash BLOB    NOT NULL CHECK (length(secret_hash) = 32),
    expires_at  INTEGER NOT NULL,
    PRIMARY KEY (site_id, secret_hash)
) STRICT;

CREATE TABLE nonces (
    site_id     BLOB    NOT NULL CHECK (length(site_id) = 16),
    device_id   BLOB    NOT NULL CHECK (length(device_id) = 16),
    nonce       BLOB    NOT NULL CHECK (length(nonce) = 16),
    stamped_at  INTEGER NOT NULL,
    PRIMARY KEY (site_id, device_id, nonce)
) STRICT, WITHOUT ROWID;

CREATE INDEX nonces_by_stamp ON nonces (site_id, stamped_at);

CREATE TABLE deeds (
    site_id     BLOB    NOT NULL CHECK (length(site_id) = 16),
    number      INTEGER NOT NULL,
    done_at     INTEGER NOT NULL,
    what        BLOB    NOT NULL,
    PRIMARY KEY (site_id, number)
) STRICT;

CREATE TABLE accounts (
    site_id         BLOB    NOT NULL CHECK (length(site_id) = 16),
    person_id       BLOB    NOT NULL CHECK (length(person_id) = 16),
    name            BLOB    NOT NULL,
    role            BLOB    NOT NULL,
    password_hash   BLOB    NOT NULL,
    is_out          INTEGER NOT NULL CHECK (is_out IN (0, 1)),
    PRIMARY KEY (site_id, person_id),
    UNIQUE (site_id, name)
) STRICT;

CREATE TABLE sessions (
    site_id     BLOB    NOT NULL CHECK (length(site_id) = 16),
    token_hash  BLOB    NOT NULL CHECK (length(token_hash) = 32),
    person_id   BLOB    NOT NULL CHECK (length(person_id) = 16),
    begun_at    INTEGER NOT NULL,
    used_at     INTEGER NOT NULL,
    PRIMARY KEY (site_id, token_hash)
) STRICT, WITHOUT ROWID;

CREATE TABLE audit (
    site_id     BLOB    NOT NULL CHECK (length(site_id) = 16),
    number      INTEGER NOT NULL,
    done_at     INTEGER NOT NULL,
    by_id       BLOB    NOT NULL CHECK (length(by_id) = 16),
    what        BLOB    NOT NULL,
    whom        BLOB    NOT NULL,
    PRIMARY KEY (site_id, number)
) STRICT;

-- Entries and lines of the audit are only ever added. This stops a slip of ours, not a forger: for entries the chain
-- and the signatures do that.
CREATE TRIGGER entries_stay BEFORE DELETE ON entries
BEGIN
    SELECT RAISE(ABORT, 'an entry is never removed');
END;

CREATE TRIGGER entries_keep BEFORE UPDATE ON entries
BEGIN
    SELECT RAISE(ABORT, 'an entry is never changed');
END;

CREATE TRIGGER audit_stays BEFORE DELETE ON audit
BEGIN
    SELECT RAISE(ABORT, 'a line of the audit is never removed');
END;

CREATE TRIGGER audit_keeps BEFORE UPDATE ON audit
BEGIN
    SELECT RAISE(ABORT, 'a line of the audit is never changed');
END;
