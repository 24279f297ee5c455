/** A small seeded stream of numbers in [0, 1): shared by Node and the drawing page, where no package is loaded. */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

/** A seed from words, so that each play has its own stream whatever order plays are made in (FNV-1a). */
export function seedFrom(words: string): number {
  let hash = 0x811c9dc5;
  for (let at = 0; at < words.length; at += 1) {
    hash = Math.imul(hash ^ words.charCodeAt(at), 0x01000193);
  }
  return hash >>> 0;
}

/** A standard normal number from a seeded stream (sum of twelve uniforms: ample for scatter in a drawing). */
export function seededNormal(next: () => number): number {
  let sum = -6;
  for (let count = 0; count < 12; count += 1) sum += next();
  return sum;
}
