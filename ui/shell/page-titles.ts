import type { PageName } from "../routing/route.ts";

/** What each page is called, in the masthead and in the window's title. */
export const pageTitles: Readonly<Record<PageName, string>> = {
  overview: "Overview",
  gear: "Gear",
  parts: "Parts",
  lockers: "Lockers",
  commonality: "Commonality",
  crossing: "Crossing",
  voyage: "Voyage",
  choosing: "Choosing",
  suppliers: "Suppliers",
  import: "Import",
  settings: "Settings",
  find: "Find",
  labels: "Labels",
  order: "Order",
  patterns: "Pattern book",
};
