-- Questions and samples: what was recorded is never changed or removed, as for trials.
create trigger card_event_is_never_changed before update on card_event
begin
  select raise(abort, 'what was recorded is never changed');
end;
create trigger card_event_is_never_removed before delete on card_event
begin
  select raise(abort, 'what was recorded is never removed');
end;

-- Expanded uncertainty of the reference at the length of the passes, a ratio; null when it is not on record.
alter table summary_condition add column reference_uncertainty double precision;
