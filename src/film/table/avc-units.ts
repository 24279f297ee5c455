/** Splits H.264 packets into NAL units: by start codes, or by lengths of `lengthBytes` (1 to 4) before each unit. */
export function avcUnits(packet: Uint8Array, lengthBytes: number | null): Uint8Array[] {
  return lengthBytes === null ? byStartCodes(packet) : byLengths(packet, lengthBytes);
}

function byLengths(packet: Uint8Array, lengthBytes: number): Uint8Array[] {
  const units: Uint8Array[] = [];
  let at = 0;
  while (at + lengthBytes < packet.length) {
    let length = 0;
    for (let byte = 0; byte < lengthBytes; byte += 1) length = length * 256 + (packet[at + byte] ?? 0);
    at += lengthBytes;
    units.push(packet.subarray(at, at + length));
    at += length;
  }
  return units;
}

function byStartCodes(packet: Uint8Array): Uint8Array[] {
  const starts: number[] = [];
  for (let at = 0; at + 2 < packet.length; at += 1) {
    if (packet[at] === 0 && packet[at + 1] === 0 && packet[at + 2] === 1) starts.push(at + 3);
  }
  return starts.map((start, place) => packet.subarray(start, (starts[place + 1] ?? packet.length + 3) - 3));
}

/** What an `avcC` record says: the bytes of each length, and the sequence parameter sets (ISO/IEC 14496-15, 5.3.3). */
export function avcRecord(record: Uint8Array): { readonly lengthBytes: number; readonly sequenceSets: Uint8Array[] } {
  const sequenceSets: Uint8Array[] = [];
  let at = 6;
  for (let set = 0; set < ((record[5] ?? 0) & 0x1f); set += 1) {
    const length = (record[at] ?? 0) * 256 + (record[at + 1] ?? 0);
    sequenceSets.push(record.subarray(at + 2, at + 2 + length));
    at += 2 + length;
  }
  return { lengthBytes: ((record[4] ?? 3) & 3) + 1, sequenceSets };
}
