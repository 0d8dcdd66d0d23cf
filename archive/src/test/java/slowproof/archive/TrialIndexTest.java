package slowproof.archive;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import slowproof.archive.sheet.FactName;
import slowproof.archive.sheet.Sheet;
import slowproof.archive.sheet.SheetTrial;
import slowproof.archive.summary.Attention;
import slowproof.archive.summary.TrialFilter;
import slowproof.archive.summary.TrialFilter.Order;
import slowproof.archive.summary.TrialRow;
import slowproof.archive.summary.TrialSummary;
import slowproof.archive.typed.Typed;
import slowproof.trial.Trial;
import slowproof.trial.findings.Direction;
import slowproof.trial.findings.Evaluation;
import slowproof.trial.findings.Standing;

class TrialIndexTest {
    @TempDir
    Path folder;

    private Archive archive;
    private TrialIndex index;
    private Instant now = Instant.parse("2026-03-02T08:00:00Z");

    /** Returns a place that holds no archive yet. */
    ArchivePlace place() {
        return new ArchivePlace.Folder(folder);
    }

    @BeforeEach
    void open() {
        archive = Archive.open(place(), new Clock() {
            @Override
            public ZoneId getZone() {
                return ZoneOffset.UTC;
            }

            @Override
            public Clock withZone(ZoneId zone) {
                throw new UnsupportedOperationException();
            }

            @Override
            public Instant instant() {
                now = now.plusSeconds(60);
                return now;
            }
        });
        index = archive.index("1");
    }

    @AfterEach
    void close() {
        archive.close();
    }

    private static Typed typed(String text) {
        return new Typed(text, Typed.NOTHING.mark(), Typed.NOTHING.lengthUnit(), Typed.NOTHING.speedUnit());
    }

    private static NewEvent fact(FactName name, String text) {
        return Sheet.noting(name, typed(text));
    }

    /** A series between 0 and 600 mm with the readings after it. */
    private static List<NewEvent> series(String material, String speed, String... readings) {
        List<NewEvent> events = new ArrayList<>();
        events.add(Sheet.starting(material, typed(speed), "", "0", "600", false));
        events.add(Sheet.reading(typed("0.0"), "", true));
        for (String reading : readings) {
            events.add(Sheet.reading(typed(reading), "", false));
        }
        return events;
    }

    /** Holds 0.15 % at 100 mm/s and fails at 25 mm/s: errors of 0.2 and 2.5 mm on 600 mm. */
    private String felt(String title) {
        List<NewEvent> events = new ArrayList<>(List.of(
                fact(FactName.TITLE, title),
                fact(FactName.SENSOR_NAME, "bench unit"),
                fact(FactName.SENSOR_SERIAL, "7"),
                fact(FactName.LIMIT_PERCENT, "0.15"),
                fact(FactName.REFERENCE_UNCERTAINTY, "0.02")));
        events.addAll(series("Felt, grey", "100", "600.2", "0.1", "600.3", "0.1", "600.3", "0.2"));
        events.addAll(series("Felt, grey", "25", "602.4", "0.2", "602.5", "0.1", "602.6", "0.2"));
        return archive.start(events);
    }

    private void bringUpToDate() {
        for (String id : index.outOfDate(100)) {
            Sheet sheet = archive.sheet(id);
            Trial trial = SheetTrial.of(sheet, "", ZoneOffset.UTC).trial();
            assertThat(index.keep(TrialSummary.of(sheet, trial == null ? null : Evaluation.of(trial))))
                    .isTrue();
        }
        assertThat(index.outOfDate(100)).isEmpty();
    }

    private List<String> titles(TrialFilter filter, Order order) {
        List<String> titles = index.rows(filter, order, 0, 10).stream()
                .map(row -> row.entry().title())
                .toList();
        assertThat(index.count(filter)).isEqualTo(titles.size());
        return titles;
    }

    private static TrialFilter tested(String material, Double from, Double to, Standing standing) {
        return new TrialFilter("", material, "", from, to, standing, null, "", "");
    }

    @Test
    void summarySaysWhatTheFindingsSay() {
        felt("one");
        bringUpToDate();
        TrialRow row = index.rows(TrialFilter.ALL, Order.ATTENTION, 0, 10).get(0);
        assertThat(row.known()).isTrue();
        assertThat(row.attention()).isEqualTo(Attention.NONE);
        assertThat(row.passes()).isEqualTo(12);
        assertThat(row.sensor()).isEqualTo("bench unit 7");
        assertThat(row.surfaces()).singleElement().satisfies(surface -> {
            assertThat(surface.material()).isEqualTo("Felt, grey");
            assertThat(surface.standing()).isEqualTo(Standing.PARTLY);
            assertThat(surface.slowestMmPerS()).isEqualTo(25);
            assertThat(surface.fastestMmPerS()).isEqualTo(100);
            assertThat(surface.holdsFromMmPerS()).isEqualTo(100);
            assertThat(surface.failsAtMmPerS()).isEqualTo(25);
            assertThat(surface.slowestAccelerationMmPerS2()).isNull();
            assertThat(surface.limitRatio()).isEqualTo(0.0015);
        });
        Near near = index.near(Set.of("felt grey")).get(0);
        Tried tried = index.tried(near.trial(), near.place()).orElseThrow();
        assertThat(near.evidence().slowestMmPerS()).isEqualTo(25);
        assertThat(near.evidence().longestMm()).isEqualTo(tried.surface().longestMm());
        assertThat(index.tried("none", 0)).isEmpty();
        assertThat(tried.surface().conditions()).hasSize(4);
        assertThat(tried.surface().conditions().get(2)).satisfies(condition -> {
            // readings 0.0 600.2 0.1 600.3 0.1 600.3: forward errors 0.2, 0.2, 0.2 mm on 600 mm
            assertThat(condition.speedMmPerS()).isEqualTo(100);
            assertThat(condition.direction()).isEqualTo(Direction.FORWARD);
            assertThat(condition.error() * 600).isCloseTo(0.2, within(1e-9));
        });
        assertThat(tried.surface().evidence().points()).hasSize(4);
    }

    @Test
    void anEventOrAnotherProgramMakesASummaryOutOfDate() {
        String id = felt("one");
        assertThat(index.outOfDate(10)).containsExactly(id);
        bringUpToDate();
        assertThat(archive.index("2").outOfDate(10)).containsExactly(id);
        archive.append(id, "", List.of(fact(FactName.TITLE, "two")));
        assertThat(index.outOfDate(10)).containsExactly(id);
        TrialRow row = index.rows(TrialFilter.ALL, Order.CHANGED, 0, 10).get(0);
        assertThat(row.known()).isFalse();
        assertThat(row.entry().title()).isEqualTo("two");
        assertThat(row.surfaces())
                .as("what was known stays until it is known better")
                .hasSize(1);
    }

    @Test
    void aSummaryOfAnOlderStateIsNotKept() {
        String id = felt("one");
        TrialSummary old = TrialSummary.of(archive.sheet(id), null);
        archive.append(id, "", List.of(fact(FactName.TITLE, "two")));
        assertThat(index.keep(old)).isFalse();
        assertThat(index.outOfDate(10)).containsExactly(id);
    }

    @Test
    void filtersAndOrders() {
        felt("Felt at the cutter");
        archive.start(List.of(fact(FactName.TITLE, "begun")));
        List<NewEvent> away = new ArrayList<>(series("Clear film", "50", "600.2", "0.0", "600.2"));
        away.add(0, fact(FactName.TITLE, "away"));
        archive.start(away);
        List<NewEvent> noLimit = new ArrayList<>(series("Clear film", "400", "600.2", "0.0"));
        noLimit.add(0, fact(FactName.TITLE, "no limit"));
        archive.start(noLimit);
        bringUpToDate();
        assertThat(titles(TrialFilter.ALL, Order.ATTENTION))
                .containsExactly("away", "begun", "no limit", "Felt at the cutter");
        assertThat(titles(TrialFilter.ALL, Order.CHANGED))
                .containsExactly("no limit", "away", "begun", "Felt at the cutter");
        assertThat(titles(TrialFilter.ALL, Order.TITLE))
                .containsExactly("away", "begun", "Felt at the cutter", "no limit");
        assertThat(titles(TrialFilter.ALL, Order.SLOWEST))
                .containsExactly("Felt at the cutter", "away", "no limit", "begun");
        assertThat(titles(TrialFilter.ALL, Order.HOLDS_FROM)).startsWith("Felt at the cutter");
        assertThat(titles(tested("grey FELT", null, null, null), Order.TITLE)).containsExactly("Felt at the cutter");
        assertThat(titles(tested("film", null, 60.0, null), Order.TITLE)).containsExactly("away");
        assertThat(titles(tested("", 101.0, null, null), Order.TITLE)).containsExactly("no limit");
        assertThat(titles(tested("", 60.0, 90.0, null), Order.TITLE)).containsExactly("Felt at the cutter");
        assertThat(titles(tested("", null, null, Standing.PARTLY), Order.TITLE)).containsExactly("Felt at the cutter");
        assertThat(titles(tested("film", null, null, Standing.PARTLY), Order.TITLE))
                .isEmpty();
        assertThat(titles(new TrialFilter("", "", "UNIT bench", null, null, null, null, "", ""), Order.TITLE))
                .containsExactly("Felt at the cutter");
        assertThat(titles(new TrialFilter("cutter", "", "", null, null, null, null, "", ""), Order.TITLE))
                .containsExactly("Felt at the cutter");
        assertThat(titles(new TrialFilter("", "", "", null, null, null, Attention.BEGUN, "", ""), Order.TITLE))
                .containsExactly("begun");
        String third = index.rows(TrialFilter.ALL, Order.CHANGED, 1, 1)
                .get(0)
                .entry()
                .changedAt()
                .toString();
        assertThat(titles(new TrialFilter("", "", "", null, null, null, null, third, ""), Order.CHANGED))
                .containsExactly("no limit", "away");
        assertThat(titles(new TrialFilter("", "", "", null, null, null, null, "", third), Order.CHANGED))
                .containsExactly("begun", "Felt at the cutter");
        assertThat(index.waiting())
                .containsEntry(Attention.HALF_WAY, 1)
                .containsEntry(Attention.BEGUN, 1)
                .containsEntry(Attention.NO_LIMIT, 1)
                .doesNotContainKey(Attention.NONE);
        assertThat(index.materials()).containsEntry("felt grey", "Felt, grey").hasSize(2);
    }

    @Test
    void letteringOfAFilterIsTakenLiterally() {
        felt("100%_sure");
        bringUpToDate();
        assertThat(titles(new TrialFilter("0%_s", "", "", null, null, null, null, "", ""), Order.TITLE))
                .hasSize(1);
        assertThat(titles(new TrialFilter("0%s", "", "", null, null, null, null, "", ""), Order.TITLE))
                .isEmpty();
        assertThat(titles(tested("felt' or 1=1", null, null, null), Order.TITLE))
                .isEmpty();
    }
}
