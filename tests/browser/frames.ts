import type { Page } from "playwright-core";

/** Frames a second while a box is scrolled step by step, each frame one step, as a hand at the wheel would. */
export const framesWhileScrolling = (
  page: Page,
  selector: string,
  step: { readonly x: number; readonly y: number },
  frames = 90,
): Promise<number> =>
  page.evaluate(
    ([at, dx, dy, count]) =>
      new Promise<number>((resolve, reject) => {
        const box = document.querySelector(at);
        if (box === null) {
          reject(new Error(`nothing at ${at}`));
          return;
        }
        let left = count;
        let from = 0;
        const next = (now: number) => {
          if (from === 0) from = now;
          if (left-- === 0) {
            resolve((count * 1000) / (now - from));
            return;
          }
          box.scrollBy(dx, dy);
          requestAnimationFrame(next);
        };
        requestAnimationFrame(next);
      }),
    [selector, step.x, step.y, frames] as const,
  );
