package slowproof.report.chart;

import java.util.List;

/** One thing drawn on a chart. The name goes into the legend; an empty name leaves it out there. */
public sealed interface Layer {
    /** Returns the text in the legend. */
    String name();

    /** Returns its tone. */
    Tone tone();

    /**
     * Points, each with its bar.
     *
     * @param name text in the legend
     * @param tone colour
     * @param symbol shape
     * @param places the points
     */
    record Points(String name, Tone tone, Symbol symbol, List<Place> places) implements Layer {
        /** Copies the list. */
        public Points {
            places = List.copyOf(places);
        }
    }

    /**
     * A line through places, in their order.
     *
     * @param name text in the legend
     * @param tone colour
     * @param stroke how it is drawn
     * @param places the corners; NaN as y leaves a gap
     */
    record Line(String name, Tone tone, Stroke stroke, List<Place> places) implements Layer {
        /** Copies the list. */
        public Line {
            places = List.copyOf(places);
        }
    }

    /**
     * The area between the lower and the upper ends of places.
     *
     * @param name text in the legend
     * @param tone colour
     * @param places places with both ends, x ascending
     */
    record Band(String name, Tone tone, List<Place> places) implements Layer {
        /**
         * Copies the list.
         *
         * @throws IllegalArgumentException if a place has no ends
         */
        public Band {
            places = List.copyOf(places);
            if (!places.stream().allMatch(Place::hasBar)) {
                throw new IllegalArgumentException("a band needs both ends at every place");
            }
        }
    }

    /**
     * A value marked across the whole chart.
     *
     * @param name text in the legend
     * @param tone colour
     * @param stroke how it is drawn
     * @param upright true for a value of the horizontal axis
     * @param at the value
     * @param low lower end of its interval, NaN for none
     * @param high upper end, NaN for none
     */
    record Guide(String name, Tone tone, Stroke stroke, boolean upright, double at, double low, double high)
            implements Layer {
        /**
         * Checks the value.
         *
         * @throws IllegalArgumentException if it is not finite
         */
        public Guide {
            if (!Double.isFinite(at)) {
                throw new IllegalArgumentException("a marked value must be finite, not " + at);
            }
        }

        /** Returns a guide without an interval. */
        public static Guide at(String name, Tone tone, Stroke stroke, boolean upright, double at) {
            return new Guide(name, tone, stroke, upright, at, Double.NaN, Double.NaN);
        }

        /** Returns true when it has an interval. */
        public boolean hasInterval() {
            return low <= high;
        }
    }

    /**
     * A range of the horizontal axis, shaded from top to bottom.
     *
     * @param name text in the legend
     * @param tone colour, drawn faint
     * @param low from
     * @param high to, not below {@code low}
     */
    record Region(String name, Tone tone, double low, double high) implements Layer {
        /**
         * Checks the range.
         *
         * @throws IllegalArgumentException if it is not finite and in order
         */
        public Region {
            if (!(Double.isFinite(low) && Double.isFinite(high) && low <= high)) {
                throw new IllegalArgumentException("a shaded range needs finite ends in order: " + low + ", " + high);
            }
        }
    }

    /**
     * Lying bars from 0 on, each in a row of its own with its text above it.
     *
     * @param name text in the legend
     * @param tone colour
     * @param hatched true for faint bars with slanting lines, which stand out from full ones without colour
     * @param bars the bars
     */
    record Bars(String name, Tone tone, boolean hatched, List<Bar> bars) implements Layer {
        /** Copies the list. */
        public Bars {
            bars = List.copyOf(bars);
        }
    }

    /**
     * A bar.
     *
     * @param row row of {@link Axis#rows}, 0 on top
     * @param length where it ends on the horizontal axis, finite
     * @param label text above it
     */
    record Bar(int row, double length, String label) {
        /**
         * Checks the bar.
         *
         * @throws IllegalArgumentException if its row is below 0 or its length not finite
         */
        public Bar {
            if (row < 0 || !Double.isFinite(length)) {
                throw new IllegalArgumentException("a bar needs a row and a finite length: " + row + ", " + length);
            }
        }
    }
}
