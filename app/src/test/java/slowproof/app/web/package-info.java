@NullMarked
package slowproof.app.web;

import org.jspecify.annotations.NullMarked;
