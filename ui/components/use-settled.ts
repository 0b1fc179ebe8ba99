import { startTransition, useEffect, useState } from "react";
import { flushSync } from "react-dom";

/**
 * False while a thing first stands on the page, true from soon after, in a redraw that holds up neither the page nor
 * the hand: what may come a moment later waits for it. True at once where `isAtOnce`.
 */
export function useSettled(isAtOnce = false): boolean {
  const [isSettled, setSettled] = useState(isAtOnce);
  useEffect(() => {
    startTransition(() => setSettled(true));
    // Paper never gets less than the whole, however soon it is asked for.
    const atOnce = () => flushSync(() => setSettled(true));
    window.addEventListener("beforeprint", atOnce);
    return () => window.removeEventListener("beforeprint", atOnce);
  }, []);
  return isSettled;
}
