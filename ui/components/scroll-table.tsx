import type { ReactNode } from "react";

/** A table that scrolls inside its own box, reachable by keyboard, named by its caption. */
export function ScrollTable({
  caption,
  children,
  className = "",
  captionHidden = false,
}: {
  readonly caption: string;
  readonly children: ReactNode;
  readonly className?: string;
  readonly captionHidden?: boolean;
}) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a scrolling box must be reachable by keyboard (WCAG 2.1.1)
    <section className={`table-box ${className}`} aria-label={caption} tabIndex={0}>
      <table>
        <caption className={captionHidden ? "hidden" : ""}>{caption}</caption>
        {children}
      </table>
    </section>
  );
}
