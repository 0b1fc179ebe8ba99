import type { Page } from "playwright-core";

/** Pages of the masthead, each with something that stands there only when it has its answer. */
const wanted = [
  { title: "Parts", holds: "main table tbody a" },
  { title: "Suppliers", holds: "main table tbody th" },
  { title: "Crossing", holds: ".kit-section table tbody th" },
  { title: "Commonality", holds: "main table tbody th" },
  { title: "Settings", holds: "main h2" },
  { title: "Lockers", holds: "main table tbody th" },
  { title: "Gear", holds: "main table tbody a" },
  { title: "Overview", holds: "#ready-title" },
] as const;

/** Milliseconds from a press on a page's name. */
export interface PageChange {
  readonly title: string;
  /** To its heading. */
  readonly heading: number;
  /** To its answer: a table, a list, with nothing left that says "loading". */
  readonly content: number;
}

/** Goes through the pages of the masthead once; each time ends with the frame in which the thing stands on the page. */
export async function changePages(page: Page): Promise<readonly PageChange[]> {
  const changes: PageChange[] = [];
  for (const { title, holds } of wanted)
    changes.push(
      await page.evaluate(
        ([name, selector]) =>
          new Promise<PageChange>((resolve, reject) => {
            const link = [...document.querySelectorAll<HTMLAnchorElement>("nav a")].find(
              (entry) => entry.textContent === name,
            );
            if (link === undefined) {
              reject(new Error(`no page ${name}`));
              return;
            }
            const from = performance.now();
            let heading = Number.NaN;
            link.click();
            const look = () => {
              const now = performance.now() - from;
              const isThere =
                document.title.startsWith(name) && document.querySelector("main h1") !== null;
              if (isThere && Number.isNaN(heading)) heading = now;
              if (
                isThere &&
                document.querySelector(selector) !== null &&
                document.querySelector("main .loading") === null
              )
                resolve({ title: name, heading, content: now });
              else if (now > 60_000) reject(new Error(`${name} has nothing at ${selector}`));
              else requestAnimationFrame(look);
            };
            requestAnimationFrame(look);
          }),
        [title, holds] as const,
      ),
    );
  return changes;
}
