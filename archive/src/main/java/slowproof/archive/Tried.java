package slowproof.archive;

import slowproof.archive.summary.SurfaceSummary;

/**
 * A surface that a trial tried.
 *
 * @param entry the trial
 * @param place number of the surface in the trial, from 0
 * @param surface what the trial says about it
 */
public record Tried(TrialEntry entry, int place, SurfaceSummary surface) {}
