package undersong.desk;

import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.logging.Level;
import org.openqa.selenium.By;
import org.openqa.selenium.Dimension;
import org.openqa.selenium.OutputType;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.chrome.ChromeDriverService;
import org.openqa.selenium.chrome.ChromeOptions;
import org.openqa.selenium.logging.LogEntry;
import org.openqa.selenium.logging.LogType;
import org.openqa.selenium.logging.LoggingPreferences;
import org.openqa.selenium.support.ui.WebDriverWait;

/**
 * A browser without a screen, looking at a desk. Nothing is fetched: driver and browser are
 * Debian's.
 */
final class Browser implements AutoCloseable {
  private static final Duration PATIENCE = Duration.ofSeconds(60);

  private final ChromeDriver driver;

  private Browser(ChromeDriver driver) {
    this.driver = driver;
  }

  /** Opens a page; the test is left out where there is no browser or the page was not built. */
  static Browser open(TestDesk desk, String path, int width, int height) throws Exception {
    Optional<Path> chromium = program("chromium", "chromium-browser", "google-chrome");
    Optional<Path> chromedriver = program("chromedriver");
    assumeTrue(
        chromium.isPresent() && chromedriver.isPresent(),
        "no browser here (Debian: apt-get install chromium chromium-driver)");
    assumeTrue(
        Browser.class.getResource("/undersong/desk/page/index.html") != null,
        "the page was not built (needs Node 20)");
    LoggingPreferences logs = new LoggingPreferences();
    logs.enable(LogType.BROWSER, Level.ALL);
    ChromeOptions options = new ChromeOptions();
    options.setBinary(chromium.get().toString());
    options.setCapability("goog:loggingPrefs", logs);
    options.addArguments(
        "--headless=new",
        "--no-sandbox", // tests may run as root, where the sandbox refuses
        "--disable-dev-shm-usage",
        "--disable-gpu",
        "--autoplay-policy=no-user-gesture-required",
        "--window-size=" + width + "," + height);
    ChromeDriverService service =
        new ChromeDriverService.Builder()
            .usingDriverExecutable(chromedriver.get().toFile())
            .build();
    Browser browser = new Browser(new ChromeDriver(service, options));
    browser.driver.manage().window().setSize(new Dimension(width, height));
    browser.driver.get(desk.uri(path).toString());
    return browser;
  }

  private static Optional<Path> program(String... names) {
    for (String name : names) {
      for (String folder : System.getenv("PATH").split(java.io.File.pathSeparator, -1)) {
        Path file = Path.of(folder, name);
        if (Files.isExecutable(file)) {
          return Optional.of(file);
        }
      }
    }
    return Optional.empty();
  }

  ChromeDriver driver() {
    return driver;
  }

  /** The first element that fits, once there is one. */
  WebElement find(By where) {
    return new WebDriverWait(driver, PATIENCE)
        .until(
            any -> {
              List<WebElement> found = driver.findElements(where);
              return found.isEmpty() ? null : found.get(0);
            });
  }

  /** Waits until the page shows these words. */
  void awaitWords(String words) {
    new WebDriverWait(driver, PATIENCE)
        .until(any -> driver.findElement(By.tagName("body")).getText().contains(words));
  }

  /** What a script in the page answers. */
  Object run(String script, Object... arguments) {
    return driver.executeScript(script, arguments);
  }

  /** What the browser complained of, broken rules of the server included. */
  List<String> complaints() {
    return driver.manage().logs().get(LogType.BROWSER).getAll().stream()
        .filter(entry -> entry.getLevel().intValue() >= Level.WARNING.intValue())
        .map(LogEntry::getMessage)
        .toList();
  }

  byte[] picture() {
    return driver.getScreenshotAs(OutputType.BYTES);
  }

  @Override
  public void close() {
    driver.quit();
  }
}
