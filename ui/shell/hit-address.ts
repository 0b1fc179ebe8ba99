import { writeRoute } from "../routing/route.ts";

/** Where a found record is looked at, or nothing where no page shows its kind. */
export function hitAddress(label: string, id: string): string | undefined {
  switch (label) {
    case "Part":
      return writeRoute("parts", [["part", id]]);
    case "Model":
      return writeRoute("gear", [["model", id]]);
    case "FittedItem":
      return writeRoute("gear", [["item", id]]);
    case "Vessel":
      return writeRoute("gear", [["vessel", id]]);
    case "Locker":
      return writeRoute("lockers", [["locker", id]]);
    case "Supplier":
      return writeRoute("suppliers", [["supplier", id]]);
    case "Maker":
      return writeRoute("parts", [["maker", id]]);
    default:
      return undefined;
  }
}
