-- SPDX-FileCopyrightText: The Loopside authors
-- SPDX-License-Identifier: GPL-3.0-or-later

-- What a site hub keeps, in PostgreSQL 15. The same tables as in the hub's own file; what grows is
-- partitioned by site. Every table is told in schema/hub/README.md.

CREATE TABLE sites (
    site_id     BYTEA   NOT NULL PRIMARY KEY CHECK (octet_length(site_id) = 16),
    log_id      BYTEA   NOT NULL CHECK (octet_length(log_id) = 16),
    made_at     BIGINT  NOT NULL
);

CREATE TABLE entries (
    site_id             BYTEA   NOT NULL CHECK (octet_length(site_id) = 16),
    chain_id            BYTEA   NOT NULL CHECK (octet_length(chain_id) = 16),
    sequence            BIGINT  NOT NULL CHECK (sequence >= 1),
    device_id           BYTEA   NOT NULL CHECK (octet_length(device_id) = 16),
    format              BIGINT  NOT NULL,
    entry_id            BYTEA   NOT NULL CHECK (octet_length(entry_id) = 16),
    clock               BIGINT  NOT NULL,
    run_id              BYTEA   NOT NULL CHECK (octet_length(run_id) = 16),
    person_id           BYTEA   NOT NULL CHECK (octet_length(person_id) = 16),
    entered_at          BIGINT  NOT NULL,
    entered_offset_min  BIGINT  NOT NULL,
    mono_ns             BIGINT  NOT NULL,
    boot_id             BYTEA   NOT NULL CHECK (octet_length(boot_id) = 16),
    observed_ago_ms     BIGINT  NOT NULL,
    observed_how        BYTEA   NOT NULL,
    kind                BYTEA   NOT NULL,
    body                BYTEA   NOT NULL,
    previous_hash       BYTEA   NOT NULL CHECK (octet_length(previous_hash) = 32),
    hash                BYTEA   NOT NULL CHECK (octet_length(hash) = 32),
    signature           BYTEA   NOT NULL CHECK (octet_length(signature) = 64),
    is_ahead            BIGINT  NOT NULL CHECK (is_ahead IN (0, 1)),
    PRIMARY KEY (site_id, chain_id, sequence)
) PARTITION BY HASH (site_id);

CREATE TABLE entries_0 PARTITION OF entries FOR VALUES WITH (MODULUS 8, REMAINDER 0);
CREATE TABLE entries_1 PARTITION OF entries FOR VALUES WITH (MODULUS 8, REMAINDER 1);
CREATE TABLE entries_2 PARTITION OF entries FOR VALUES WITH (MODULUS 8, REMAINDER 2);
CREATE TABLE entries_3 PARTITION OF entries FOR VALUES WITH (MODULUS 8, REMAINDER 3);
CREATE TABLE entries_4 PARTITION OF entries FOR VALUES WITH (MODULUS 8, REMAINDER 4);
CREATE TABLE entries_5 PARTITION OF entries FOR VALUES WITH (MODULUS 8, REMAINDER 5);
CREATE TABLE entries_6 PARTITION OF entries FOR VALUES WITH (MODULUS 8, REMAINDER 6);
CREATE TABLE entries_7 PARTITION OF entries FOR VALUES WITH (MODULUS 8, REMAINDER 7);

CREATE INDEX entries_of_run ON entries (site_id, run_id);

CREATE TABLE asides (
    site_id             BYTEA   NOT NULL CHECK (octet_length(site_id) = 16),
    chain_id            BYTEA   NOT NULL CHECK (octet_length(chain_id) = 16),
    sequence            BIGINT  NOT NULL CHECK (sequence >= 1),
    device_id           BYTEA   NOT NULL CHECK (octet_length(device_id) = 16),
    format              BIGINT  NOT NULL,
    entry_id            BYTEA   NOT NULL CHECK (octet_length(entry_id) = 16),
    clock               BIGINT  NOT NULL,
    run_id              BYTEA   NOT NULL CHECK (octet_length(run_id) = 16),
    person_id           BYTEA   NOT NULL CHECK (octet_length(person_id) = 16),
    entered_at          BIGINT  NOT NULL,
    entered_offset_min  BIGINT  NOT NULL,
    mono_ns             BIGINT  NOT NULL,
    boot_id             BYTEA   NOT NULL CHECK (octet_length(boot_id) = 16),
    observed_ago_ms     BIGINT  NOT NULL,
    observed_how        BYTEA   NOT NULL,
    kind                BYTEA   NOT NULL,
    body                BYTEA   NOT NULL,
    previous_hash       BYTEA   NOT NULL CHECK (octet_length(previous_hash) = 32),
    hash                BYTEA   NOT NULL CHECK (octet_length(hash) = 32),
    signature           BYTEA   NOT NULL CHECK (octet_length(signature) = 64),
    is_ahead            BIGINT  NOT NULL CHECK (is_ahead IN (0, 1)),
    number              BIGINT  NOT NULL,
    PRIMARY KEY (site_id, chain_id, hash)
) PARTITION BY HASH (site_id);

CREATE TABLE asides_0 PARTITION OF asides FOR VALUES WITH (MODULUS 8, REMAINDER 0);
CREATE TABLE asides_1 PARTITION OF asides FOR VALUES WITH (MODULUS 8, REMAINDER 1);
CREATE TABLE asides_2 PARTITION OF asides FOR VALUES WITH (MODULUS 8, REMAINDER 2);
CREATE TABLE asides_3 PARTITION OF asides FOR VALUES WITH (MODULUS 8, REMAINDER 3);
CREATE TABLE asides_4 PARTITION OF asides FOR VALUES WITH (MODULUS 8, REMAINDER 4);
CREATE TABLE asides_5 PARTITION OF asides FOR VALUES WITH (MODULUS 8, REMAINDER 5);
CREATE TABLE asides_6 PARTITION OF asides FOR VALUES WITH (MODULUS 8, REMAINDER 6);
CREATE TABLE asides_7 PARTITION OF asides FOR VALUES WITH (MODULUS 8, REMAINDER 7);

CREATE TABLE chains (
    site_id     BYTEA   NOT NULL CHECK (octet_length(site_id) = 16),
    chain_id    BYTEA   NOT NULL CHECK (octet_length(chain_id) = 16),
    device_id   BYTEA   NOT NULL CHECK (octet_length(device_id) = 16),
    sequence    BIGINT  NOT NULL,
    hash        BYTEA   NOT NULL CHECK (octet_length(hash) = 32),
    PRIMARY KEY (site_id, chain_id)
);

CREATE INDEX chains_of_device ON chains (site_id, device_id);

CREATE TABLE gaps (
    site_id         BYTEA   NOT NULL CHECK (octet_length(site_id) = 16),
    chain_id        BYTEA   NOT NULL CHECK (octet_length(chain_id) = 16),
    after_sequence  BIGINT  NOT NULL,
    before_sequence BIGINT  NOT NULL,
    PRIMARY KEY (site_id, chain_id, after_sequence)
);

CREATE TABLE listed (
    site_id     BYTEA   NOT NULL CHECK (octet_length(site_id) = 16),
    topic       BYTEA   NOT NULL,
    place       BIGINT  NOT NULL CHECK (place >= 1),
    device_id   BYTEA   NOT NULL CHECK (octet_length(device_id) = 16),
    chain_id    BYTEA   NOT NULL CHECK (octet_length(chain_id) = 16),
    sequence    BIGINT  NOT NULL,
    PRIMARY KEY (site_id, topic, place)
) PARTITION BY HASH (site_id);

CREATE TABLE listed_0 PARTITION OF listed FOR VALUES WITH (MODULUS 8, REMAINDER 0);
CREATE TABLE listed_1 PARTITION OF listed FOR VALUES WITH (MODULUS 8, REMAINDER 1);
CREATE TABLE listed_2 PARTITION OF listed FOR VALUES WITH (MODULUS 8, REMAINDER 2);
CREATE TABLE listed_3 PARTITION OF listed FOR VALUES WITH (MODULUS 8, REMAINDER 3);
CREATE TABLE listed_4 PARTITION OF listed FOR VALUES WITH (MODULUS 8, REMAINDER 4);
CREATE TABLE listed_5 PARTITION OF listed FOR VALUES WITH (MODULUS 8, REMAINDER 5);
CREATE TABLE listed_6 PARTITION OF listed FOR VALUES WITH (MODULUS 8, REMAINDER 6);
CREATE TABLE listed_7 PARTITION OF listed FOR VALUES WITH (MODULUS 8, REMAINDER 7);

CREATE TABLE run_topics (
    site_id         BYTEA   NOT NULL CHECK (octet_length(site_id) = 16),
    run_id          BYTEA   NOT NULL CHECK (octet_length(run_id) = 16),
    topic           BYTEA   NOT NULL,
    lasting_only    BIGINT  NOT NULL CHECK (lasting_only IN (0, 1)),
    PRIMARY KEY (site_id, run_id, topic)
);

CREATE TABLE devices (
    site_id     BYTEA   NOT NULL CHECK (octet_length(site_id) = 16),
    device_id   BYTEA   NOT NULL CHECK (octet_length(device_id) = 16),
    public_key  BYTEA   NOT NULL CHECK (octet_length(public_key) = 32),
    name        BYTEA   NOT NULL,
    enrolled_at BIGINT  NOT NULL,
    revoked_at  BIGINT ,
    PRIMARY KEY (site_id, device_id)
);

CREATE TABLE enrolment_codes (
    site_id     BYTEA   NOT NULL CHECK (octet_length(site_id) = 16),
    secret_hash BYTEA   NOT NULL CHECK (octet_length(secret_hash) = 32),
    expires_at  BIGINT  NOT NULL,
    PRIMARY KEY (site_id, secret_hash)
);

CREATE TABLE nonces (
    site_id     BYTEA   NOT NULL CHECK (octet_length(site_id) = 16),
    device_id   BYTEA   NOT NULL CHECK (octet_length(device_id) = 16),
    nonce       BYTEA   NOT NULL CHECK (octet_length(nonce) = 16),
    stamped_at  BIGINT  NOT NULL,
    PRIMARY KEY (site_id, device_id, nonce)
);

CREATE INDEX nonces_by_stamp ON nonces (site_id, stamped_at);

CREATE TABLE deeds (
    site_id     BYTEA   NOT NULL CHECK (octet_length(site_id) = 16),
    number      BIGINT  NOT NULL,
    done_at     BIGINT  NOT NULL,
    what        BYTEA   NOT NULL,
    PRIMARY KEY (site_id, number)
);

CREATE TABLE accounts (
    site_id         BYTEA   NOT NULL CHECK (octet_length(site_id) = 16),
    person_id       BYTEA   NOT NULL CHECK (octet_length(person_id) = 16),
    name            BYTEA   NOT NULL,
    role            BYTEA   NOT NULL,
    password_hash   BYTEA   NOT NULL,
    is_out          BIGINT  NOT NULL CHECK (is_out IN (0, 1)),
    PRIMARY KEY (site_id, person_id),
    UNIQUE (site_id, name)
);

CREATE TABLE sessions (
    site_id     BYTEA   NOT NULL CHECK (octet_length(site_id) = 16),
    token_hash  BYTEA   NOT NULL CHECK (octet_length(token_hash) = 32),
    person_id   BYTEA   NOT NULL CHECK (octet_length(person_id) = 16),
    begun_at    BIGINT  NOT NULL,
    used_at     BIGINT  NOT NULL,
    PRIMARY KEY (site_id, token_hash)
);

CREATE TABLE audit (
    site_id     BYTEA   NOT NULL CHECK (octet_length(site_id) = 16),
    number      BIGINT  NOT NULL,
    done_at     BIGINT  NOT NULL,
    by_id       BYTEA   NOT NULL CHECK (octet_length(by_id) = 16),
    what        BYTEA   NOT NULL,
    whom        BYTEA   NOT NULL,
    PRIMARY KEY (site_id, number)
);

-- Entries and lines of the audit are only ever added. This stops a slip of ours, not a forger: for entries the chain
-- and the signatures do that.
CREATE FUNCTION record_stays() RETURNS trigger LANGUAGE plpgsql AS
$$
BEGIN
    RAISE EXCEPTION 'what was recorded is never changed or removed';
END;
$$;

CREATE TRIGGER entries_stay BEFORE DELETE OR UPDATE ON entries FOR EACH ROW EXECUTE FUNCTION record_stays();
CREATE TRIGGER audit_stays BEFORE DELETE OR UPDATE ON audit FOR EACH ROW EXECUTE FUNCTION record_stays();
