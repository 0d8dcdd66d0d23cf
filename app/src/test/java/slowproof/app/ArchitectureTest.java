package slowproof.app;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.Architectures.layeredArchitecture;

import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;

/** The layers point one way, and the inner ones stay pure. */
@AnalyzeClasses(packages = "slowproof", importOptions = ImportOption.DoNotIncludeTests.class)
class ArchitectureTest {

    @ArchTest
    static final ArchRule layersPointDown = layeredArchitecture()
            .consideringOnlyDependenciesInLayers()
            .layer("app")
            .definedBy("slowproof.app..")
            .layer("files")
            .definedBy("slowproof.files..")
            .optionalLayer("report")
            .definedBy("slowproof.report..")
            .optionalLayer("archive")
            .definedBy("slowproof.archive..")
            .optionalLayer("capture")
            .definedBy("slowproof.capture..")
            .layer("wording")
            .definedBy("slowproof.wording..")
            .layer("trial")
            .definedBy("slowproof.trial..")
            .layer("metrology")
            .definedBy("slowproof.metrology..")
            .whereLayer("app")
            .mayNotBeAccessedByAnyLayer()
            .whereLayer("files")
            .mayOnlyBeAccessedByLayers("app")
            .whereLayer("report")
            .mayOnlyBeAccessedByLayers("app")
            .whereLayer("archive")
            .mayOnlyBeAccessedByLayers("app")
            .whereLayer("capture")
            .mayOnlyBeAccessedByLayers("app")
            .whereLayer("wording")
            .mayOnlyBeAccessedByLayers("app", "files", "report", "archive", "capture")
            .whereLayer("trial")
            .mayOnlyBeAccessedByLayers("app", "files", "report", "archive", "capture", "wording")
            .because("data flows one way: from files to the trial, from the trial to metrology");

    // buffers of java.nio are views of memory: what lies behind them is the business of the layer that hands them in
    @ArchTest
    static final ArchRule innerLayersDoNoInputOrOutput = noClasses()
            .that()
            .resideInAnyPackage("slowproof.trial..", "slowproof.metrology..")
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage(
                    "java.io..",
                    "java.nio.file..",
                    "java.nio.channels..",
                    "java.net..",
                    "java.sql..",
                    "java.util.logging..",
                    "org.slf4j..")
            .because("metrology and trial compute; files, pages and ports belong to the layers around them");

    @ArchTest
    static final ArchRule innerLayersReadNoClockAndDrawNoHiddenRandomNumbers = noClasses()
            .that()
            .resideInAnyPackage("slowproof.trial..", "slowproof.metrology..")
            .should()
            .callMethod(System.class, "nanoTime")
            .orShould()
            .callMethod(System.class, "currentTimeMillis")
            .orShould()
            .callMethod(Math.class, "random")
            .orShould()
            .dependOnClassesThat()
            .haveFullyQualifiedName("java.time.Clock")
            .orShould()
            .dependOnClassesThat()
            .haveFullyQualifiedName("java.util.concurrent.ThreadLocalRandom")
            .because("the same input and seed must always give the same output");

    @ArchTest
    static final ArchRule theSimulatorJudgesTheModelAndDoesNotUseIt = noClasses()
            .that()
            .resideInAPackage("slowproof.trial.simulator..")
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage("slowproof.trial.spectrum..", "slowproof.trial.curve..")
            .because("what judges the error curve must not share its code");

    @ArchTest
    static final ArchRule metrologyHasNeverHeardOfASensor = noClasses()
            .that()
            .resideInAPackage("slowproof.metrology..")
            .should()
            .dependOnClassesThat()
            .resideInAPackage("slowproof.trial..");
}
