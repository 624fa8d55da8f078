package undersong.bench.desk;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import undersong.browser.PageBrowser;

/**
 * What a listener waits for at the page, timed in the page itself, up to the frame that shows it.
 */
final class PageTimes {
  private static final String WATCH =
      """
      window.seenAt = {};
      const marks = %s;
      const frame = then => requestAnimationFrame(() => setTimeout(then));
      const look = () => {
        for (const [name, selector] of Object.entries(marks)) {
          if (window.seenAt[name] === undefined && document.querySelector(selector)) {
            window.seenAt[name] = 0;
            frame(() => { window.seenAt[name] = performance.now(); });
          }
        }
      };
      new MutationObserver(look).observe(document, {childList: true, subtree: true});
      """;

  private final PageBrowser browser;
  private final RunningDesk desk;

  PageTimes(PageBrowser browser, RunningDesk desk) {
    this.browser = browser;
    this.desk = desk;
    browser.onEveryPage(
        WATCH.formatted(
            "{title: 'main h1', music: '.stack .symbol', findings: '.finding', songs: '.songs th"
                + " a'}"));
  }

  /** From the address to what there is to see first: the list of songs. */
  double shelf() {
    browser.go(desk.at(""));
    return seen("songs");
  }

  /**
   * Milliseconds to the song's title, to its first rows of music, to the page with its findings.
   */
  Loaded song(long song) {
    browser.go(desk.at("#/song/" + song));
    double whole = seen("findings");
    return new Loaded(seen("title"), seen("music"), Math.max(whole, seen("music")));
  }

  record Loaded(double titleMs, double musicMs, double wholeMs) {}

  private double seen(String mark) {
    browser.until("no " + mark, "window.seenAt?.[arguments[0]] > 0", mark);
    return ((Number) browser.run("return window.seenAt[arguments[0]]", mark)).doubleValue();
  }

  /**
   * Chords said in the form of close listening, each undone before the next: from the press to the
   * frame after the rows were drawn anew, and to the frame after the findings were too. Each is
   * undone before, while or after its findings are looked for; the next is said when those have
   * come.
   */
  Corrected corrections(long song, int count) {
    browser.go(desk.at("#/song/" + song));
    browser.see(".finding");
    Object took =
        browser.await(
            """
            const count = arguments_[0];
            const wait = ms => new Promise(done => setTimeout(done, ms));
            const frame = () => new Promise(done => requestAnimationFrame(() => setTimeout(done)));
            const revision = () => Number(document.querySelector('main').dataset.revision);
            const whole = () => Number(document.querySelector('.margin').dataset.revision);
            let pressed = 0;
            const drawn = async act => {
              const before = revision(), from = pressed = performance.now();
              act();
              while (revision() === before) {
                if (performance.now() - from > 20000) throw new Error('nothing was drawn; ' + (document.querySelector('.trouble')?.textContent ?? 'no trouble told'));
                await frame();
              }
              return performance.now() - from;
            };
            const type = (input, words) => {
              Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value').set.call(input, words);
              input.dispatchEvent(new Event('input', {bubbles: true}));
            };
            const key = (at, init) => at.dispatchEvent(new KeyboardEvent('keydown', {bubbles: true, cancelable: true, ...init}));
            const roots = ['C', 'Db', 'D', 'Eb', 'E', 'F', 'F#', 'G', 'Ab', 'A', 'Bb', 'B'];
            const said = [], undone = [], found = [];
            for (let i = 0; i < count; i++) {
              scrollTo(0, (document.documentElement.scrollHeight - innerHeight) * i / count);
              await wait(60);
              const cells = [...document.querySelectorAll('.cell')];
              const cell = cells[(7 * i) % cells.length];
              cell.focus();
              key(cell, {key: 'Enter'});
              await wait(60);
              const input = [...document.querySelectorAll('.part input')].find(one => one.placeholder === 'Gm7/Bb');
              type(input, roots[(5 * i) % 12] + (i % 2 ? 'm7' : 'maj7'));
              await wait(60);
              said.push(await drawn(() => input.form.requestSubmit()));
              await wait(60 + 40 * (i % 10));
              undone.push(await drawn(() => [...document.querySelectorAll('button')].find(b => b.textContent === 'Undo').click()));
              while (whole() < revision()) {
                if (performance.now() - pressed > 20000) throw new Error('nothing was found');
                await frame();
              }
              found.push(performance.now() - pressed);
              await wait(60);
            }
            return {said, undone, found};
            """,
            count);
    Map<?, ?> answer = (Map<?, ?>) took;
    return new Corrected(
        numbers(answer.get("said")), numbers(answer.get("undone")), numbers(answer.get("found")));
  }

  /**
   * @param foundMs from the press of undo to the findings
   */
  record Corrected(List<Double> saidMs, List<Double> undoneMs, List<Double> foundMs) {}

  /** Lengths of frames while the page runs from its top to its foot and back, in milliseconds. */
  List<Double> scrolling(long song) {
    browser.go(desk.at("#/song/" + song));
    browser.see(".finding");
    return numbers(
        browser.await(
            """
            const frame = () => new Promise(done => requestAnimationFrame(done));
            await new Promise(done => setTimeout(done, 2000));
            const lengths = [];
            const end = document.documentElement.scrollHeight - innerHeight;
            let before = await frame();
            for (const way of [1, -1]) {
              for (let moved = 0; moved < end; moved += 60) {
                scrollBy(0, 60 * way);
                const now = await frame();
                lengths.push(now - before);
                before = now;
              }
            }
            return lengths;
            """));
  }

  static List<Double> numbers(Object list) {
    List<Double> numbers = new ArrayList<>();
    ((List<?>) list).forEach(value -> numbers.add(((Number) value).doubleValue()));
    return numbers;
  }
}
