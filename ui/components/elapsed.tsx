import { useEffect, useState } from "react";
import { Button } from "react-aria-components";

/** Whole seconds since this stands on the page. */
function useSeconds(): number {
  const [seconds, setSeconds] = useState(0);
  useEffect(() => {
    const from = performance.now();
    const tick = window.setInterval(
      () => setSeconds(Math.floor((performance.now() - from) / 1000)),
      250,
    );
    return () => window.clearInterval(tick);
  }, []);
  return seconds;
}

/** How long an answer has been worked on, told once that is a second; seen only, so that no reader aloud counts along. */
export function Elapsed({ most }: { readonly most?: number }) {
  const seconds = useSeconds();
  if (seconds < 1) return null;
  return (
    <span className="elapsed" aria-hidden="true">
      {seconds} s{most === undefined ? "" : ` of at most ${most}`}{" "}
    </span>
  );
}

/** Stops what takes over a second. */
export function StopButton({ stop }: { readonly stop: () => void }) {
  const seconds = useSeconds();
  if (seconds < 1) return null;
  return (
    <Button className="quiet stop" onPress={stop}>
      Stop
    </Button>
  );
}
