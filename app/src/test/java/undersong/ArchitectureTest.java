package undersong;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;
import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;
import java.util.stream.Stream;

/** The directions in which packages may use each other, as the design lays them out. */
@AnalyzeClasses(packages = "undersong", importOptions = ImportOption.DoNotIncludeTests.class)
class ArchitectureTest {
  private static final String[] FOUNDATIONS = {
    "undersong.time..", "undersong.theory..", "undersong.work.."
  };

  /** A renamed package must not pass silently: every rule below has classes to judge. */
  @ArchTest
  static void everyPackageHoldsClasses(JavaClasses imported) {
    for (String name :
        new String[] {
          "time",
          "theory",
          "work",
          "audio",
          "feature",
          "reading",
          "expectation",
          "estimate",
          "technique"
        }) {
      assertThat(imported.stream().filter(c -> c.getPackageName().startsWith("undersong." + name)))
          .as("classes below undersong.%s", name)
          .hasSizeGreaterThan(1);
    }
    assertThat(imported.size()).isGreaterThan(50);
  }

  @ArchTest
  static final ArchRule packagesHaveNoCycles =
      slices().matching("undersong.(*)..").should().beFreeOfCycles();

  @ArchTest
  static final ArchRule estimatorsDoNotKnowEachOther =
      slices()
          .matching("undersong.estimate.(*)..")
          .should()
          .notDependOnEachOther()
          .allowEmptyShould(true);

  @ArchTest
  static final ArchRule timeAndTheoryUseOnlyTheJdk =
      classes()
          .that()
          .resideInAnyPackage("undersong.time..", "undersong.theory..")
          .should()
          .onlyDependOnClassesThat()
          .resideInAnyPackage("java..", "undersong.time..", "undersong.theory..");

  @ArchTest
  static final ArchRule kernelsKnowNoMusic =
      classes()
          .that()
          .resideInAPackage("undersong.kernel..")
          .should()
          .onlyDependOnClassesThat()
          .resideInAnyPackage("java..", "undersong.kernel..", "org.jtransforms..")
          .allowEmptyShould(true);

  @ArchTest
  static final ArchRule readingsAreValuesOnly =
      classes()
          .that()
          .resideInAPackage("undersong.reading..")
          .should()
          .onlyDependOnClassesThat()
          .resideInAnyPackage(with("java..", "undersong.reading.."));

  @ArchTest
  static final ArchRule expectationIsToldWhatItKnows =
      classes()
          .that()
          .resideInAPackage("undersong.expectation..")
          .should()
          .onlyDependOnClassesThat()
          .resideInAnyPackage(with("java..", "undersong.expectation..", "undersong.reading.."));

  @ArchTest
  static final ArchRule estimatorsSeeFeaturesAndReadingsOnly =
      classes()
          .that()
          .resideInAPackage("undersong.estimate..")
          .should()
          .onlyDependOnClassesThat()
          .resideInAnyPackage(
              with(
                  "java..",
                  "undersong.estimate..",
                  "undersong.feature..",
                  "undersong.reading..",
                  "undersong.kernel.."));

  @ArchTest
  static final ArchRule findersSeeReadingsOnly =
      classes()
          .that()
          .resideInAPackage("undersong.technique..")
          .should()
          .onlyDependOnClassesThat()
          .resideInAnyPackage(
              with(
                  "java..",
                  "undersong.technique..",
                  "undersong.reading..",
                  "undersong.expectation.."));

  @ArchTest
  static final ArchRule familiesOfFindersDoNotKnowEachOther =
      slices().matching("undersong.technique.(*)..").should().notDependOnEachOther();

  @ArchTest
  static final ArchRule findingsKnowNoFinder =
      noClasses()
          .that()
          .resideInAPackage("undersong.technique")
          .should()
          .dependOnClassesThat()
          .resideInAPackage("undersong.technique.(*)..");

  @ArchTest
  static final ArchRule featuresDoNotKnowReadings =
      noClasses()
          .that()
          .resideInAnyPackage("undersong.audio..", "undersong.feature..", "undersong.kernel..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage("undersong.reading..", "undersong.estimate..", "undersong.study..");

  @ArchTest
  static final ArchRule exchangeKnowsReadingsOnly =
      noClasses()
          .that()
          .resideInAPackage("undersong.exchange..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage(
              "undersong.audio..",
              "undersong.feature..",
              "undersong.estimate..",
              "undersong.study..",
              "undersong.shelf..")
          .allowEmptyShould(true);

  @ArchTest
  static final ArchRule notationKnowsReadingsOnly =
      classes()
          .that()
          .resideInAPackage("undersong.notation..")
          .should()
          .onlyDependOnClassesThat()
          .resideInAnyPackage(with("java..", "undersong.notation..", "undersong.reading.."));

  @ArchTest
  static final ArchRule lessonsNeitherStudyNorKeepSongs =
      noClasses()
          .that()
          .resideInAPackage("undersong.lesson..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage(
              "undersong.audio..",
              "undersong.feature..",
              "undersong.estimate..",
              "undersong.study..",
              "undersong.shelf..");

  @ArchTest
  static final ArchRule facesMakeNoMusicalDecisions =
      noClasses()
          .that()
          .resideInAnyPackage("undersong.cli..", "undersong.desk..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage(
              "undersong.audio..",
              "undersong.feature..",
              "undersong.kernel..",
              "undersong.estimate..")
          .allowEmptyShould(true);

  private static String[] with(String... more) {
    return Stream.concat(Stream.of(FOUNDATIONS), Stream.of(more)).toArray(String[]::new);
  }
}
