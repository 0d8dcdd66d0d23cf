package slowproof.report.chart;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.StringReader;
import java.util.List;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Document;
import org.xml.sax.InputSource;

/** Both painters get the same chart and leave nothing of it out. */
class PaintersTest {
    private static final Chart CHART = new Chart(
            "Error against speed: felt \"A\" & B",
            "It holds from 50 mm/s.",
            Axis.decades("speed in mm/s", 5, 500),
            Axis.linear("error in %", -1, 1),
            ',',
            List.of(
                    new Layer.Region("not tested", Tone.MUTED, 5, 8),
                    new Layer.Band(
                            "band", Tone.ACCENT, List.of(new Place(10, 0, -0.1, 0.1), new Place(100, 0, -0.2, 0.2))),
                    new Layer.Guide("floor", Tone.OPEN, Stroke.SOLID, true, 50, 45, 55),
                    Layer.Guide.at("limit", Tone.INK, Stroke.DASHED, false, 0.2),
                    new Layer.Line("curve", Tone.ACCENT, Stroke.DOTTED, List.of(Place.of(10, 0.1), Place.of(100, 0))),
                    new Layer.Points("means", Tone.GOOD, Symbol.DISC, List.of(new Place(20, 0.1, 0.05, 0.15))),
                    new Layer.Points("bad", Tone.BAD, Symbol.CROSS, List.of(Place.of(10, -0.5)))));

    @Test
    void svgIsWellFormedTextAndLinesAndNamesEverything() throws Exception {
        String svg = Svg.of(CHART, 800, 420);
        DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
        factory.setNamespaceAware(true);
        Document document = factory.newDocumentBuilder().parse(new InputSource(new StringReader(svg)));
        assertThat(document.getDocumentElement().getAttribute("viewBox")).isEqualTo("0 0 800 420");
        assertThat(document.getElementsByTagName("title").item(0).getTextContent())
                .isEqualTo(CHART.title());
        assertThat(document.getElementsByTagName("desc").item(0).getTextContent())
                .isEqualTo(CHART.description());
        assertThat(document.getElementsByTagName("image").getLength()).isZero();
        String words = document.getDocumentElement().getTextContent();
        assertThat(words).contains("speed in mm/s", "error in %", "0,2", "\u22120,2", "100", "500");
        for (Layer layer : CHART.layers()) {
            assertThat(words).contains(layer.name());
        }
    }

    @Test
    void aFileThatStandsAloneHasItsTitleDrawn() {
        assertThat(Svg.of(CHART, 800, 420)).doesNotContain("felt &quot;A&quot; &amp; B</text");
        assertThat(Svg.headed(CHART, 800, 420)).containsPattern("felt (\"|&quot;)A(\"|&quot;) &amp; B\\s*</text");
    }

    @Test
    void theIntervalOfAMarkedValueIsHatched() {
        Chart plain = new Chart(
                CHART.title(),
                CHART.description(),
                CHART.x(),
                CHART.y(),
                ',',
                List.of(Layer.Guide.at("floor", Tone.OPEN, Stroke.SOLID, true, 50)));
        Chart interval = new Chart(
                CHART.title(),
                CHART.description(),
                CHART.x(),
                CHART.y(),
                ',',
                List.of(new Layer.Guide("floor", Tone.OPEN, Stroke.SOLID, true, 50, 45, 55)));
        String hatch = "stroke-width:0.6";
        assertThat(Svg.of(plain, 800, 420)).doesNotContain(hatch);
        assertThat(Svg.of(interval, 800, 420)).contains(hatch);
    }

    private static Chart bars(boolean hatched) {
        return new Chart(
                "sources",
                "The curve makes most of it.",
                Axis.linear("standard uncertainty in mm", 0, 0.2),
                Axis.rows(2),
                '.',
                List.of(
                        new Layer.Bars(
                                "shared", Tone.SECOND, hatched, List.of(new Layer.Bar(0, 0.17, "curve: 0.17 mm"))),
                        new Layer.Bars(
                                "new", Tone.ACCENT, false, List.of(new Layer.Bar(1, 0.1, "start \"A\": 0.10 mm")))));
    }

    @Test
    void barsStandInTheirRowsWithTheirTextsAndAreToldApartByHatch() throws Exception {
        String svg = Svg.of(bars(true), 400, 240);
        assertThat(svg).contains("curve: 0.17 mm", "start", "shared", "new").contains("stroke-width:0.6");
        assertThat(Svg.of(bars(false), 400, 240)).doesNotContain("stroke-width:0.6");
        JsonNode json = new ObjectMapper().readTree(PlotJson.of(bars(true)));
        assertThat(json.at("/y/label").textValue()).isEmpty();
        assertThat(json.at("/y/high").doubleValue()).isEqualTo(2);
        assertThat(json.at("/layers/0/kind").textValue()).isEqualTo("bars");
        assertThat(json.at("/layers/0/hatched").booleanValue()).isTrue();
        assertThat(json.at("/layers/1/bars/0/row").intValue()).isEqualTo(1);
        assertThat(json.at("/layers/1/bars/0/length").doubleValue()).isEqualTo(0.1);
        assertThat(json.at("/layers/1/bars/0/label").textValue()).isEqualTo("start \"A\": 0.10 mm");
    }

    @Test
    void theNameOfTheUprightAxisLiesAboveThePlotAndIsNotTurned() throws Exception {
        String svg = Svg.of(CHART, 300, 160);
        assertThat(svg).containsPattern(">error in %\\s*</text").doesNotContain("rotate(");
    }

    @Test
    void theSameChartGivesTheSameSvg() {
        assertThat(Svg.of(CHART, 800, 420)).isEqualTo(Svg.of(CHART, 800, 420));
    }

    @Test
    void jsonHoldsAxesAndLayersInOrder() throws Exception {
        JsonNode json = new ObjectMapper().readTree(PlotJson.of(CHART));
        assertThat(json.at("/x/decades").booleanValue()).isTrue();
        assertThat(json.at("/x/ticks")).hasToString("[5.0,10.0,20.0,50.0,100.0,200.0,500.0]");
        assertThat(json.at("/y/ticks").isMissingNode()).isTrue();
        assertThat(json.at("/y/low").doubleValue()).isEqualTo(-1);
        assertThat(json.at("/mark").textValue()).isEqualTo(",");
        assertThat(json.get("layers")).hasSize(CHART.layers().size());
        assertThat(json.at("/layers/0/kind").textValue()).isEqualTo("region");
        assertThat(json.at("/layers/1/places/1/3").doubleValue()).isEqualTo(0.2);
        assertThat(json.at("/layers/2/upright").booleanValue()).isTrue();
        assertThat(json.at("/layers/2/high").doubleValue()).isEqualTo(55);
        assertThat(json.at("/layers/3/low").isNull()).isTrue();
        assertThat(json.at("/layers/4/dashes")).hasSize(2);
        assertThat(json.at("/layers/5/symbol").textValue()).isEqualTo("disc");
        assertThat(json.at("/layers/6/places/0")).hasSize(2);
    }
}
