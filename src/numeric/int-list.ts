/** A list of 32-bit integers that grows, for lists of millions where an ordinary array costs the collector dear. */
export class IntList {
  items: Int32Array;
  length = 0;

  /** @param room how many to make room for at first */
  constructor(room: number) {
    this.items = new Int32Array(Math.max(1, room));
  }

  push(item: number): void {
    if (this.length === this.items.length) {
      const larger = new Int32Array(2 * this.length);
      larger.set(this.items);
      this.items = larger;
    }
    this.items[this.length++] = item;
  }

  /** A copy of just what was pushed. */
  toArray(): Int32Array {
    return this.items.slice(0, this.length);
  }
}
