import type { RequestHandler } from "express";
import { Problem } from "../errors/problem.ts";

const loopbackNames = new Set(["localhost", "127.0.0.1", "[::1]"]);

/** The host name of `host[:port]`, lower case; undefined when it is not one. */
function nameOf(host: string): string | undefined {
  try {
    return new URL(`http://${host}`).hostname.toLowerCase();
  } catch {
    return undefined;
  }
}

function refuse(header: string, value: string): Problem {
  return new Problem(
    "access-refused",
    `Only this program's own page may ask, from localhost; the request's ${header} is "${value.slice(0, 100)}". Open the address the program printed.`,
  );
}

/**
 * Refuses requests that a page elsewhere could have caused: a Host that is no loopback name (a name rebound
 * to 127.0.0.1), an Origin other than the address asked, or a browser's own word that the request is cross-site.
 * Sources: RFC 6454 section 7 (Origin); W3C, "Fetch Metadata Request Headers".
 */
export const ownPageOnly: RequestHandler = (request, _response, next) => {
  const host = request.headers.host ?? "";
  const name = nameOf(host);
  if (name === undefined || !loopbackNames.has(name)) throw refuse("Host", host);
  const origin = request.headers.origin;
  if (origin !== undefined && origin.toLowerCase() !== `http://${host.toLowerCase()}`) {
    throw refuse("Origin", origin);
  }
  const site = request.headers["sec-fetch-site"];
  const isNavigation = request.method === "GET" && request.headers["sec-fetch-mode"] === "navigate";
  if ((site === "cross-site" || site === "same-site") && !isNavigation) {
    throw refuse("Sec-Fetch-Site", String(site));
  }
  next();
};
