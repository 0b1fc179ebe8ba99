import { useEffect, useState } from "react";
import { flushSync } from "react-dom";
import { preferences } from "../data/preferences.ts";

let paper: CSSStyleSheet | undefined;

/** Sets the size of paper the reader chose; a sheet of its own, as the page's policy allows no style in the page. */
function choosePaper(): void {
  paper ??= new CSSStyleSheet();
  paper.replaceSync(`@page { size: ${preferences().paper}; }`);
  if (!document.adoptedStyleSheets.includes(paper)) document.adoptedStyleSheets.push(paper);
}

/** Whether the page is just being printed: what stands on paper only is drawn then and not before. */
export function useIsPrinting(): boolean {
  const [isPrinting, setPrinting] = useState(false);
  useEffect(() => {
    const before = () => {
      choosePaper();
      flushSync(() => setPrinting(true));
    };
    const after = () => setPrinting(false);
    window.addEventListener("beforeprint", before);
    window.addEventListener("afterprint", after);
    return () => {
      window.removeEventListener("beforeprint", before);
      window.removeEventListener("afterprint", after);
    };
  }, []);
  return isPrinting;
}
