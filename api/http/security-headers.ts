import { createHash } from "node:crypto";
import type { RequestHandler } from "express";

/** The one style element the component library adds at run time, to the letter: it is let through by its hash. */
export const pressableStyleText = `@layer {
  [data-react-aria-pressable] {
    touch-action: pan-x pan-y pinch-zoom;
  }
}`;

const pressableStyle = `'sha256-${createHash("sha256").update(pressableStyleText).digest("base64")}'`;

const contentSecurityPolicy = [
  "default-src 'none'",
  "script-src 'self'",
  `style-src 'self' ${pressableStyle}`,
  "img-src 'self' data:",
  "font-src 'self'",
  "connect-src 'self'",
  "manifest-src 'self'",
  "worker-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join("; ");

/** Headers of every answer: no foreign code, no framing, no guessing of types, no address passed on. */
export const securityHeaders: RequestHandler = (_request, response, next) => {
  response.set({
    "Content-Security-Policy": contentSecurityPolicy,
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "no-referrer",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "X-Frame-Options": "DENY",
  });
  next();
};
