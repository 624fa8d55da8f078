package undersong.desk;

import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.logging.Level;
import java.util.stream.Stream;
import org.openqa.selenium.By;
import org.openqa.selenium.Dimension;
import org.openqa.selenium.JavascriptExecutor;
import org.openqa.selenium.Keys;
import org.openqa.selenium.OutputType;
import org.openqa.selenium.TakesScreenshot;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.chrome.ChromeDriverService;
import org.openqa.selenium.chrome.ChromeOptions;
import org.openqa.selenium.interactions.Actions;
import org.openqa.selenium.logging.LogEntry;
import org.openqa.selenium.logging.LogType;
import org.openqa.selenium.logging.LoggingPreferences;
import org.openqa.selenium.support.ui.WebDriverWait;

/** Debian's Chromium without a window, as a listener at the desk uses it. */
final class PageBrowser implements AutoCloseable {
  private static final List<Path> DRIVERS =
      List.of(Path.of("/usr/bin/chromedriver"), Path.of("/usr/lib/chromium/chromedriver"));
  private static final List<Path> BROWSERS =
      List.of(Path.of("/usr/bin/chromium"), Path.of("/usr/bin/chromium-browser"));
  private static final Duration PATIENCE = Duration.ofSeconds(60);

  private final ChromeDriver driver;

  private PageBrowser(ChromeDriver driver) {
    this.driver = driver;
  }

  /** Whether there is a browser to drive and a page to show in it. */
  static boolean isThere() {
    return first(DRIVERS).isPresent()
        && first(BROWSERS).isPresent()
        && PageBrowser.class.getResource("/undersong/desk/page/index.html") != null;
  }

  private static Optional<Path> first(List<Path> paths) {
    return paths.stream().filter(Files::isExecutable).findFirst();
  }

  static PageBrowser open() {
    ChromeOptions options = new ChromeOptions();
    options.setBinary(first(BROWSERS).orElseThrow().toFile());
    options.addArguments(
        "--headless=new",
        "--no-sandbox",
        "--disable-gpu",
        "--disable-dev-shm-usage",
        "--window-size=1440,1000");
    LoggingPreferences logs = new LoggingPreferences();
    logs.enable(LogType.BROWSER, Level.ALL);
    options.setCapability("goog:loggingPrefs", logs);
    ChromeDriverService service =
        new ChromeDriverService.Builder()
            .usingDriverExecutable(first(DRIVERS).orElseThrow().toFile())
            .build();
    ChromeDriver driver = new ChromeDriver(service, options);
    driver.manage().timeouts().scriptTimeout(PATIENCE);
    return new PageBrowser(driver);
  }

  void go(Object address) {
    // Another hash alone would not load the page anew.
    driver.get("about:blank");
    driver.get(address.toString());
  }

  void size(int width, int height) {
    driver.manage().window().setSize(new Dimension(width, height));
  }

  /** Waits until a script's answer is true. */
  void until(String what, String script, Object... arguments) {
    new WebDriverWait(driver, PATIENCE)
        .withMessage(what)
        .until(any -> Boolean.TRUE.equals(run("return " + script, arguments)));
  }

  WebElement see(String selector) {
    new WebDriverWait(driver, PATIENCE)
        .withMessage("no " + selector)
        .until(any -> !driver.findElements(By.cssSelector(selector)).isEmpty());
    return driver.findElement(By.cssSelector(selector));
  }

  List<String> texts(String selector) {
    Object found =
        run(
            "return [...document.querySelectorAll(arguments[0])].map(e => e.textContent)",
            selector);
    return ((List<?>) found).stream().map(String::valueOf).toList();
  }

  String text(String selector) {
    return String.valueOf(
        run("return document.querySelector(arguments[0])?.textContent", selector));
  }

  Object run(String script, Object... arguments) {
    return ((JavascriptExecutor) driver).executeScript(script, arguments);
  }

  /** Runs a script that ends with a promise. */
  Object await(String script, Object... arguments) {
    return ((JavascriptExecutor) driver)
        .executeAsyncScript(
            "const done = arguments[arguments.length - 1]; const given = [...arguments].slice(0,"
                + " -1);(async (...arguments_) => {"
                + script
                + "})(...given).then(done, trouble => done('TROUBLE ' + trouble))",
            arguments);
  }

  /** Presses keys where the focus is. */
  void press(CharSequence... keys) {
    Actions actions = new Actions(driver);
    for (CharSequence key : keys) {
      actions.sendKeys(key);
    }
    actions.perform();
  }

  void pressWith(Keys held, CharSequence key) {
    new Actions(driver).keyDown(held).sendKeys(key).keyUp(held).perform();
  }

  Path picture(String name) throws IOException {
    Path file = Files.createDirectories(Path.of("target", "pictures")).resolve(name + ".png");
    return Files.write(file, ((TakesScreenshot) driver).getScreenshotAs(OutputType.BYTES));
  }

  /** Serious faults by the rules of WCAG 2.2, A and AA, that axe-core finds. */
  List<String> faultsOfAccess() throws IOException {
    Path axe = Path.of("..", "desk", "node_modules", "axe-core", "axe.min.js");
    assumeTrue(Files.exists(axe), "axe-core is not installed");
    run(Files.readString(axe));
    Object faults =
        await(
            """
            const result = await axe.run(document, {runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa']});
            return result.violations.filter(v => v.impact === 'serious' || v.impact === 'critical')
              .map(v => v.id + ': ' + v.nodes.slice(0, 3).map(n => n.html).join(' | '));
            """);
    return ((List<?>) faults).stream().map(String::valueOf).toList();
  }

  /** What the browser complained of: errors of scripts, refused loads, broken rules of the page. */
  Stream<String> complaints() {
    return driver.manage().logs().get(LogType.BROWSER).getAll().stream()
        .filter(entry -> entry.getLevel().intValue() >= Level.WARNING.intValue())
        .map(LogEntry::getMessage);
  }

  @Override
  public void close() {
    driver.quit();
  }
}
