import type { DemandPlace } from "./crossing-model.ts";

/** The demands of one crossing, columns grown as needed and used again for the next. */
export class EventList {
  length = 0;
  day = new Float64Array(256);
  part = new Int32Array(256);
  item = new Int32Array(256);
  holder = new Int32Array(256);
  kind = new Uint8Array(256);

  add(place: DemandPlace, day: number): void {
    if (this.length === this.day.length) this.#grow();
    const at = this.length++;
    this.day[at] = day;
    this.part[at] = place.part;
    this.item[at] = place.item;
    this.holder[at] = place.holder;
    this.kind[at] = place.kind;
  }

  #grow(): void {
    const size = 2 * this.day.length;
    const wider = <T extends Float64Array | Int32Array | Uint8Array>(next: T, old: T): T => {
      next.set(old);
      return next;
    };
    this.day = wider(new Float64Array(size), this.day);
    this.part = wider(new Int32Array(size), this.part);
    this.item = wider(new Int32Array(size), this.item);
    this.holder = wider(new Int32Array(size), this.holder);
    this.kind = wider(new Uint8Array(size), this.kind);
  }
}
