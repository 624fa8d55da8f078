/**
 * Findings: readings in, named techniques with their evidence out. No audio, no features, nothing
 * stored.
 *
 * <p>A {@link undersong.technique.Technique} is a name in the catalogue. Who can find it is a
 * {@link undersong.technique.TechniqueFinder}: one small class per technique or close family, in
 * the package of its family, with all its limits in one settings record. A family package lists its
 * finders in one public class (such as {@code ProductionFinders.all()}), {@code study} hands the
 * lists to {@link undersong.technique.Techniques}, which runs them, settles which of several names
 * for the same notes is told, and calibrates how sure.
 *
 * <p>To write a finder: name the facets it reads (it is shown these and no others, and does not run
 * where one is missing); give one {@link undersong.technique.Finding} per occurrence; give those of
 * one section, or of all copies of one section, the same group; multiply into the probability how
 * sure every chord, bar line, octave or boundary is on which it rests ({@link
 * undersong.technique.Certainty}); state as evidence what to listen to, what was measured against
 * which limit, what was read. Silence, no pulse, no key: no findings, never an error.
 *
 * <p>Sentences are not written in code: a {@link undersong.technique.Sentence} is a key and its
 * arguments, the words stand in {@code harmony.properties}, {@code melody.properties}, {@code
 * rhythm.properties}, {@code form.properties} and {@code production.properties} beside {@code
 * catalogue.properties}, which holds name, definition, what to listen for, how to try it and source
 * of every technique. Keys begin with the technique's id: {@code riff.summary}. Words are formats
 * of {@link java.text.MessageFormat}: an apostrophe is written twice, numbers go through the locale
 * ({@code {0,number,0.0}}).
 */
package undersong.technique;
