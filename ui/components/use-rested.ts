import { useEffect, useState } from "react";

/** Rest of the fingers before a question is asked, in milliseconds. */
const rest = 40;

/** The text, trimmed, once the fingers have rested. */
export function useRested(text: string): string {
  const [rested, setRested] = useState(text);
  useEffect(() => {
    const timer = window.setTimeout(() => setRested(text.trim()), rest);
    return () => window.clearTimeout(timer);
  }, [text]);
  return rested;
}
