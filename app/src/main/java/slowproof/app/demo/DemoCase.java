package slowproof.app.demo;

import java.util.List;
import slowproof.archive.NewEvent;
import slowproof.archive.sheet.FactName;
import slowproof.archive.sheet.Sheet;
import slowproof.archive.typed.Typed;

/**
 * A trial of the scenario as it is kept.
 *
 * @param daysAgo how many days ago it was run
 * @param events what was recorded after its start
 */
record DemoCase(int daysAgo, List<NewEvent> events) {
    /** Copies the list. */
    DemoCase {
        events = List.copyOf(events);
    }

    static NewEvent fact(FactName name, String text) {
        return Sheet.noting(
                name, new Typed(text, Typed.NOTHING.mark(), Typed.NOTHING.lengthUnit(), Typed.NOTHING.speedUnit()));
    }
}
