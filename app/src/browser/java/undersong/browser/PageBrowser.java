package undersong.browser;

import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.logging.Level;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import org.openqa.selenium.By;
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
public final class PageBrowser implements AutoCloseable {
  private static final List<Path> DRIVERS =
      List.of(Path.of("/usr/bin/chromedriver"), Path.of("/usr/lib/chromium/chromedriver"));
  private static final List<Path> BROWSERS =
      List.of(Path.of("/usr/bin/chromium"), Path.of("/usr/bin/chromium-browser"));
  private static final Path AXE = Path.of("..", "desk", "node_modules", "axe-core", "axe.min.js");
  private static final Duration PATIENCE = Duration.ofSeconds(60);
  private static final Duration LONGEST_SCRIPT = Duration.ofMinutes(5);

  private final ChromeDriver driver;

  private PageBrowser(ChromeDriver driver) {
    this.driver = driver;
  }

  /** Whether there is a browser to drive and a page to show in it. */
  public static boolean isThere() {
    return first(DRIVERS).isPresent()
        && first(BROWSERS).isPresent()
        && PageBrowser.class.getResource("/undersong/desk/page/index.html") != null;
  }

  private static Optional<Path> first(List<Path> paths) {
    return paths.stream().filter(Files::isExecutable).findFirst();
  }

  public static PageBrowser open() {
    return open(List.of());
  }

  /**
   * A browser whose microphone hears a file over and over, and is allowed to every page.
   *
   * @param wav 16-bit PCM
   */
  public static PageBrowser hearing(Path wav) {
    return open(
        List.of(
            "--use-fake-ui-for-media-stream",
            "--use-fake-device-for-media-stream",
            "--use-file-for-fake-audio-capture=" + wav.toAbsolutePath()));
  }

  private static PageBrowser open(List<String> more) {
    ChromeOptions options = new ChromeOptions();
    options.setBinary(first(BROWSERS).orElseThrow().toFile());
    options.addArguments(
        "--headless=new",
        "--no-sandbox",
        "--disable-gpu",
        "--disable-dev-shm-usage",
        "--window-size=1440,1000");
    options.addArguments(more);
    LoggingPreferences logs = new LoggingPreferences();
    logs.enable(LogType.BROWSER, Level.ALL);
    options.setCapability("goog:loggingPrefs", logs);
    ChromeDriverService service =
        new ChromeDriverService.Builder()
            .usingDriverExecutable(first(DRIVERS).orElseThrow().toFile())
            .build();
    ChromeDriver driver = new ChromeDriver(service, options);
    driver.manage().timeouts().scriptTimeout(LONGEST_SCRIPT);
    return new PageBrowser(driver);
  }

  public void go(Object address) {
    // Another hash alone would not load the page anew.
    driver.get("about:blank");
    driver.get(address.toString());
  }

  /** The page's own size: a window without a screen is no narrower than 500 pixels. */
  public void size(int width, int height) {
    driver.executeCdpCommand(
        "Emulation.setDeviceMetricsOverride",
        Map.of("width", width, "height", height, "deviceScaleFactor", 1, "mobile", false));
  }

  /** As the system wishes for dark or for light. */
  public void dark(boolean dark) {
    driver.executeCdpCommand(
        "Emulation.setEmulatedMedia",
        Map.of(
            "features",
            List.of(Map.of("name", "prefers-color-scheme", "value", dark ? "dark" : "light"))));
  }

  /** A script that runs in every page before its own. */
  public void onEveryPage(String script) {
    driver.executeCdpCommand("Page.addScriptToEvaluateOnNewDocument", Map.of("source", script));
  }

  /** A command of the browser's own tools that needs no words. */
  public void tools(String command) {
    driver.executeCdpCommand(command, Map.of());
  }

  public ProcessHandle browserProcess() {
    long pid = ((Number) driver.getCapabilities().getCapability("goog:processID")).longValue();
    return ProcessHandle.of(pid).orElseThrow();
  }

  /** Waits until a script's answer is true. */
  public void until(String what, String script, Object... arguments) {
    new WebDriverWait(driver, PATIENCE)
        .withMessage(what)
        .until(any -> Boolean.TRUE.equals(run("return " + script, arguments)));
  }

  public WebElement see(String selector) {
    new WebDriverWait(driver, PATIENCE)
        .withMessage("no " + selector)
        .until(any -> !driver.findElements(By.cssSelector(selector)).isEmpty());
    return driver.findElement(By.cssSelector(selector));
  }

  public List<String> texts(String selector) {
    Object found =
        run(
            "return [...document.querySelectorAll(arguments[0])].map(e => e.textContent)",
            selector);
    return ((List<?>) found).stream().map(String::valueOf).toList();
  }

  public String text(String selector) {
    return String.valueOf(
        run("return document.querySelector(arguments[0])?.textContent", selector));
  }

  public Object run(String script, Object... arguments) {
    return ((JavascriptExecutor) driver).executeScript(script, arguments);
  }

  /** Runs a script that ends with a promise; throws where the promise is broken. */
  public Object await(String script, Object... arguments) {
    Object answer =
        ((JavascriptExecutor) driver)
            .executeAsyncScript(
                "const done = arguments[arguments.length - 1]; const given ="
                    + " [...arguments].slice(0, -1);(async (...arguments_) => {"
                    + script
                    + "})(...given).then(done, trouble => done('TROUBLE ' + trouble))",
                arguments);
    if (answer instanceof String words && words.startsWith("TROUBLE ")) {
      throw new IllegalStateException("The page's script failed: " + words.substring(8));
    }
    return answer;
  }

  /** Presses keys where the focus is. */
  public void press(CharSequence... keys) {
    Actions actions = new Actions(driver);
    for (CharSequence key : keys) {
      actions.sendKeys(key);
    }
    actions.perform();
  }

  public void pressWith(Keys held, CharSequence key) {
    new Actions(driver).keyDown(held).sendKeys(key).keyUp(held).perform();
  }

  public Path picture(String name) throws IOException {
    Path file = Files.createDirectories(Path.of("target", "pictures")).resolve(name + ".png");
    return Files.write(file, ((TakesScreenshot) driver).getScreenshotAs(OutputType.BYTES));
  }

  /** A part of the page as it is drawn now, which scrolls into view. */
  public BufferedImage drawn(String selector) throws IOException {
    byte[] png = see(selector).getScreenshotAs(OutputType.BYTES);
    return ImageIO.read(new ByteArrayInputStream(png));
  }

  /** Whether the reader of the rules of access is installed. */
  public static boolean readsRulesOfAccess() {
    return Files.exists(AXE);
  }

  /** Serious faults by the rules of WCAG 2.2, A and AA, that axe-core finds. */
  public List<String> faultsOfAccess() throws IOException {
    run(Files.readString(AXE));
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
  public Stream<String> complaints() {
    return driver.manage().logs().get(LogType.BROWSER).getAll().stream()
        .filter(entry -> entry.getLevel().intValue() >= Level.WARNING.intValue())
        .map(LogEntry::getMessage);
  }

  @Override
  public void close() {
    driver.quit();
  }
}
