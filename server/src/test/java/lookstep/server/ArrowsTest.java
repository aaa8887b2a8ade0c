package lookstep.server;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import java.net.DatagramSocket;
import java.nio.channels.DatagramChannel;
import java.time.Clock;
import java.time.Instant;
import java.util.concurrent.Executor;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The arrows between the parts, as DEVELOPERS.md draws them. */
class ArrowsTest {
    private static final JavaClasses OURS =
            new ClassFileImporter()
                    .withImportOption(ImportOption.Predefined.DO_NOT_INCLUDE_TESTS)
                    .importPackages("lookstep");

    /** A rule over nothing always holds: so look first. */
    @ParameterizedTest
    @CsvSource({
        "lookstep.protocols.dmx, 4",
        "lookstep.protocols.wire, 14",
        "lookstep.protocols.sacn, 10",
        "lookstep.protocols.ptpip, 30",
        "lookstep.protocols.fixture, 10",
        "lookstep.protocols.image, 5",
        "lookstep.protocols.gdtf, 20",
        "lookstep.simulator.model, 30",
        "lookstep.simulator.gear, 8",
        "lookstep.server.plan, 40",
        "lookstep.server.plan.edit, 20",
        "lookstep.server.order, 20",
        "lookstep.server.window, 8",
        "lookstep.server.desk, 4",
        "lookstep.server.look, 18",
        "lookstep.server.checks, 30",
        "lookstep.server.patch, 9",
        "lookstep.server.paper, 20",
        "lookstep.server.fixture, 10",
        "lookstep.server.lighting, 6",
        "lookstep.server.live, 6",
        "lookstep.server.output, 10",
        "lookstep.server.frames, 8",
        "lookstep.server.ptpip, 12",
        "lookstep.server.prediction, 3",
        "lookstep.server.suggest, 20",
        "lookstep.server.intake, 1",
        "lookstep.server.gear, 1",
        "lookstep.server.loop, 1",
        "lookstep.server.disk, 5",
        "lookstep.server.ftp, 12",
        "lookstep.server.keeping, 6",
        "lookstep.server.framecheck, 15",
        "lookstep.server.rehearsal, 1",
        "lookstep.server.web, 8",
        "lookstep.server.cli, 5"
    })
    void thereIsSomethingToLookAt(String part, int least) {
        long found = OURS.stream().filter(c -> c.getPackageName().startsWith(part)).count();
        assertTrue(found >= least, part + " has " + found + " classes");
    }

    @Test
    void protocolsKnowTheJdkAndTheSerialLibraryAlone() {
        classes()
                .that()
                .resideInAPackage("lookstep.protocols..")
                .should()
                .onlyDependOnClassesThat()
                .resideInAnyPackage("lookstep.protocols..", "java..", "javax..", "com.fazecast..")
                .check(OURS);
        noClasses()
                .that()
                .resideOutsideOfPackage("lookstep.protocols.wire")
                .should()
                .dependOnClassesThat()
                .resideInAPackage("com.fazecast..")
                .check(OURS);
    }

    @Test
    void networkPacketsKnowTheirSlotsAlone() {
        classes()
                .that()
                .resideInAPackage("lookstep.protocols.sacn..")
                .should()
                .onlyDependOnClassesThat()
                .resideInAnyPackage(
                        "lookstep.protocols.sacn..", "lookstep.protocols.dmx..", "java..")
                .check(OURS);
    }

    /** The lights' own socket is in simulator.gear; the pages' is Undertow's. */
    @Test
    void onlyTheWireOpensDatagramSockets() {
        noClasses()
                .that()
                .resideInAnyPackage("lookstep.protocols..", "lookstep.server..")
                .and()
                .resideOutsideOfPackage("lookstep.protocols.wire")
                .should()
                .dependOnClassesThat()
                .areAssignableTo(DatagramChannel.class)
                .orShould()
                .dependOnClassesThat()
                .areAssignableTo(DatagramSocket.class)
                .check(OURS);
    }

    @Test
    void protocolsHaveNoThreadsAndNoClock() {
        noClasses()
                .that()
                .resideInAPackage("lookstep.protocols..")
                .should()
                .callMethod(Thread.class, "start")
                .orShould()
                .dependOnClassesThat()
                .resideInAPackage("java.util.concurrent")
                .orShould()
                .callMethod(System.class, "nanoTime")
                .orShould()
                .callMethod(System.class, "currentTimeMillis")
                .check(OURS);
    }

    @Test
    void theModelKnowsTheJdkAlone() {
        classes()
                .that()
                .resideInAPackage("lookstep.simulator.model..")
                .should()
                .onlyDependOnClassesThat()
                .resideInAnyPackage("lookstep.simulator.model..", "java..", "javax..")
                .check(OURS);
    }

    @Test
    void gearKnowsModelAndProtocolsAlone() {
        classes()
                .that()
                .resideInAPackage("lookstep.simulator.gear..")
                .should()
                .onlyDependOnClassesThat()
                .resideInAnyPackage(
                        "lookstep.simulator..",
                        "lookstep.protocols..",
                        "org.apache.commons.net..",
                        "java..",
                        "javax..")
                .check(OURS);
    }

    @ParameterizedTest
    @CsvSource({
        "lookstep.simulator.gear.., lookstep.server.rehearsal..",
        "lookstep.protocols.gdtf.., lookstep.server.fixture..",
        "lookstep.protocols.ptpip.., lookstep.server.ptpip..",
        "io.undertow.., lookstep.server.web..",
        "org.xnio.., lookstep.server.web..",
        "org.apache.ftpserver.., lookstep.server.ftp..",
        "org.apache.mina.., lookstep.server.ftp..",
        "org.apache.pdfbox.., lookstep.server.paper..",
        "org.apache.fontbox.., lookstep.server.paper..",
        "picocli.., lookstep.server.cli..",
        "com.google.zxing.., lookstep.server.cli..",
        "com.fasterxml.jackson.dataformat.., lookstep.server.plan.."
    })
    void oneImporter(String what, String importer) {
        noClasses()
                .that()
                .resideInAPackage("lookstep.server..")
                .and()
                .resideOutsideOfPackage(importer)
                .should()
                .dependOnClassesThat()
                .resideInAPackage(what)
                .check(OURS);
    }

    @Test
    void paperKnowsThePlanAndWhatIsWorkedOutFromItAlone() {
        classes()
                .that()
                .resideInAPackage("lookstep.server.paper..")
                .should()
                .onlyDependOnClassesThat()
                .resideInAnyPackage(
                        "lookstep.server.paper..",
                        "lookstep.server.plan",
                        "lookstep.server.look..",
                        "lookstep.server.disk..",
                        "lookstep.simulator.model..",
                        "lookstep.protocols.dmx..",
                        "lookstep.protocols.fixture..",
                        "org.apache.pdfbox..",
                        "org.apache.fontbox..",
                        "java..")
                .check(OURS);
    }

    @Test
    void looksArePureOfTimeAndThreads() {
        noClasses()
                .that()
                .resideInAnyPackage(
                        "lookstep.server.look..",
                        "lookstep.server.lighting..",
                        "lookstep.server.checks..",
                        "lookstep.server.plan..",
                        "lookstep.server.patch..")
                .should()
                .dependOnClassesThat()
                .areAssignableTo(Thread.class)
                .orShould()
                .callMethod(System.class, "nanoTime")
                .orShould()
                .callMethod(System.class, "currentTimeMillis")
                .check(OURS);
    }

    /** What is worked out is the same whenever, and whoever asks. */
    @Test
    void orderWindowChecksAndEditsKnowNoPagesThreadsOrClock() {
        noClasses()
                .that()
                .resideInAnyPackage(
                        "lookstep.server.order..",
                        "lookstep.server.window..",
                        "lookstep.server.checks..",
                        "lookstep.server.plan.edit..")
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage("io.undertow..", "org.xnio..", "lookstep.server.web..")
                .orShould()
                .dependOnClassesThat()
                .areAssignableTo(Thread.class)
                .orShould()
                .dependOnClassesThat()
                .areAssignableTo(Executor.class)
                .orShould()
                .dependOnClassesThat()
                .areAssignableTo(Clock.class)
                .orShould()
                .callMethod(Instant.class, "now")
                .orShould()
                .callMethod(System.class, "nanoTime")
                .orShould()
                .callMethod(System.class, "currentTimeMillis")
                .check(OURS);
    }

    @Test
    void nobodyDependsOnThePartThatPutsThePartsTogether() {
        noClasses()
                .that()
                .resideInAPackage("lookstep.server.*..")
                .should()
                .dependOnClassesThat()
                .resideInAPackage("lookstep.server")
                .check(OURS);
    }

    @Test
    void thereAreNoCycles() {
        slices().matching("lookstep.protocols.(*)..").should().beFreeOfCycles().check(OURS);
        slices().matching("lookstep.simulator.model.(*)..").should().beFreeOfCycles().check(OURS);
        slices().matching("lookstep.server.(*)..").should().beFreeOfCycles().check(OURS);
    }
}
