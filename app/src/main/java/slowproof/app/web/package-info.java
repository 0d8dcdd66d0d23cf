/**
 * The pages: server-rendered, for one person or one bench, on this machine only. Every page works without script;
 * script adds figures while typing, drafts that outlive the browser, and the chart.
 *
 * <p>Entry point: {@link slowproof.app.web.Server}.
 */
@NullMarked
package slowproof.app.web;

import org.jspecify.annotations.NullMarked;
