/** How fast and how surely the shelf finds, on thousands of generated songs. */
package undersong.bench.shelf;
