create function slowproof_refuse() returns trigger language plpgsql as $$
begin
  raise exception 'what was recorded is never changed or removed (% on %)', tg_op, tg_table_name;
end
$$;
create trigger event_is_append_only before update or delete or truncate on event
  for each statement execute function slowproof_refuse();
create trigger kept_file_is_append_only before update or delete or truncate on kept_file
  for each statement execute function slowproof_refuse();
create trigger result_is_append_only before update or delete or truncate on result
  for each statement execute function slowproof_refuse();

-- The order of times and ids must not depend on the language of the server.
alter table trial alter column id type text collate "C";
alter table trial alter column started_at type text collate "C";
alter table trial alter column changed_at type text collate "C";
