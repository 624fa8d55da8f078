/**
 * FORM: which stretches are the same music. Features and bars enter; sections with letters leave.
 *
 * <p>Bars are described ({@link undersong.estimate.form.BarDescriptions}), compared with each other
 * ({@link undersong.estimate.form.SelfSimilarity}), cut into sections ({@link
 * undersong.estimate.form.SectionCuts}) and lettered ({@link
 * undersong.estimate.form.SectionLetters}).
 */
package undersong.estimate.form;
