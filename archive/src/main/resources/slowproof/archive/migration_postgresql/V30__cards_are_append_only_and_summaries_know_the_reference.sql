-- Questions and samples: what was recorded is never changed or removed, as for trials.
create trigger card_event_is_append_only before update or delete or truncate on card_event
  for each statement execute function slowproof_refuse();

-- Expanded uncertainty of the reference at the length of the passes, a ratio; null when it is not on record.
alter table summary_condition add column reference_uncertainty double precision;
