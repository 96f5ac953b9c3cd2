/** The pages of an Ogg file (RFC 3533), checked before any other program sees them. */

const HEADER_BYTES = 27;
const CHECKSUM_AT = 22;
const IS_FIRST = 0x02;

/** Checksums of single bytes: polynomial 0x04c11db7, nothing reflected, starting at 0 (RFC 3533, section 6). */
const CHECKSUMS = Uint32Array.from({ length: 256 }, (_, byte) => {
  let sum = byte << 24;
  for (let bit = 0; bit < 8; bit += 1) sum = (sum << 1) ^ (sum < 0 ? 0x04c11db7 : 0);
  return sum >>> 0;
});

function checksumOf(bytes: Buffer): number {
  let sum = 0;
  for (let at = 0; at < bytes.length; at += 1) {
    // The checksum itself counts as zero.
    const byte = at >= CHECKSUM_AT && at < CHECKSUM_AT + 4 ? 0 : (bytes[at] ?? 0);
    sum = ((sum << 8) ^ (CHECKSUMS[((sum >>> 24) ^ byte) & 0xff] ?? 0)) >>> 0;
  }
  return sum;
}

/** The page that begins at a place, if a whole one does. */
function pageAt(bytes: Buffer, at: number): Buffer | undefined {
  if (at + HEADER_BYTES > bytes.length || bytes.toString('latin1', at, at + 4) !== 'OggS') return undefined;
  const segments = bytes[at + 26] ?? 0;
  const table = bytes.subarray(at + HEADER_BYTES, at + HEADER_BYTES + segments);
  const length = HEADER_BYTES + segments + table.reduce((sum, size) => sum + size, 0);
  if (table.length < segments || at + length > bytes.length) return undefined;
  const page = bytes.subarray(at, at + length);
  return checksumOf(page) === page.readUInt32LE(CHECKSUM_AT) ? page : undefined;
}

/** Pages of a note of the longest length, many times over. */
const MOST_PAGES = 2_000;

/** The whole pages from the beginning to the first that is damaged, cut off, or begins another recording. */
function wholePages(bytes: Buffer): Buffer[] {
  const pages: Buffer[] = [];
  for (let at = 0; pages.length < MOST_PAGES;) {
    const page = pageAt(bytes, at);
    const isAnother = pages.length > 0 && ((page?.[5] ?? 0) & IS_FIRST) !== 0;
    if (page === undefined || isAnother) return pages;
    pages.push(page);
    at += page.length;
  }
  return pages;
}

/** Opus counts 48,000 samples a second, whatever it was made from (RFC 7845, section 4). */
const OPUS_RATE = 48_000n;

export interface OpusNote {
  /** Its whole pages only. */
  bytes: Buffer;
  /** Length by the last page. */
  seconds: number;
}

/**
 * The whole beginning of an Ogg Opus file: its two headers (RFC 7845, section 3) and the sound up to the first damaged
 * page. Undefined where not even one page of sound is whole.
 */
export function opusNote(bytes: Buffer): OpusNote | undefined {
  const pages = wholePages(bytes);
  const [head, tags, ...sound] = pages;
  const isOpus = head?.includes('OpusHead') === true && tags?.includes('OpusTags') === true;
  const last = sound.at(-1);
  if (!isOpus || last === undefined) return undefined;
  const samples = last.readBigInt64LE(6);
  return { bytes: Buffer.concat(pages), seconds: samples < 0n ? 0 : Number(samples / OPUS_RATE) };
}
