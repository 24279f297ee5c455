/** First bytes of kinds of video file this program can't read but can name. */
const marks: readonly { readonly name: string; readonly at: number; readonly ascii: string }[] = [
  { name: 'AVI', at: 8, ascii: 'AVI ' },
  { name: 'Windows Media (ASF)', at: 0, ascii: '\x30\x26\xb2\x75\x8e\x66\xcf\x11' },
  { name: 'Flash Video', at: 0, ascii: 'FLV' },
  { name: 'MPEG program stream', at: 0, ascii: '\x00\x00\x01\xba' },
  { name: 'MPEG video stream', at: 0, ascii: '\x00\x00\x01\xb3' },
  { name: 'MXF', at: 0, ascii: '\x06\x0e\x2b\x34' },
  { name: 'RealMedia', at: 0, ascii: '.RMF' },
  { name: 'DV', at: 0, ascii: '\x1f\x07\x00' },
];

/** Names the kind of a video file from its first bytes (12 or more) when it is one this program can't read. */
export function unreadableContainer(head: Uint8Array): string | null {
  const found = marks.find(({ at, ascii }) =>
    Array.from(ascii).every((letter, place) => head[at + place] === letter.charCodeAt(0)),
  );
  return found?.name ?? null;
}

/** True when the first bytes look like an MP4 or QuickTime file, whole or not. */
export function looksLikeMp4(head: Uint8Array): boolean {
  const box = String.fromCharCode(...head.subarray(4, 8));
  return ['ftyp', 'moov', 'mdat', 'free', 'wide', 'skip', 'styp', 'moof'].includes(box);
}
