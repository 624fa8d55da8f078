package undersong.study;

import undersong.time.Span;

/** What is heard over a stretch of the recording, in words: "Am", "bar 3, 4/4", "verse". */
public record Stretch(Span span, String words) {}
