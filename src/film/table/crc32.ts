const steps = new Uint32Array(256).map((_, byte) => {
  let value = byte;
  for (let bit = 0; bit < 8; bit += 1) value = value & 1 ? (value >>> 1) ^ 0xedb88320 : value >>> 1;
  return value;
});

/**
 * The CRC-32 of some bytes (ISO 3309, the one of zip and PNG): 0 to 2^32 - 1. Own code because it must run without
 * waiting in Node and in a worker, and neither offers it in both.
 */
export function crc32(bytes: Uint8Array): number {
  let value = 0xffffffff;
  for (let at = 0; at < bytes.length; at += 1) {
    value = (value >>> 8) ^ (steps[(value ^ (bytes[at] ?? 0)) & 0xff] ?? 0);
  }
  return (value ^ 0xffffffff) >>> 0;
}
