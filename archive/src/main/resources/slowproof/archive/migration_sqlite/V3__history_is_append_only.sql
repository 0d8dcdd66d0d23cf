create trigger event_is_never_changed before update on event
begin
  select raise(abort, 'what was recorded is never changed');
end;
create trigger event_is_never_removed before delete on event
begin
  select raise(abort, 'what was recorded is never removed');
end;
create trigger kept_file_is_never_changed before update on kept_file
begin
  select raise(abort, 'what was recorded is never changed');
end;
create trigger kept_file_is_never_removed before delete on kept_file
begin
  select raise(abort, 'what was recorded is never removed');
end;
create trigger result_is_never_changed before update on result
begin
  select raise(abort, 'what was recorded is never changed');
end;
create trigger result_is_never_removed before delete on result
begin
  select raise(abort, 'what was recorded is never removed');
end;
