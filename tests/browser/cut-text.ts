import type { Page } from "playwright-core";

/**
 * Text that cannot be read whole: hidden by its own box, or beyond the edge of the page with nothing to scroll. Rows of
 * long tables, which open to show everything, and pictures with a table beside them may shorten theirs.
 */
export const cutText = (page: Page): Promise<readonly string[]> =>
  page.evaluate(() => {
    const found: string[] = [];
    const mayShorten =
      ".table-box.long, svg, .hidden, .sample, .cell-value, .matrix-box, canvas, .label-sheets, .skip, .choice-value, [hidden]";
    const scrolls = (element: Element | null): boolean => {
      for (let at = element; at !== null; at = at.parentElement) {
        const { overflowX } = getComputedStyle(at);
        if ((overflowX === "auto" || overflowX === "scroll") && at !== document.documentElement)
          return true;
      }
      return false;
    };
    for (const element of document.querySelectorAll("body *")) {
      if (element.closest(mayShorten) !== null) continue;
      const texts = [...element.childNodes].filter(
        (node) => node.nodeType === Node.TEXT_NODE && (node.textContent ?? "").trim() !== "",
      );
      if (texts.length === 0) continue;
      // The words' own place: they may stand out of their element's box.
      const places = texts.map((text) => {
        const range = document.createRange();
        range.selectNodeContents(text);
        return range.getBoundingClientRect();
      });
      const box = {
        left: Math.min(...places.map(({ left }) => left)),
        right: Math.max(...places.map(({ right }) => right)),
      };
      if (box.right - box.left === 0) continue;
      const style = getComputedStyle(element);
      const words = `${element.tagName.toLowerCase()}.${element.className} “${(element.textContent ?? "").trim().slice(0, 50)}”`;
      const hides = style.overflowX === "hidden" || style.overflowX === "clip";
      if (hides && element.scrollWidth > element.clientWidth + 1) found.push(`cut: ${words}`);
      const hidesDown = style.overflowY === "hidden" || style.overflowY === "clip";
      if (hidesDown && element.scrollHeight > element.clientHeight + 2)
        found.push(`cut below: ${words}`);
      if ((box.right > window.innerWidth + 1 || box.left < -1) && !scrolls(element))
        found.push(`beyond the edge: ${words}`);
    }
    return found;
  });
