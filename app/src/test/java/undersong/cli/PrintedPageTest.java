package undersong.cli;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

/** The size of paper a page is printed on, named as CSS Paged Media Level 3 names it. */
class PrintedPageTest {
  @Test
  void theSizeIsAskedForInTheHeadAndOnlyThere() {
    String page = "<html><head><style>@page{margin:18mm}</style></head><body></head></body></html>";
    assertThat(PrintedPage.sized(page, PrintedPage.Paper.A4))
        .isEqualTo(
            "<html><head><style>@page{margin:18mm}</style><style>@page { size: a4; }</style>\n"
                + "</head><body></head></body></html>");
    assertThat(PrintedPage.sized(page, PrintedPage.Paper.LETTER)).contains("size: letter;");
  }
}
