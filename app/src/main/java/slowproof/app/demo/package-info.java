/**
 * The invented scenario on which the demo opens: a plant that cuts acoustic felt, aluminium-faced glass fabric and clear film,
 * with what its bench has tried, what was asked and what customers sent. No real plant, sensor, material or customer is meant.
 *
 * <p>Entry point: {@link slowproof.app.demo.DemoArchive}.
 */
@NullMarked
package slowproof.app.demo;

import org.jspecify.annotations.NullMarked;
