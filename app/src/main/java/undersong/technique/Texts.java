package undersong.technique;

import java.text.MessageFormat;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.ResourceBundle;

/** Puts findings into words: the one place where techniques have words, ready for translation. */
public final class Texts {
  private static final List<String> BUNDLES =
      List.of("catalogue", "harmony", "melody", "rhythm", "form", "production");

  private final Locale locale;
  private final List<ResourceBundle> bundles = new ArrayList<>();

  private Texts(Locale locale) {
    this.locale = locale;
    for (String name : BUNDLES) {
      bundles.add(
          ResourceBundle.getBundle(
              "undersong.technique." + name,
              locale,
              ResourceBundle.Control.getNoFallbackControl(
                  ResourceBundle.Control.FORMAT_PROPERTIES)));
    }
  }

  /** The words for a locale; English where nobody has translated them. */
  public static Texts in(Locale locale) {
    return new Texts(locale);
  }

  /** A sentence in words; throws where its key has none. */
  public String say(Sentence sentence) {
    Object[] arguments =
        sentence.arguments().stream()
            .map(argument -> argument instanceof Sentence inner ? say(inner) : argument)
            .toArray();
    return new MessageFormat(words(sentence.key()), locale).format(arguments);
  }

  /** What a finding says, with a capital letter unless it begins with a sign such as bVI. */
  public String summary(Finding finding) {
    String words = say(finding.summary());
    return beginsWithASign(finding.summary())
        ? words
        : words.substring(0, 1).toUpperCase(locale) + words.substring(1);
  }

  private boolean beginsWithASign(Sentence sentence) {
    String format = words(sentence.key());
    if (format.length() < 2 || format.charAt(0) != '{') {
      return false;
    }
    int argument = Character.digit(format.charAt(1), 10);
    return argument >= 0
        && argument < sentence.arguments().size()
        && sentence.arguments().get(argument) instanceof String;
  }

  /** The technique's name as a musician says it. */
  public String name(Technique technique) {
    return words(technique.id() + ".name");
  }

  /** What it is, for a student. */
  public String definition(Technique technique) {
    return words(technique.id() + ".definition");
  }

  public String whatToListenFor(Technique technique) {
    return words(technique.id() + ".listen");
  }

  public String howToTryIt(Technique technique) {
    return words(technique.id() + ".try");
  }

  /**
   * What the same bars are without it, after "hear it"; only for techniques that can be taken out
   * of the notes.
   */
  public String plain(Technique technique) {
    return words(technique.id() + ".plain");
  }

  /** Where the definition comes from. */
  public String source(Technique technique) {
    return words(technique.id() + ".source");
  }

  public String kind(Technique.Kind kind) {
    return words("kind." + kind.name().toLowerCase(Locale.ROOT));
  }

  /** One piece of evidence in words, without its time. */
  public String say(Evidence evidence) {
    if (evidence instanceof Evidence.Heard heard) {
      return say(heard.listenFor());
    }
    if (evidence instanceof Evidence.Measured measured) {
      String bound = measured.bound().name().toLowerCase(Locale.ROOT).replace('_', '-');
      return say(
          Sentence.of(
              "measured." + bound,
              measured.quantity(),
              measured.value(),
              measured.limit(),
              unit(measured.unit())));
    }
    if (evidence instanceof Evidence.Read read) {
      return say(Sentence.of("read", read.facet().name(), read.value()));
    }
    throw new AssertionError(evidence);
  }

  /** A unit with the space before it, in words where it is one. */
  private String unit(String unit) {
    if (unit.isEmpty()) {
      return "";
    }
    String key = "unit." + unit;
    return " " + (has(key) ? words(key) : unit);
  }

  boolean has(String key) {
    return bundles.stream().anyMatch(bundle -> bundle.containsKey(key));
  }

  private String words(String key) {
    for (ResourceBundle bundle : bundles) {
      if (bundle.containsKey(key)) {
        return bundle.getString(key);
      }
    }
    throw new IllegalArgumentException(
        "No words are written for \"%s\"; they belong into one of %s.properties."
            .formatted(key, BUNDLES));
  }
}
