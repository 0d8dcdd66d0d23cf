-- Questions that were asked, and samples that were sent. Each is its list of events, as a trial is; what stands in the
-- card itself is derived from them in the same transaction. One text for SQLite and PostgreSQL.
create table card (
  id text primary key,
  kind text not null,
  number bigint not null,
  started_at text not null,
  changed_at text not null,
  is_open bigint not null,
  due text not null,
  title text not null,
  words text not null,
  unique (kind, number)
);
create index card_by_due on card (kind, is_open, due);

-- The record. Rows are only ever added.
create table card_event (
  card_id text not null references card (id),
  seq bigint not null,
  at text not null,
  kind text not null,
  fields text not null,
  token text,
  primary key (card_id, seq),
  unique (card_id, token)
);

-- Which trials belong to a card; derived from its events.
create table card_trial (
  card_id text not null references card (id),
  trial_id text not null references trial (id),
  primary key (card_id, trial_id)
);
create index card_trial_by_trial on card_trial (trial_id);
