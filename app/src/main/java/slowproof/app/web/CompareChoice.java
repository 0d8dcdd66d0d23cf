package slowproof.app.web;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import slowproof.archive.UnknownTrialException;
import slowproof.archive.sheet.Sheet;
import slowproof.report.findings.CompareChart;
import slowproof.trial.compare.Line;
import slowproof.trial.findings.Findings;
import slowproof.trial.findings.Material;
import slowproof.wording.Wording;

/**
 * Which results are compared, as it stands in an address: {@code line=TRIAL.SURFACE.SETUP} for one result of a trial,
 * the surface by its number and the set-up by its name; {@code trial=TRIAL} for all results of one.
 *
 * @param chosen results, the one to compare with first
 * @param tooMany whether more were asked for than can be told apart
 * @param missing whether one that was asked for is not there
 */
record CompareChoice(List<Chosen> chosen, boolean tooMany, boolean missing) {
    private static final Pattern FORM = Pattern.compile("([a-z0-9]{4,40})\\.([0-9]{1,3})\\.(.{0,200})", Pattern.DOTALL);

    /** Copies the list. */
    CompareChoice {
        chosen = List.copyOf(chosen);
    }

    /**
     * A result that is compared.
     *
     * @param key how it stands in an address
     * @param title title of its trial
     * @param sensor sensor of its trial, empty when unknown
     * @param line the result
     */
    record Chosen(String key, String title, String sensor, Line line) {}

    static CompareChoice of(Visit visit, Site site) {
        return new Reading(visit, site).read();
    }

    /** Reads an address; used once. */
    private static final class Reading {
        private final Visit visit;
        private final Site site;
        private final Map<String, Optional<List<Chosen>>> trials = new HashMap<>();

        Reading(Visit visit, Site site) {
            this.visit = visit;
            this.site = site;
        }

        CompareChoice read() {
            Set<Chosen> found = new LinkedHashSet<>();
            boolean missing = false;
            for (String key : visit.context().queryParams("line")) {
                Matcher form = FORM.matcher(key);
                Optional<Chosen> one = form.matches()
                        ? all(form.group(1)).stream()
                                .filter(chosen -> chosen.key().equals(key))
                                .findFirst()
                        : Optional.empty();
                one.ifPresent(found::add);
                missing |= one.isEmpty();
            }
            for (String trial : visit.context().queryParams("trial")) {
                List<Chosen> all = all(trial);
                found.addAll(all);
                missing |= all.isEmpty();
            }
            List<Chosen> list = new ArrayList<>(found);
            boolean tooMany = list.size() > CompareChart.MOST;
            return new CompareChoice(tooMany ? list.subList(0, CompareChart.MOST) : list, tooMany, missing);
        }

        private List<Chosen> all(String trial) {
            return trials.computeIfAbsent(trial, this::evaluated).orElse(List.of());
        }

        private Optional<List<Chosen>> evaluated(String trial) {
            Sheet sheet = sheet(trial);
            if (sheet == null) {
                return Optional.empty();
            }
            Wording wording = visit.wording();
            Findings findings = site.evaluated(sheet, wording).findings();
            if (findings == null) {
                return Optional.empty();
            }
            List<String> materials =
                    findings.materials().stream().map(Material::material).toList();
            String sensor = sheet.facts().sensor();
            String title = TrialPage.title(sheet, wording, site.zone());
            return Optional.of(Line.of(trial, findings).stream()
                    .map(line -> new Chosen(
                            key(trial, materials.indexOf(line.material()), line.setup()), title, sensor, line))
                    .toList());
        }

        private @Nullable Sheet sheet(String trial) {
            try {
                return site.archive().sheet(trial);
            } catch (UnknownTrialException e) {
                return null;
            }
        }
    }

    static String key(String trial, int surface, String setup) {
        return trial + "." + surface + "." + setup;
    }
}
