/** Told as work goes on; `done` never falls within a stage. */
export type Progress = (stage: string, done: number, total: number) => void;

const patienceMs = 1000;
const everyMs = 100;

/** Progress on the error stream, once work takes over a second and only where a person watches. */
export function showProgress(): { readonly progress: Progress; readonly finish: () => void } {
  const stream = process.stderr;
  if (!stream.isTTY) return { progress: () => undefined, finish: () => undefined };
  const started = performance.now();
  let last = 0;
  let isShown = false;
  return {
    progress: (stage, done, total) => {
      const now = performance.now();
      if (now - started < patienceMs || now - last < everyMs) return;
      last = now;
      isShown = true;
      const share = total > 0 ? Math.floor((100 * done) / total) : 0;
      stream.write(`\r\u001b[K${stage}: ${done} of ${total} (${share} %)`);
    },
    finish: () => {
      if (isShown) stream.write("\r\u001b[K");
    },
  };
}
