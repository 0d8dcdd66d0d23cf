-- One text for SQLite and PostgreSQL: text, bigint and primary keys only. Times are ISO 8601 in UTC.

-- What the list of trials shows; derived from the events and written in the same transaction.
create table trial (
  id text primary key,
  started_at text not null,
  changed_at text not null,
  title text not null,
  words text not null
);
create index trial_by_change on trial (changed_at);

-- The record. Rows are only ever added.
create table event (
  trial_id text not null references trial (id),
  seq bigint not null,
  at text not null,
  kind text not null,
  fields text not null,
  token text,
  primary key (trial_id, seq),
  unique (trial_id, token)
);

-- What stands in a field that has not been sent yet, as typed.
create table draft (
  owner text not null,
  field text not null,
  content text not null,
  at text not null,
  primary key (owner, field)
);
