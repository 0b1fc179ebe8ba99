import { startTransition, useEffect, useState } from "react";

/**
 * False while a thing first stands on the page, true from soon after, in a redraw that holds up neither the page nor
 * the hand: what may come a moment later waits for it. True at once where `isAtOnce`.
 */
export function useSettled(isAtOnce = false): boolean {
  const [isSettled, setSettled] = useState(isAtOnce);
  useEffect(() => startTransition(() => setSettled(true)), []);
  return isSettled;
}
