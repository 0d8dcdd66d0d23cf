-- What lists and searches need of a trial. Everything here is derived from its events; a row that another version of
-- the program made, or an older state of the trial, is made anew. One text for SQLite and PostgreSQL.
create table summary (
  trial_id text primary key references trial (id),
  program text not null,
  attention text not null,
  urgency bigint not null,
  passes bigint not null,
  sensor text not null,
  sensor_key text not null,
  standing text not null,
  slowest double precision,
  fastest double precision,
  holds_from double precision
);
create index summary_by_program on summary (program);

-- One row a surface of a trial, in the order of the trial. Speeds in mm/s, accelerations in mm/s2, lengths in mm.
create table summary_surface (
  trial_id text not null references trial (id),
  place bigint not null,
  material text not null,
  material_key text not null,
  standing text not null,
  floor_status text not null,
  slowest double precision not null,
  fastest double precision not null,
  fails_at double precision,
  holds_from double precision,
  floor_estimate double precision,
  slowest_acceleration double precision,
  fastest_acceleration double precision,
  shortest double precision not null,
  longest double precision not null,
  limit_ratio double precision,
  limit_mm double precision,
  reference_known bigint not null,
  primary key (trial_id, place)
);
create index summary_surface_by_material on summary_surface (material_key);

-- One row a condition of a surface in one direction; errors and uncertainties are ratios.
create table summary_condition (
  trial_id text not null,
  place bigint not null,
  row_number bigint not null,
  setup text not null,
  direction text not null,
  speed double precision not null,
  acceleration double precision,
  passes bigint not null,
  length double precision not null,
  error double precision not null,
  uncertainty double precision not null,
  pass_uncertainty double precision,
  pass_freedom double precision,
  primary key (trial_id, place, row_number)
);
