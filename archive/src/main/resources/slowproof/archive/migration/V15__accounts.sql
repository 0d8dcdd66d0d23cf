-- Who may use an archive that others can reach. An account is closed, never removed: its name stands in the history.
create table account (
  name text primary key,
  role text not null,
  hash text not null,
  added_at text not null,
  changed_at text not null,
  closed bigint not null
);
