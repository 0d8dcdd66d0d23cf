package slowproof.app.web;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import slowproof.app.text.ForecastText;
import slowproof.trial.forecast.Forecast;
import slowproof.wording.LineReply;
import slowproof.wording.Wording;

/**
 * What the page of a line shows.
 *
 * @param id trial
 * @param title its title
 * @param materials surfaces to choose from, none while the trial has no passes
 * @param material the one chosen, empty when there is none
 * @param fields texts of the form by field, as typed
 * @param slider the slider of the creep speed, or null when the line was not understood
 * @param answer the answer, or null when the line cannot be driven
 * @param query the line as the end of an address, for its files and charts
 */
public record LineView(
        String id,
        String title,
        List<String> materials,
        String material,
        Map<String, String> fields,
        @Nullable CreepSlider slider,
        @Nullable Answer answer,
        String query) {
    /** Copies the parts. */
    public LineView {
        materials = List.copyOf(materials);
        fields = Map.copyOf(fields);
    }

    /**
     * The answer for the line with the creep speed of the slider.
     *
     * @param style class of the answer: good, bad, open or none
     * @param lead the answer in two sentences; one when there are no figures
     * @param more what it rests on, as sentences
     * @param strip the piece, or null without figures
     * @param promises answers to what would still hold; none while a slider moves
     * @param changes what one change buys, most first; none while a slider moves
     * @param gaps what the trial does not cover
     */
    public record Answer(
            String style,
            List<String> lead,
            List<String> more,
            @Nullable PieceStrip strip,
            List<String> promises,
            List<String> changes,
            List<String> gaps) {
        /** Copies the lists, and keeps figures with their units on one line. */
        public Answer {
            lead = together(lead);
            more = together(more);
            promises = together(promises);
            changes = together(changes);
            gaps = together(gaps);
        }

        private static List<String> together(List<String> sentences) {
            return sentences.stream().map(Show::together).toList();
        }

        static Answer of(Forecast forecast, @Nullable PieceStrip strip, Wording wording) {
            List<String> sentences = LineReply.answer(forecast, wording);
            Forecast.Figures figures = forecast.figures();
            if (figures == null) {
                return new Answer("none", sentences, List.of(), null, List.of(), List.of(), List.of());
            }
            List<String> more = new ArrayList<>(sentences.subList(2, sentences.size()));
            more.addAll(ForecastText.basis(forecast, figures, wording));
            return new Answer(
                    Show.styleOf(figures.decision()),
                    sentences.subList(0, 2),
                    more,
                    strip,
                    figures.changes().isEmpty() ? List.of() : ForecastText.promises(figures.promises(), wording),
                    figures.changes().stream()
                            .map(change -> ForecastText.change(change, wording))
                            .toList(),
                    LineReply.coverage(forecast, wording));
        }

        /** Returns whether there are figures. */
        public boolean hasFigures() {
            return strip != null;
        }
    }
}
