package undersong.reading;

import static org.assertj.core.api.Assertions.assertThat;

import java.lang.reflect.Constructor;
import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.RecordComponent;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import undersong.time.BeatGrid;

/**
 * A value's essence leaves out how sure it is, and nothing else: each part of each sample value is
 * changed by itself, and the essence must follow. A component forgotten in an {@code essence()}
 * would let dependents sleep through a change; a probability left in would wake them for nothing.
 */
class EssenceTest {
  private static final Set<String> HOW_SURE =
      Set.of("probability", "runnersUp", "otherTempi", "otherSignatures");

  /** A value with one part changed. */
  private record Variant(String path, boolean howSure, Object value) {}

  static Stream<Facet<?>> facets() {
    return Facet.IN_ORDER.stream();
  }

  @ParameterizedTest
  @MethodSource("facets")
  void essenceLeavesOutHowSureAndNothingElse(Facet<?> facet) {
    FacetValue sample = SampleReadings.full().get(facet);
    List<Variant> variants = variants("", false, sample);
    assertThat(variants).as("variants of %s", facet).hasSizeGreaterThan(1);
    for (Variant variant : variants) {
      Object essence = ((FacetValue) variant.value()).essence();
      assertThat(essence.equals(sample.essence()))
          .as("%s keeps its essence when %s changes", facet, variant.path())
          .isEqualTo(variant.howSure());
    }
  }

  private static List<Variant> variants(String path, boolean howSure, Object value) {
    List<Variant> found = new ArrayList<>();
    if (value instanceof Record whole) {
      ofRecord(path, howSure, whole, found);
    } else if (value instanceof List<?> list) {
      ofList(path, howSure, list, found);
    } else if (value instanceof Optional<?> optional && optional.isPresent()) {
      found.add(new Variant(path, howSure, Optional.empty()));
    } else {
      for (Object changed : changes(value)) {
        found.add(new Variant(path, howSure, changed));
      }
    }
    return found;
  }

  @SuppressWarnings("EnumOrdinal") // any other constant will do
  private static Object another(Enum<?> constant) {
    Object[] all = constant.getDeclaringClass().getEnumConstants();
    return all[(constant.ordinal() + 1) % all.length];
  }

  /** Two other values where there are two, so that one survives the checks of its owner. */
  private static List<Object> changes(Object value) {
    if (value instanceof Double number) {
      return List.of(number + 0.001, number - 0.001);
    }
    if (value instanceof Integer number) {
      return List.of(number + 1, number - 1);
    }
    if (value instanceof Boolean truth) {
      return List.of(!truth);
    }
    if (value instanceof String text) {
      return List.of(text + "x");
    }
    if (value instanceof OptionalDouble number) {
      return List.of(OptionalDouble.of(number.orElse(60) + 1));
    }
    if (value instanceof Enum<?> constant) {
      return List.of(another(constant));
    }
    if (value instanceof BeatGrid grid) {
      double[] moved = grid.toArray();
      moved[moved.length - 1] += 0.01;
      return List.of(BeatGrid.of(moved));
    }
    return List.of();
  }

  private static void ofList(String path, boolean howSure, List<?> list, List<Variant> found) {
    for (int i = 0; i < list.size(); i++) {
      for (Variant part : variants(path + "[" + i + "]", howSure, list.get(i))) {
        List<Object> copy = new ArrayList<>(list);
        copy.set(i, part.value());
        found.add(new Variant(part.path(), part.howSure(), copy));
      }
    }
  }

  private static void ofRecord(String path, boolean howSure, Record whole, List<Variant> found) {
    RecordComponent[] components = whole.getClass().getRecordComponents();
    Object[] parts = Arrays.stream(components).map(c -> part(c, whole)).toArray();
    for (int i = 0; i < parts.length; i++) {
      boolean inDoubt = howSure || HOW_SURE.contains(components[i].getName());
      for (Variant part : variants(path + "." + components[i].getName(), inDoubt, parts[i])) {
        Object[] changed = parts.clone();
        changed[i] = part.value();
        rebuilt(whole.getClass(), components, changed)
            .ifPresent(value -> found.add(new Variant(part.path(), part.howSure(), value)));
      }
    }
  }

  private static Object part(RecordComponent component, Record whole) {
    try {
      component.getAccessor().setAccessible(true);
      return component.getAccessor().invoke(whole);
    } catch (ReflectiveOperationException e) {
      throw new LinkageError(e.getMessage(), e);
    }
  }

  /** Empty where the record's own checks refuse the change. */
  private static Optional<Object> rebuilt(
      Class<?> type, RecordComponent[] components, Object[] parts) {
    try {
      Constructor<?> canonical =
          type.getDeclaredConstructor(
              Arrays.stream(components).map(RecordComponent::getType).toArray(Class<?>[]::new));
      canonical.setAccessible(true);
      return Optional.of(canonical.newInstance(parts));
    } catch (InvocationTargetException refused) {
      return Optional.empty();
    } catch (ReflectiveOperationException e) {
      throw new LinkageError(e.getMessage(), e);
    }
  }
}
