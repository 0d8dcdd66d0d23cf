-- Who recorded it: name of the account, or of the person at the machine; empty where nobody was asked.
alter table event add column who text not null default '';

-- Every file that an event or a result names. Its content is on the disk before this row is written.
create table kept_file (
  sha256 text primary key,
  bytes bigint not null,
  kept_at text not null
);

-- What was worked out from the events of a trial up to one of them, with the program that did it. Rows are only added.
create table result (
  trial_id text not null references trial (id),
  seq bigint not null,
  kind text not null,
  program text not null,
  made_at text not null,
  sha256 text not null references kept_file (sha256),
  primary key (trial_id, seq, kind, program)
);
